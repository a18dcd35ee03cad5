//! Pots, materials and mixes of the record as questions take them.

use crate::handbook::pots::pot;
use crate::measure::{Entry, Length, Volume};
use crate::nursery::vessel::{material_here, pot_here};
use crate::nursery::{Id, Record, Thing};
use crate::reckon::mix::{
    MOST_PARTS, OWN_FIGURES, OWN_ROUND, OWN_SQUARE, OWN_VOLUME, PartAsked, PotAsked,
};

/// A pot of the record or the handbook as the question takes it.
pub fn pot_asked(record: &Record, text: &str) -> Option<PotAsked> {
    if let Some(usual) = pot(text) {
        return Some(PotAsked {
            size: usual.key.to_owned(),
            ..PotAsked::default()
        });
    }
    let here = pot_here(record, text)?;
    let thing = record.get(Id::read(text)?)?;
    let millimetres = |length: Length| Entry::of(length, &Length::MILLIMETRE);
    let height = here.vessel.height();
    let of_volume = !thing.text("volume").is_empty() && thing.text("rim").is_empty();
    let square = thing.choice("outline") == Some("square");
    Some(PotAsked {
        size: match (of_volume, square) {
            (true, _) => OWN_VOLUME,
            (false, true) => OWN_SQUARE,
            (false, false) => OWN_ROUND,
        }
        .to_owned(),
        rim: millimetres(here.vessel.breadth_at(height)),
        base: millimetres(here.vessel.breadth_at(Length::from_millimetres(0.0))),
        height: millimetres(height),
        volume: Entry::of(here.vessel.volume_to(height), &Volume::LITRE),
        below_rim: millimetres(here.below_rim),
    })
}

/// Adds a part of a material, or gives the part that is reckoned alike all that is known of it.
pub fn take_material(parts: &mut Vec<PartAsked>, record: &Record, text: &str) -> Option<()> {
    let new = part_asked(record, text, Entry::number(1.0))?;
    if let Some(part) = parts.iter_mut().find(|part| part.material == new.material) {
        let amount = part.amount.clone();
        *part = PartAsked { amount, ..new };
        return Some(());
    }
    if parts.len() >= MOST_PARTS {
        return None;
    }
    parts.push(new);
    Some(())
}

/// A material of the record or the handbook as a part, with its bag, price, stock and own figures.
pub fn part_asked(record: &Record, text: &str, amount: Entry) -> Option<PartAsked> {
    let here = material_here(record, text)?;
    let mut part = PartAsked {
        material: here.like.key.to_owned(),
        amount,
        ..PartAsked::default()
    };
    if let Some(bag) = here.bag {
        part.bag = Entry::of(bag, &Volume::LITRE);
    }
    if let Some(price) = here.price {
        part.price = Entry::number(price);
    }
    if let Some(in_hand) = here.in_hand {
        part.in_hand = Entry::of(in_hand, &Volume::LITRE);
    }
    if let Some(thing) = Id::read(text).and_then(|id| record.get(id)) {
        let own = &mut part.own;
        let figures = [
            ("density", &mut own.density),
            ("pore_space", &mut own.pore_space),
            ("water_at_10_cm", &mut own.water_at_10_cm),
        ];
        for (path, figure) in figures {
            if !thing.text(path).is_empty() {
                *figure = thing.entry(path);
                OWN_FIGURES.clone_into(&mut own.figures);
            }
        }
    }
    Some(part)
}

/// The parts of a mix of the record. None where it has none, or one that says too little of itself.
pub fn parts_of_mix(record: &Record, mix: &Thing) -> Option<Vec<PartAsked>> {
    let rows = mix.rows("parts");
    let part = |row: &&str| {
        let text = |name: &str| mix.text(&["parts.", row, ".", name].concat());
        let amount = Entry::from_stored(text("amount"));
        let mut part = part_asked(record, text("material"), amount)?;
        if !text("bag").is_empty() {
            part.bag = Entry::from_stored(text("bag"));
        }
        Some(part)
    };
    let parts: Option<Vec<PartAsked>> = rows.iter().map(part).collect();
    parts.filter(|parts| !parts.is_empty())
}
