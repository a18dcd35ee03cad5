//! Files made small beforehand, so that no host need do it, and all do it as well.

use std::io::Write;

use crate::problem::{Outcome, Problem};

/// The strongest that brotli has; slow to make, as quick as any to undo.
const BROTLI_QUALITY: u32 = 11;
/// log2 of brotli's window: 4 MiB, more than any file here is long.
const BROTLI_WINDOW: u32 = 22;

/// A way of packing a file that browsers undo by themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Packing {
    /// RFC 7932.
    Brotli,
    /// RFC 1952.
    Gzip,
}

impl Packing {
    /// Both, the smaller first.
    pub const ALL: [Self; 2] = [Self::Brotli, Self::Gzip];

    /// What is put after the file's name.
    pub const fn suffix(self) -> &'static str {
        match self {
            Self::Brotli => ".br",
            Self::Gzip => ".gz",
        }
    }

    /// Its word in `Accept-Encoding` and `Content-Encoding`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Brotli => "br",
            Self::Gzip => "gzip",
        }
    }

    /// The content, packed.
    pub fn pack(self, content: &[u8]) -> Outcome<Vec<u8>> {
        let packed = match self {
            Self::Brotli => {
                let mut writer = brotli::CompressorWriter::new(
                    Vec::new(),
                    content.len().max(1),
                    BROTLI_QUALITY,
                    BROTLI_WINDOW,
                );
                writer.write_all(content).map(|()| writer.into_inner())
            }
            Self::Gzip => {
                let mut writer =
                    flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
                writer.write_all(content).and_then(|()| writer.finish())
            }
        };
        packed.map_err(|cause| Problem::new(format!("Could not pack a file: {cause}.")))
    }
}

/// Whether packing is worth while: images of these kinds are packed already.
pub fn is_packable(name: &str) -> bool {
    !name.ends_with(".png")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
    use super::*;
    use std::io::Read;

    #[test]
    fn what_is_packed_can_be_unpacked() {
        for content in [&b""[..], b"x", &b"bark, perlite and coir ".repeat(1000)] {
            let mut unpacked = Vec::new();
            brotli::Decompressor::new(&Packing::Brotli.pack(content).unwrap()[..], 4096)
                .read_to_end(&mut unpacked)
                .unwrap();
            assert_eq!(unpacked, content);

            unpacked.clear();
            flate2::read::GzDecoder::new(&Packing::Gzip.pack(content).unwrap()[..])
                .read_to_end(&mut unpacked)
                .unwrap();
            assert_eq!(unpacked, content);
        }
    }
}
