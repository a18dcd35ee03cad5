//! What is to be minded in more than one reckoning: each sentence and its source once.

use super::answer::Caution;
use super::words;
use crate::handbook::materials::Dust;
use crate::handbook::safety;

/// Of a material that may carry Legionella.
#[must_use]
pub fn legionella(before: &str) -> Caution {
    Caution::new(before, words::legionella(), safety::LEGIONELLA)
}

/// Of the dust of materials, the worst that any of them gives off.
pub fn dust(before: &str, mut dusts: impl Iterator<Item = Dust> + Clone) -> Option<Caution> {
    let (sentence, source) = if dusts.clone().any(|dust| dust == Dust::Silica) {
        (words::silica(), safety::SILICA_DUST)
    } else if dusts.any(|dust| dust != Dust::None) {
        (words::nuisance_dust(), safety::NUISANCE_DUST)
    } else {
        return None;
    };
    Some(Caution::new(before, sentence, source))
}
