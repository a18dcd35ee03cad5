//! From numbers to the paper, and where the ticks go. Pure: no page is touched.

/// A straight scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    from: (f64, f64),
    to: (f64, f64),
}

impl Scale {
    /// The scale that takes the two numbers to the two places on the paper.
    #[must_use]
    pub const fn new(from: (f64, f64), to: (f64, f64)) -> Self {
        Self { from, to }
    }

    /// Where a number stands.
    #[must_use]
    pub fn at(&self, number: f64) -> f64 {
        let (low, high) = self.from;
        let (start, end) = self.to;
        start + (number - low) / (high - low) * (end - start)
    }
}

/// Round numbers from nought up to `high`: about `wanted` of them, stepped by 1, 2 or 5 times a power of ten.
#[must_use]
pub fn ticks(high: f64, wanted: usize) -> Vec<f64> {
    if !(high > 0.0 && high.is_finite()) || wanted == 0 {
        return vec![0.0];
    }
    let rough = high / wanted as f64;
    let power = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|times| times * power)
        .find(|step| *step >= rough)
        .unwrap_or(rough);
    let count = (high / step + 1e-9).floor() as usize;
    (0..=count).map(|index| index as f64 * step).collect()
}

/// Points as the `d` of a path, closed or not.
#[must_use]
pub fn path(points: impl IntoIterator<Item = (f64, f64)>, closed: bool) -> String {
    let mut d = String::new();
    for (index, (x, y)) in points.into_iter().enumerate() {
        d.push(if index == 0 { 'M' } else { 'L' });
        d.push_str(&tenths(x));
        d.push(' ');
        d.push_str(&tenths(y));
    }
    if closed {
        d.push('Z');
    }
    d
}

/// A place on the paper to a tenth of its unit, which is finer than any screen shows.
#[must_use]
pub fn tenths(place: f64) -> String {
    format!("{place:.1}")
}
