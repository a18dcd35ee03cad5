//! What a few values of one's own tell of the next, beside what was known before.
//!
//! Values of a group (days of a crop in one house) scatter about a mean of the group, which itself lies somewhere about
//! what is printed. The few values of one's own draw that mean towards them, the more the more there are of them; they
//! never do away with the scatter from one to the next.

/// What is known before one's own values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Before {
    /// Where the mean of a group is thought to lie.
    pub mean: f64,
    /// How far a group's mean may lie from it: a standard deviation.
    pub of_groups: f64,
    /// How far one value lies from the mean of its group: a standard deviation.
    pub of_values: f64,
    /// Of how many values beyond one that scatter of values is worth.
    pub worth: f64,
}

/// A value of one's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// The value.
    pub value: f64,
    /// How far it may be misread: a standard deviation.
    pub misread: f64,
}

/// What is known with one's own values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shrunk {
    /// The mean of the group.
    pub mean: f64,
    /// Standard deviation of that mean.
    pub of_mean: f64,
    /// Standard deviation of the next value about that mean.
    pub of_next: f64,
}

/// The mean of a group by its own values, drawn towards what was known before.
///
/// The scatter of values is pooled: `worth` values of the scatter thought before and those seen, less what their
/// misreading explains. With that scatter the mean is that of normal values with a normal mean: each weighs the inverse
/// of its variance, and so does what was known before.
///
/// Source: Gelman and others 2013, Bayesian Data Analysis, 3rd edition, equations 2.11 and 2.12 (mean) and the scaled
/// inverse-χ² of section 3.2 (scatter); from memory. The next value's spread takes the scatter as known.
#[must_use]
pub fn shrunk(before: &Before, seen: &[Seen]) -> Shrunk {
    let many = seen.len() as f64;
    let scatter = if seen.len() < 2 {
        before.of_values.powi(2)
    } else {
        let mean = seen.iter().map(|one| one.value).sum::<f64>() / many;
        let squares: f64 = seen.iter().map(|one| (one.value - mean).powi(2)).sum();
        let misread: f64 = seen.iter().map(|one| one.misread.powi(2)).sum();
        let of_scatter = (squares - misread * (many - 1.0) / many).max(0.0);
        (before.worth * before.of_values.powi(2) + of_scatter) / (before.worth + many - 1.0)
    };
    let weight_before = 1.0 / before.of_groups.powi(2);
    let (mut weights, mut weighted) = (weight_before, weight_before * before.mean);
    for one in seen {
        let weight = 1.0 / (scatter + one.misread.powi(2));
        weights += weight;
        weighted += weight * one.value;
    }
    Shrunk {
        mean: weighted / weights,
        of_mean: (1.0 / weights).sqrt(),
        of_next: (1.0 / weights + scatter).sqrt(),
    }
}
