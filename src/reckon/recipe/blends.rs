//! All blends in whole parts of twenty.

/// A blend is told in so many parts, 5 % each: finer than that no bucket measures.
pub const STEPS: u8 = 20;
/// The most materials to choose from.
pub const MOST_MATERIALS: usize = 5;

/// Parts of each material, in the order of the case; they add to [`STEPS`].
pub type Counts = [u8; MOST_MATERIALS];

/// Every blend of so many materials in steps of so many parts, which must divide [`STEPS`].
#[must_use]
pub fn grid(materials: usize, parts_at_a_time: u8) -> Vec<Counts> {
    fn fill(found: &mut Vec<Counts>, so_far: Counts, place: usize, left: u8, step: u8) {
        let mut here = so_far;
        if place == 0 {
            here[0] = left;
            found.push(here);
            return;
        }
        for parts in (0..=left).step_by(usize::from(step)) {
            here[place] = parts;
            fill(found, here, place - 1, left - parts, step);
        }
    }
    let mut found = Vec::new();
    if (1..=MOST_MATERIALS).contains(&materials) {
        let none = [0; MOST_MATERIALS];
        fill(&mut found, none, materials - 1, STEPS, parts_at_a_time);
    }
    found
}

/// The finest grid that can be looked through between two key presses.
#[must_use]
pub fn coarse_grid(materials: usize) -> Vec<Counts> {
    /// So many blends take no more than a frame or two on a slow tablet.
    const AT_MOST: usize = 130;
    /// Parts at a time that are tried, finest first.
    const PARTS_AT_A_TIME: [u8; 4] = [1, 2, 4, 5];
    PARTS_AT_A_TIME
        .into_iter()
        .map(|step| grid(materials, step))
        .find(|blends| blends.len() <= AT_MOST)
        .unwrap_or_else(|| grid(materials, STEPS))
}

/// How many parts of the one blend are something else in the other.
#[must_use]
pub fn parts_apart(one: &Counts, other: &Counts) -> u32 {
    let apart: u32 = one
        .iter()
        .zip(other)
        .map(|(a, b)| u32::from(a.abs_diff(*b)))
        .sum();
    apart / 2
}

/// The blends at which a quadratic over all blends is pinned: each material alone, and each two by
/// halves (the simplex lattice of Scheffé 1958, Journal of the Royal Statistical Society B 20:344).
#[must_use]
pub fn lattice(materials: usize) -> Vec<Counts> {
    grid(materials, STEPS / 2)
}

/// The quadratic of Scheffé through values at the [`lattice`]:
/// Σ yᵢ xᵢ + Σ (4 yᵢⱼ - 2 yᵢ - 2 yⱼ) xᵢ xⱼ, for a blend of shares x. Nought where a value is missing.
pub fn quadratic(lattice: &[(Counts, f64)], blend: &Counts) -> f64 {
    let share = |place: usize| f64::from(blend[place]) / f64::from(STEPS);
    let at = |one: usize, other: usize| {
        let mut counts = [0; MOST_MATERIALS];
        counts[one] += STEPS / 2;
        counts[other] += STEPS / 2;
        lattice
            .iter()
            .find(|(known, _)| *known == counts)
            .map_or(0.0, |(_, value)| *value)
    };
    let used: Vec<usize> = (0..MOST_MATERIALS).filter(|&i| blend[i] > 0).collect();
    let mut sum = 0.0;
    for (rank, &i) in used.iter().enumerate() {
        let y_i = at(i, i);
        sum += y_i * share(i);
        for &j in used.iter().skip(rank + 1) {
            let bend = 4.0 * at(i, j) - 2.0 * y_i - 2.0 * at(j, j);
            sum += bend * share(i) * share(j);
        }
    }
    sum
}

/// Parts of a blend divided by what divides them all: 12, 4 and 4 are 3, 1 and 1.
#[must_use]
pub fn in_lowest(counts: &Counts) -> Counts {
    fn common(a: u8, b: u8) -> u8 {
        if b == 0 { a } else { common(b, a % b) }
    }
    let divisor = counts.iter().copied().fold(0, common).max(1);
    let mut lowest = [0; MOST_MATERIALS];
    for (low, parts) in lowest.iter_mut().zip(counts) {
        *low = parts / divisor;
    }
    lowest
}
