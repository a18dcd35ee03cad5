//! The sentences of the screens that hold more than one word of the page's own.

use super::version::Without;
use crate::measure::{NumberStyle, fixed};

/// The button that saves everything.
pub const TAKE_EVERYTHING: &str = "Save everything stored as a file";
/// Name of that file.
pub const EVERYTHING_FILE: &str = "longtom-everything.json";

/// A link that is none of ours.
#[must_use]
pub fn link_not_read() -> String {
    "This link's question cannot be read. The page opens as you left it.".to_owned()
}

/// A share of the whole, in whole per cent.
#[must_use]
pub fn percent(share: f64, style: NumberStyle) -> String {
    [&fixed(share * 100.0, 0, style), "%"].concat()
}

/// A length in whole millimetres.
#[must_use]
pub fn millimetres(mm: f64, style: NumberStyle) -> String {
    [&fixed(mm, 0, style), "\u{a0}mm"].concat()
}

/// An amount of storage.
#[must_use]
pub fn kilobytes(bytes: f64) -> String {
    format!("{:.0} kB", (bytes / 1000.0).max(1.0))
}

/// How things stand with use without a signal.
#[must_use]
pub fn without_a_signal(without: Without) -> String {
    match without {
        Without::Asking => "Storing Longtom on this device …",
        Without::Stored { bytes } => {
            return [
                "All of Longtom is on this device (",
                &kilobytes(bytes),
                "). It needs no signal any more.",
            ]
            .concat();
        }
        Without::NotHere => {
            "This browser cannot store Longtom for use without a signal. Open it over a secure address, and not in a private window."
        }
        Without::Incomplete => {
            "Part of Longtom has been cleared from this device. Load the page once with a signal."
        }
    }
    .to_owned()
}
