//! How many pots find room on a bench, counted as whole pots.

use std::fmt;

/// Sizes that no pots stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRoom;

impl fmt::Display for NoRoom {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("A bench needs a length and a breadth, and pots a distance, all above 0.")
    }
}

impl std::error::Error for NoRoom {}

/// What lies so near to a whole pot is one: lengths are typed in decimals.
const NEARLY: f64 = 1e-9;

fn whole(of: f64) -> u32 {
    (of + NEARLY).floor().clamp(0.0, f64::from(u32::MAX)) as u32
}

fn sound(length_m: f64, breadth_m: f64, apart_m: f64) -> Result<(), NoRoom> {
    let sound = |size: f64| size > 0.0 && size.is_finite();
    if sound(length_m) && sound(breadth_m) && sound(apart_m) {
        Ok(())
    } else {
        Err(NoRoom)
    }
}

/// Pots in squares, so far from middle to middle, each with half that distance around it.
///
/// # Errors
/// [`NoRoom`] where a size is not above nought.
pub fn in_squares(length_m: f64, breadth_m: f64, apart_m: f64) -> Result<u32, NoRoom> {
    sound(length_m, breadth_m, apart_m)?;
    Ok(whole(length_m / apart_m).saturating_mul(whole(breadth_m / apart_m)))
}

/// Pots in staggered rows along the length: each row √3/2 of the distance from the one before, every second one half
/// a pot along. On a narrow bench this may be fewer than in squares.
///
/// # Errors
/// [`NoRoom`] where a size is not above nought.
pub fn staggered(length_m: f64, breadth_m: f64, apart_m: f64) -> Result<u32, NoRoom> {
    sound(length_m, breadth_m, apart_m)?;
    if breadth_m + NEARLY < apart_m {
        return Ok(0);
    }
    let row_m = apart_m * 3.0_f64.sqrt() / 2.0;
    let rows = whole((breadth_m - apart_m) / row_m).saturating_add(1);
    let odd = whole(length_m / apart_m);
    let even = whole((length_m - apart_m / 2.0).max(0.0) / apart_m);
    let odds = rows.div_ceil(2);
    Ok(odd
        .saturating_mul(odds)
        .saturating_add(even.saturating_mul(rows - odds)))
}

/// The most that find room, whichever way they are set out.
///
/// # Errors
/// [`NoRoom`] where a size is not above nought.
pub fn most(length_m: f64, breadth_m: f64, apart_m: f64) -> Result<u32, NoRoom> {
    let ways = [
        in_squares(length_m, breadth_m, apart_m)?,
        staggered(length_m, breadth_m, apart_m)?,
        staggered(breadth_m, length_m, apart_m)?,
    ];
    Ok(ways.into_iter().max().unwrap_or(0))
}
