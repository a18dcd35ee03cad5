//! What went wrong, as a sentence for whoever builds the site.

use std::fmt;
use std::path::Path;

/// One sentence saying what stands in the way.
#[derive(Debug, PartialEq, Eq)]
pub struct Problem(String);

/// A result, or the sentence that says why there is none.
pub type Outcome<T> = Result<T, Problem>;

impl Problem {
    /// A problem told by this sentence.
    pub fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }

    /// A file or folder that would not be read or written.
    pub fn with_file(doing: &str, path: &Path, cause: impl fmt::Display) -> Self {
        Self(format!("Could not {doing} {}: {cause}.", path.display()))
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Reads a text file.
pub fn read_text(path: &Path) -> Outcome<String> {
    std::fs::read_to_string(path).map_err(|cause| Problem::with_file("read", path, cause))
}

/// Reads a file as it is.
pub fn read_bytes(path: &Path) -> Outcome<Vec<u8>> {
    std::fs::read(path).map_err(|cause| Problem::with_file("read", path, cause))
}

/// Writes a file, making its folder first if need be.
pub fn write(path: &Path, content: &[u8]) -> Outcome<()> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)
            .map_err(|cause| Problem::with_file("make the folder", folder, cause))?;
    }
    std::fs::write(path, content).map_err(|cause| Problem::with_file("write", path, cause))
}
