//! What to mind, before which step.

use super::case::{Case, Stand};
use super::words;
use crate::handbook::sources;
use crate::reckon::answer::Caution;
use crate::science::heat::column::Place;

/// All that is to be minded: of a heated bench wherever one is asked about, since its figures stand on the page in
/// any case.
pub fn cautions(case: &Case) -> Vec<Caution> {
    let practice = &sources::COMMON_PRACTICE;
    let caution = |before: &str, sentence: String| Caution::new(before, sentence, practice);
    let mut cautions = vec![
        caution(words::BEFORE_WIRING, words::mains()),
        caution(words::BEFORE_LAYING, words::polystyrene()),
        caution(words::BEFORE_LAYING, words::dry_bed()),
        caution(words::BEFORE_SWITCHING, words::cut_out()),
        caution(words::BEFORE_SWITCHING, words::warm_water()),
    ];
    if case.heated.probe == Place::PotMiddle && case.cover.is_none() {
        cautions.push(caution(
            words::BEFORE_SWITCHING,
            words::probe_in_the_middle(),
        ));
    }
    cautions.push(caution(words::BEFORE_COVERING, words::cover_in_sun()));
    if case.stand == Stand::Raised {
        cautions.push(caution(words::BEFORE_RAISING, words::raised_load()));
    }
    cautions
}
