//! The sentences of Rinse.

use crate::measure::print::rounded;
use crate::reckon::answer::Verdict;
pub use crate::reckon::words::number;
use crate::reckon::words::{self as of_all, chances_worth_saying, easy_lift};

/// The thing chosen, for a choice that is not in its list.
pub const A_WETNESS: &str = "wetness";
/// The thing chosen, for a choice that is not in its list.
pub const A_MEASUREMENT: &str = "way of measuring";
/// The thing chosen, for a choice that is not in its list.
pub const A_WATER: &str = "kind of water";
/// The thing chosen, for a choice that is not in its list.
pub const A_METER: &str = "kind of meter";
/// The thing chosen, for a choice that is not in its list.
pub const A_WAY: &str = "way of rinsing";
/// Step of a caution.
pub const BEFORE_TIPPING: &str = "Before you tip it out";
/// Step of a caution.
pub const BEFORE_WETTING: &str = "Before you open the bag";
/// Step of a caution.
pub const BEFORE_LIFTING: &str = "Before you lift it";
/// Step of a caution.
pub const BEFORE_POURING: &str = "Before you pour the water away";
/// Step of a caution.
pub const BEFORE_DISSOLVING: &str = "Before you dissolve calcium nitrate";
/// Step of a caution.
pub const BEFORE_USING: &str = "Before you use it";

/// An amount of litres as one would say it.
pub fn litres(amount: f64) -> String {
    of_all::litres(amount, 3)
}

/// A conductivity for a sentence.
pub fn conductivity(ms_per_cm: f64) -> String {
    [&number(ms_per_cm, 2), " mS/cm"].concat()
}

/// "1 rinse", "3 rinses".
pub fn rinses(many: usize) -> String {
    match many {
        0 => "no rinse".to_owned(),
        1 => "1 rinse".to_owned(),
        _ => format!("{many} rinses"),
    }
}

/// The extract reads less than what it was made with.
pub fn less_than_its_water() -> String {
    "The extract reads less than the water it was made with. Check the two, or say that it was made with pure water.".to_owned()
}

/// The water of a rinse does not run off.
pub fn only_wets(least: f64) -> String {
    format!(
        "So little water only wets it, and nothing runs off. Give more than {} for each rinse.",
        litres(least)
    )
}

/// The source water does not allow the target.
pub fn out_of_reach(target: f64, least: f64, with_pure: f64) -> String {
    /// Rain itself reads about as much, mS/cm (common practice, no source).
    const RAIN: f64 = 0.03;
    let rain = if with_pure < RAIN && RAIN < target {
        "; with rainwater hardly anything".to_owned()
    } else if with_pure < target {
        format!("; with rainwater {}", conductivity(with_pure))
    } else {
        String::new()
    };
    format!(
        "With this water it cannot come down to {}. What can be reached is {}{rain}.",
        conductivity(target),
        conductivity(least)
    )
}

/// Too little water for each rinse.
pub fn too_many(most: usize) -> String {
    format!("Even {most} rinses would not do. Give more water for each, or cleaner water.")
}

/// The verdict in one sentence.
pub fn verdict(verdict: Verdict, many: usize, purpose: &str, chances: Option<[f64; 3]>) -> String {
    let said = match verdict {
        Verdict::Serves if many == 0 => format!("Serves {purpose} as it is"),
        Verdict::Serves => format!("Serves {purpose} after {}", rinses(many)),
        Verdict::Watch => format!(
            "Can serve {purpose} after {}, if you go on measuring",
            rinses(many)
        ),
        Verdict::DoesNotServe => format!(
            "Does not serve {purpose}: {} are more than it is worth",
            rinses(many)
        ),
    };
    let Some([serves, watch, fails]) = chances else {
        return format!("{said}.");
    };
    let others = chances_worth_saying([
        (serves, "that a few rinses are enough"),
        (
            watch,
            "that it takes many, or that your water leaves little room",
        ),
        (fails, "that rinsing does not do"),
    ]);
    format!("{said}: {}.", others.join(", "))
}

/// What to do.
pub struct Doing {
    /// Whether it trickles.
    pub trickles: bool,
    /// Water for each rinse, L.
    pub water: f64,
    /// Water that covers it, L.
    pub covers: f64,
    /// Rinses at the best figures.
    pub rinses: usize,
    /// Rinses to be 9 in 10 sure.
    pub sure: usize,
    /// What the water running off reads when done, mS/cm: the low limit where it is known.
    pub run_off: f64,
    /// Whether no number of rinses makes it 9 in 10 sure.
    pub never_sure: bool,
    /// Whether calcium nitrate is to follow, and how much of it, g, in how much water, L.
    pub nitrate: Option<[f64; 2]>,
}

/// The advice.
pub fn advice(doing: &Doing) -> String {
    let mut text = match (doing.rinses, doing.sure) {
        (0, 0) => "It is low enough as it is: use it without rinsing.".to_owned(),
        (0, _) if doing.never_sure => {
            "It is low enough as it is, as far as the reading goes; your water leaves too little room to make it surer by rinsing.".to_owned()
        }
        (0, sure) => format!(
            "It is low enough as it is; to be 9 in 10 sure, give it {} of {}.",
            rinses(sure),
            litres(doing.water)
        ),
        (many, sure) => {
            let how = if doing.trickles {
                format!(
                    "Let {} trickle through it slowly and evenly",
                    litres(doing.water)
                )
            } else if doing.water < doing.covers {
                format!(
                    "Pour {} over it, turn it well since that does not cover it ({} would), wait an hour and drain it",
                    litres(doing.water),
                    litres(rounded(doing.covers, 2))
                )
            } else {
                format!(
                    "Soak it in {}, stir it, wait an hour and drain it",
                    litres(doing.water)
                )
            };
            let times = if many == 1 {
                "once".to_owned()
            } else {
                format!("{many} times")
            };
            let to_be_sure = if doing.never_sure {
                ". Your water leaves so little room that no number of rinses makes it 9 in 10 sure"
                    .to_owned()
            } else if sure > many {
                format!(", or {sure} times to be 9 in 10 sure")
            } else {
                String::new()
            };
            let last = if doing.trickles { "the last of " } else { "" };
            format!(
                "{how}: {times}{to_be_sure}. Once {last}the water running off reads {} or less it should be done; measure an extract again.",
                conductivity(doing.run_off)
            )
        }
    };
    if let Some([grams, water]) = doing.nitrate {
        text.push_str(&format!(
            " Then soak it overnight in {} of water with {} g of calcium nitrate and rinse it once more: plain water leaves potassium and sodium on its grains.",
            litres(rounded(water, 2)),
            number(grams, 2)
        ));
    }
    text
}

/// Where the salty water goes.
pub fn run_off(nitrate: bool) -> String {
    let salts = if nitrate { "salt and nitrate" } else { "salt" };
    format!(
        "The water that runs off carries {salts}: keep it off beds and pots, and out of ponds, ditches, wells and soakaways near them. Spread it thinly on grass or rough ground away from water, or send it down a foul drain where that is allowed. Local rules go first."
    )
}

/// Lime stays lime.
pub fn lime() -> String {
    "Rinsing takes out salt, not lime: it keeps water at pH 8 or above. Use it for beds and drainage, not for more than a tenth of a mix, and look at pH before you blame the feed when leaves turn yellow.".to_owned()
}

/// Calcium nitrate.
pub fn nitrate() -> String {
    "Calcium nitrate hurts eyes and skin and feeds a fire: wear gloves and glasses, keep it dry, away from children and from anything that burns. Read its label first.".to_owned()
}

/// How heavy it is wet.
pub fn lifting(kg: f64) -> String {
    format!(
        "Wet and drained, all of it weighs about {} kg, and more while it stands in water. {} Rinse where it can drain by itself, or in smaller lots.",
        number(kg, 2),
        easy_lift(),
    )
}
