//! The sentences of the reckonings that more than one of them says, and those of problems.

use crate::handbook::safety::{LIFT_AT_ARMS_LENGTH, LIFT_CLOSE};
use crate::measure::{Length, NumberStyle, significant};

/// The thing chosen, for [`not_in_list`].
pub const A_MATERIAL: &str = "material";
/// The thing chosen, for [`not_in_list`].
pub const A_POT: &str = "pot";
/// The thing chosen, for [`not_in_list`].
pub const A_USE: &str = "use";

/// The thing chosen, for [`not_in_list`].
pub const A_WAY_TO_SET_OUT: &str = "way to set pots out";
/// The thing chosen, for [`not_in_list`].
pub const WHOSE_FIGURES: &str = "choice of figures";

/// The thing chosen, for [`not_in_list`].
pub const A_FEED: &str = "charge of feed";

/// A crop that is not in the handbook.
pub fn no_such_crop() -> String {
    "Choose a crop of the list; one that is near to yours will do to begin with.".to_owned()
}

/// A climate that is not in the handbook.
pub fn no_such_climate() -> String {
    "Choose the climate that is nearest to yours.".to_owned()
}

/// No reckoning has the name.
#[must_use]
pub fn no_such_reckoning(name: &str) -> String {
    format!("There is no reckoning called “{}”.", short(name))
}

/// Page and worker are of different builds.
#[must_use]
pub fn question_of_another_build() -> String {
    "The page and its helper are of different versions. Close all tabs of Longtom and open it again.".to_owned()
}

/// A text that is not JSON: where it stops being so.
#[cfg(feature = "terminal")]
#[must_use]
pub fn not_json(line: usize, column: usize) -> String {
    format!("This is not JSON: look at line {line}, column {column}.")
}

/// JSON that is not a question of this reckoning.
#[cfg(feature = "terminal")]
#[must_use]
pub fn not_a_question() -> String {
    "This is not a question for this reckoning. `reckon example` prints one to start from."
        .to_owned()
}

/// What JSON wants at a place.
#[cfg(feature = "terminal")]
#[must_use]
pub fn wanted_here(known: &serde_json::Value) -> String {
    match known {
        serde_json::Value::Object(fields) => {
            let names: Vec<&str> = fields.keys().map(String::as_str).collect();
            format!("Fields in braces are wanted here: {}.", names.join(", "))
        }
        serde_json::Value::Array(_) => "A list in square brackets is wanted here.".to_owned(),
        _ => "A text in quotation marks, or a number, is wanted here.".to_owned(),
    }
}

/// A field that the question does not have.
#[cfg(feature = "terminal")]
pub fn no_such_field<'a>(name: &str, known: impl Iterator<Item = &'a String>) -> String {
    let known: Vec<&str> = known.map(String::as_str).collect();
    format!(
        "The question has no field “{}” here. It has: {}.",
        short(name),
        known.join(", ")
    )
}

/// A choice that is not one of those known.
pub fn not_in_list(what: &str, chosen: &str, known: impl Iterator<Item = &'static str>) -> String {
    if chosen.trim().is_empty() {
        return format!("Choose a {what}.");
    }
    match nearest(chosen, known) {
        Some(near) => format!(
            "There is no {what} called “{}”. Did you mean “{near}”?",
            short(chosen)
        ),
        None => format!(
            "There is no {what} called “{}”. Choose one from the list.",
            short(chosen)
        ),
    }
}

/// A mix with no parts.
#[must_use]
pub fn mix_without_parts() -> String {
    "A mix needs at least one material. Add one.".to_owned()
}

/// A mix with too many parts.
#[must_use]
pub fn mix_of_too_many_parts(most: usize) -> String {
    format!("A mix may have up to {most} materials. Leave out the smallest.")
}

/// A mix whose parts are all nought.
#[must_use]
pub fn mix_of_nothing() -> String {
    "All parts are 0. Give at least one material a number above 0.".to_owned()
}

/// A material that is there already.
#[must_use]
pub fn material_twice(name: &str) -> String {
    format!("There is {name} in this mix already. Add the two parts together in one row.")
}

/// More water than there is room for it.
#[must_use]
pub fn more_water_than_pores(water: f64, pores: f64) -> String {
    let percent = |share: f64| significant(share * 100.0, 2, NumberStyle::default());
    format!(
        "Water at 10 cm of suction ({}%) must be less than the pore space ({}%). Check the two.",
        percent(water),
        percent(pores)
    )
}

/// Figures that no curve of a class goes through.
#[must_use]
pub fn no_such_curve(name: &str) -> String {
    format!(
        "No {name} holds water like that. Check the figures, or choose another material that it is like."
    )
}

/// A pot whose rim and base do not belong together.
#[must_use]
pub fn pot_tapers_too_much() -> String {
    "Rim and base are more than four times apart. Measure both inside, straight across.".to_owned()
}

/// A pot whose volume and height do not belong together.
#[must_use]
pub fn volume_and_height_apart(breadth: Length) -> String {
    format!(
        "A pot of this volume and height would be {} cm across. Check the two.",
        significant(breadth.in_centimetres(), 2, NumberStyle::default())
    )
}

/// Pots that would stand in one another.
#[must_use]
pub fn pots_closer_than_they_are_wide(rim: Length) -> String {
    format!(
        "The pots are {} mm across inside, so their middles are at least that far apart.",
        significant(rim.in_millimetres(), 3, NumberStyle::default())
    )
}

/// A pot with hardly any mix in it.
#[must_use]
pub fn pot_not_filled(height: Length) -> String {
    format!(
        "The pot is only {} mm tall: leave less space below the rim.",
        significant(height.in_millimetres(), 3, NumberStyle::default())
    )
}

/// A number of draws in ten, in words: "8 in 10".
#[must_use]
pub fn in_ten(share: f64) -> String {
    let tenths = (share * 10.0).round();
    if share > 0.0 && tenths == 0.0 {
        "less than 1 in 10".to_owned()
    } else if share < 1.0 && tenths == 10.0 {
        "more than 9 in 10".to_owned()
    } else {
        format!("{tenths:.0} in 10")
    }
}

/// The chances worth saying, each with what it is of: "2 in 10 that it does not serve".
pub fn chances_worth_saying<'a>(chances: impl IntoIterator<Item = (f64, &'a str)>) -> Vec<String> {
    /// A chance below this is not told in words.
    const WORTH_SAYING: f64 = 0.05;
    chances
        .into_iter()
        .filter(|(chance, _)| *chance >= WORTH_SAYING)
        .map(|(chance, what)| [&in_ten(chance), " ", what].concat())
        .collect()
}

/// A number for a sentence.
#[must_use]
pub fn number(value: f64, figures: usize) -> String {
    significant(value, figures, NumberStyle::default())
}

/// A fraction as a percentage for a sentence.
#[must_use]
pub fn percent(fraction: f64) -> String {
    format!("{}%", number(fraction * 100.0, 2))
}

/// An amount of litres as one would say it, to so many figures.
#[must_use]
pub fn litres(amount: f64, figures: usize) -> String {
    if amount < 1.0 {
        [&number(amount * 1000.0, 2), " mL"].concat()
    } else {
        [&number(amount, figures), " L"].concat()
    }
}

/// "a, b and c".
#[must_use]
pub fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

/// Legionella.
#[must_use]
pub fn legionella() -> String {
    "Composts and plant materials can carry Legionella. Wear gloves, slit the bag away from your face, wet it before you stir but do not spray, keep the air moving, and wash your hands before you eat. A fever or cough within ten days: see a doctor and say what you handled. The label and local advice go first.".to_owned()
}

/// Silica.
#[must_use]
pub fn silica() -> String {
    "Dry sand, grit and crushed rock give off dust that may carry silica. Wet it in the bag, wear a mask (FFP2 or better), stay upwind, and do not sweep it dry. Local rules go first.".to_owned()
}

/// Nuisance dust.
#[must_use]
pub fn nuisance_dust() -> String {
    "Dry perlite, vermiculite, bark, hulls and coral give off dust that hurts eyes and chest. Pour a glass of water into the bag before you tip it, wear a mask and glasses, and stand upwind.".to_owned()
}

/// What may be lifted with ease.
#[must_use]
pub fn easy_lift() -> String {
    format!(
        "Guidelines for an easy lift close to the body at waist height are {} kg for men and {} kg for women, at arm's length {} and {}; less if it is low, high, twisted or often.",
        number(LIFT_CLOSE.men_kg, 2),
        number(LIFT_CLOSE.women_kg, 2),
        number(LIFT_AT_ARMS_LENGTH.men_kg, 2),
        number(LIFT_AT_ARMS_LENGTH.women_kg, 2),
    )
}

/// What was typed, cut to a length that fits a sentence.
fn short(text: &str) -> String {
    const MOST: usize = 30;
    let mut cut: String = text.chars().take(MOST).collect();
    if text.chars().count() > MOST {
        cut.push('…');
    }
    cut
}

/// The known name nearest to what was typed, if it is near enough to be meant.
pub fn nearest(typed: &str, known: impl Iterator<Item = &'static str>) -> Option<&'static str> {
    /// One letter in so many may be wrong, or what was meant is anybody's guess.
    const LETTERS_TO_A_SLIP: usize = 4;
    /// Longer than any name.
    const LONGEST: usize = 60;
    let typed: Vec<char> = typed
        .chars()
        .map(|letter| letter.to_ascii_lowercase())
        .take(LONGEST)
        .collect();
    known
        .map(|name| (letters_apart(&typed, name), name))
        .filter(|&(apart, _)| apart * LETTERS_TO_A_SLIP <= typed.len())
        .min()
        .map(|(_, name)| name)
}

/// Letters that must be changed, added or left out to turn one word into the other (Levenshtein 1966).
fn letters_apart(typed: &[char], name: &str) -> usize {
    let mut row: Vec<usize> = (0..=typed.len()).collect();
    for (i, letter) in name.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, &other) in typed.iter().enumerate() {
            let changed = diagonal + usize::from(letter != other);
            diagonal = row[j + 1];
            row[j + 1] = changed.min(row[j] + 1).min(row[j + 1] + 1);
        }
    }
    row[typed.len()]
}
