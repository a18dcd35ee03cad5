//! The sentences of the screens that hold more than one word of the page's own.

/// Heading of the last page.
pub const STOPPED: &str = "Longtom has stopped.";
/// What to do on the last page.
pub const STOPPED_WHAT_TO_DO: &str =
    "It met something it was not made for. What you had entered is stored on this device. Take a copy of it first, then open Longtom again.";
/// The link on the last page.
pub const TAKE_EVERYTHING: &str = "Save everything stored as a file";
/// Name of that file.
pub const EVERYTHING_FILE: &str = "longtom-everything.json";
/// The way on from the last page.
pub const OPEN_AGAIN: &str = "Open Longtom again";
/// Heading of the details on the last page.
pub const STOPPED_DETAILS: &str = "For whoever mends it";

/// A link that is none of ours.
#[must_use]
pub fn link_not_read() -> String {
    "This link's question cannot be read. The page opens as you left it.".to_owned()
}

/// An amount of storage.
#[must_use]
pub fn kilobytes(bytes: f64) -> String {
    format!("{:.0} kB", (bytes / 1000.0).max(1.0))
}
