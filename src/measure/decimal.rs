//! From decimal digits to the nearest number, to the last bit.
//!
//! Rust's own parser does the same, quickly, with ten thousand bytes of powers that do not
//! compress. One number is read at a key press here, so plain division of whole numbers does,
//! and a phone fetches a seventh less. Both are held to each other in the tests.

/// The number nearest to digits with at most one point among them and an exponent of ten
/// behind an `e`, ties to even; beyond all numbers it is infinite. None if it is not of that form.
#[must_use]
pub fn nearest(text: &str) -> Option<f64> {
    let (number, power) = text.split_once(['e', 'E']).unwrap_or((text, "0"));
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let all_digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    if (whole.is_empty() && decimals.is_empty()) || !all_digits(whole) || !all_digits(decimals) {
        return None;
    }
    let digits = whole
        .bytes()
        .chain(decimals.bytes())
        .map(|byte| u32::from(byte - b'0'));
    let mut above = Whole::default();
    digits.for_each(|digit| above.times_and(10, digit));
    if above.is_nought() {
        return Some(0.0);
    }
    let power = exponent(power)? - i64::try_from(decimals.len()).ok()?;
    // Beyond these the answer is settled whatever the digits, of which there are few.
    const LARGE: i64 = 400;
    const SMALL: i64 = -800;
    let figures = i64::try_from(whole.len() + decimals.len()).ok()?;
    if power > LARGE {
        return Some(f64::INFINITY);
    }
    if power + figures < SMALL {
        return Some(0.0);
    }
    let mut below = Whole(vec![1]);
    let side = if power < 0 { &mut below } else { &mut above };
    (0..power.unsigned_abs()).for_each(|_| side.times_and(10, 0));
    // Two numbers that are exact divide to the nearest one in a single step (IEEE 754, 5.4.1).
    if let ([above], [below]) = (&*above.0, &*below.0) {
        return Some(f64::from(*above) / f64::from(*below));
    }
    Some(quotient(&above, &below))
}

/// A power of ten; one beyond all sense is cut to one that settles the answer just as well.
fn exponent(text: &str) -> Option<i64> {
    let digits = text.strip_prefix(['+', '-']).unwrap_or(text);
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    const BEYOND: i64 = 1_000_000;
    let size = digits.bytes().fold(0, |size: i64, byte| {
        (size * 10 + i64::from(byte - b'0')).min(BEYOND)
    });
    Some(if text.starts_with('-') { -size } else { size })
}

/// The number nearest to a quotient of whole numbers, ties to even.
fn quotient(above: &Whole, below: &Whole) -> f64 {
    /// Bits of a number's figures (IEEE 754 binary64).
    const FIGURES: i64 = 53;
    /// The finest step there is, as a power of two.
    const FINEST: i64 = -1074;
    let mut step = (above.bits() - below.bits() - FIGURES).max(FINEST);
    loop {
        let (figures, left, of) = divide(above, below, step);
        if figures >> FIGURES != 0 {
            step += 1;
            continue;
        }
        let twice = left.shifted(1);
        let up = twice > of || (twice == of && figures % 2 == 1);
        let rounded = (figures + u64::from(up)) as f64;
        // In two steps, since the whole power may lie beyond all numbers.
        let half = step / 2;
        return rounded * power_of_two(half) * power_of_two(step - half);
    }
}

fn power_of_two(power: i64) -> f64 {
    2f64.powi(power as i32)
}

/// How often `below × 2^step` goes into `above`, what is left, and what it is left of.
fn divide(above: &Whole, below: &Whole, step: i64) -> (u64, Whole, Whole) {
    let up = |whole: &Whole, by: i64| whole.shifted(u64::try_from(by).unwrap_or(0));
    let (mut left, of) = (up(above, -step), up(below, step));
    let mut times = 0;
    for bit in (0..u64::BITS - 8).rev() {
        let part = of.shifted(u64::from(bit));
        if left >= part {
            left.less(&part);
            times |= 1 << bit;
        }
    }
    (times, left, of)
}

/// A whole number of any size: digits of base 2³², the smallest first, none of them nought at the end.
#[derive(Default, PartialEq, Eq)]
struct Whole(Vec<u32>);

impl Whole {
    fn is_nought(&self) -> bool {
        self.0.is_empty()
    }

    fn bits(&self) -> i64 {
        self.0.last().map_or(0, |top| {
            self.0.len() as i64 * 32 - i64::from(top.leading_zeros())
        })
    }

    /// Multiplies by a small number and adds another.
    fn times_and(&mut self, times: u32, and: u32) {
        let mut carry = u64::from(and);
        for digit in &mut self.0 {
            carry += u64::from(*digit) * u64::from(times);
            *digit = carry as u32;
            carry >>= 32;
        }
        if carry > 0 {
            self.0.push(carry as u32);
        }
    }

    /// Of nought only by less than a whole digit.
    fn shifted(&self, by: u64) -> Self {
        let mut digits = vec![0; (by / 32) as usize];
        let mut carry = 0;
        for digit in &self.0 {
            carry |= u64::from(*digit) << (by % 32);
            digits.push(carry as u32);
            carry >>= 32;
        }
        if carry > 0 {
            digits.push(carry as u32);
        }
        Self(digits)
    }

    /// Takes away a number that is not larger.
    fn less(&mut self, other: &Self) {
        let mut borrow = 0;
        for (place, digit) in self.0.iter_mut().enumerate() {
            let taken = u64::from(other.0.get(place).copied().unwrap_or(0)) + borrow;
            let from = u64::from(*digit);
            borrow = u64::from(from < taken);
            *digit = (from + (borrow << 32) - taken) as u32;
        }
        while self.0.last() == Some(&0) {
            self.0.pop();
        }
    }
}

impl PartialOrd for Whole {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        let by_length = self.0.len().cmp(&other.0.len());
        Some(by_length.then_with(|| self.0.iter().rev().cmp(other.0.iter().rev())))
    }
}
