//! The sentences of the screens that hold more than one word of the page's own.

/// The button that saves everything.
pub const TAKE_EVERYTHING: &str = "Save everything stored as a file";
/// Name of that file.
pub const EVERYTHING_FILE: &str = "longtom-everything.json";

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
