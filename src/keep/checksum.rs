//! The checksum that tells a whole copy from a damaged one.

/// The generator polynomial of CRC-32 as IEEE 802.3 (clause 3.2.9) has it, bits reflected.
const POLYNOMIAL: u32 = 0xEDB8_8320;

const TABLE: [u32; 256] = table();

const fn table() -> [u32; 256] {
    let mut table = [0; 256];
    let mut byte = 0;
    while byte < table.len() {
        let mut rest = byte as u32;
        let mut bit = 0;
        while bit < u8::BITS {
            rest = (rest >> 1) ^ (POLYNOMIAL * (rest & 1));
            bit += 1;
        }
        table[byte] = rest;
        byte += 1;
    }
    table
}

/// CRC-32 (IEEE 802.3) of some bytes. It finds every change that is confined to 32 bits in a row,
/// hence every single wrong byte; it guards against accidents, not against intent.
pub fn crc32(bytes: &[u8]) -> u32 {
    let rest = bytes.iter().fold(u32::MAX, |rest, byte| {
        let index = (rest ^ u32::from(*byte)) & 0xFF;
        (rest >> 8) ^ TABLE[index as usize]
    });
    !rest
}
