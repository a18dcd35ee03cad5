//! The sentences of the drain test.

use super::{Remark, Why};
use crate::measure::{NumberStyle, significant};

fn number(value: f64, figures: usize) -> String {
    significant(value, figures, NumberStyle::default())
}

/// Why a test is refused, and what would be right.
pub fn refusal(why: Why) -> String {
    match why {
        Why::NoFilling => "Weigh at least one filling of the vessel.".to_owned(),
        Why::NotAboveNought => "This must be more than 0. Weigh or measure it again.".to_owned(),
        Why::HeightOutOfReach => {
            "Take a vessel between 2 cm and 1 m tall, measured inside from the base to the mark."
                .to_owned()
        }
        Why::DryUnknown => {
            "Dry one filling and weigh it, or say how much water is in the damp material.".to_owned()
        }
        Why::MoistureOutOfReach => {
            "Water in the damp material is between 0 and 95% of its weight.".to_owned()
        }
        Why::DryMoreThanFilled => {
            "It weighs more dry than it did damp. Check that the vessel is taken off both.".to_owned()
        }
        Why::DrainedLessThanDry => {
            "It weighs less drained than dry. Check that the vessel is taken off both.".to_owned()
        }
        Why::DrainedMoreThanSoaked => {
            "It weighs more drained than soaked. Check whether the two are swapped.".to_owned()
        }
        Why::SoakedLessThanFilled => {
            "It weighs less soaked than it did damp. Check that nothing ran out and that the vessel is taken off both."
                .to_owned()
        }
        Why::MoreWaterThanVessel { times } => [
            "There would be ",
            &number(times, 3),
            " L of water for each litre of the vessel. Check its volume, and that the vessel is taken off the weights.",
        ]
        .concat(),
        Why::TooDense { grams_per_litre } => [
            "It would weigh ",
            &number(grams_per_litre, 3),
            " g/L dry, more than any sand or gravel. Check the volume of the vessel.",
        ]
        .concat(),
        Why::NoCurve => {
            "No curve can be drawn through these weights. Do the test once more.".to_owned()
        }
    }
}

/// What is odd.
pub fn remark(remark: Remark) -> String {
    let points = |share: f64| number(share * 100.0, 2);
    match remark {
        Remark::AirTrapped { short_by } => [
            "The soaking left air in the material: its pore space is ",
            &points(short_by),
            " points less than its solids leave room for. Soak it longer and from below, or go by the air found by weights alone.",
        ]
        .concat(),
        Remark::MoreThanSolidsLeave { over_by } => [
            "The pore space is ",
            &points(over_by),
            " points more than its solids leave room for. Check the volume of the vessel, and that the material was dry.",
        ]
        .concat(),
        Remark::PackedOtherwise { filling } => [
            "Filling ",
            &number(filling as f64 + 1.0, 3),
            " was packed more than 8% denser or looser than the others. Leave it out, or fill it again the same way.",
        ]
        .concat(),
        Remark::NotLikeTheClass => {
            "This does not look like that kind of material: its water does not fit the shape of the curve. Choose another kind that it is like, or weigh once more."
                .to_owned()
        }
    }
}
