//! The sentences of the tube test.

use super::{Remark, Why};
use crate::measure::{NumberStyle, significant};

/// Why a test is refused, and what would be right.
pub fn refusal(why: Why) -> String {
    let number = |value: f64| significant(value, 3, NumberStyle::default());
    match why {
        Why::NotAboveNought => "This must be more than 0. Weigh or measure it again.".to_owned(),
        Why::BelowNought => {
            "A height is read upwards from the water: 0 if it is nowhere above it.".to_owned()
        }
        Why::TimeOutOfReach => {
            "Let the tube stand for an hour, and in any case for ten minutes to a day.".to_owned()
        }
        Why::TubeOutOfReach => {
            "Take a clear tube between 10 cm and 2 m tall; 30 to 40 cm will do for most.".to_owned()
        }
        Why::TooDeep => {
            "Stand the tube less deep: its foot no more than a quarter of its height under the water; 2 cm will do."
                .to_owned()
        }
        Why::WetAboveDamp => {
            "The damp line lies above where it is nearly wet. Check whether the two are swapped."
                .to_owned()
        }
        Why::DampToTheTop => {
            "The damp reached the top of the tube. Take a taller tube, or read it sooner and say when."
                .to_owned()
        }
        Why::DidNotRise => {
            "Water did not rise into it. It is too coarse to lift water, or it repels water: wet it, let it dry and try again."
                .to_owned()
        }
        Why::ReadingTooCoarse => {
            "The rise is too small for so rough a reading. Read it to a third of the damp height or better; to the millimetre if you can."
                .to_owned()
        }
        Why::WetLessThanDry => {
            "The handful weighs less wet than dry. Check whether the two are swapped.".to_owned()
        }
        Why::TooDense { grams_per_litre } => [
            "It would weigh ",
            &number(grams_per_litre),
            " g/L dry, more than such grains can. Check the volume, or what the grains are.",
        ]
        .concat(),
        Why::HoldsTooMuch { share } => [
            "The handful would hold ",
            &number(share * 100.0),
            "% of its volume as water, more than there is room for. Shake it off on a sieve before weighing, or say that the grains are porous."
        ]
        .concat(),
        Why::NoMedium => {
            "No medium reads so: the two heights and what the handful holds do not go together. Do the test once more with the medium well mixed and dry."
                .to_owned()
        }
    }
}

/// What is to be borne in mind.
pub fn remark(remark: Remark) -> &'static str {
    match remark {
        Remark::CameToItsEnd => {
            "The water had risen as far as it will, so the test tells how slow the medium can be at most, not how fast it is. To learn more, do it again and read it after a few minutes."
        }
        Remark::DampWithinGrains => {
            "In porous grains the damp line can run ahead inside the grains. How far the water between them reaches is taken from the nearly wet height."
        }
        Remark::FewClimbSo => {
            "Hardly any medium fits these readings, so the limits are rough. Do the test once more."
        }
    }
}
