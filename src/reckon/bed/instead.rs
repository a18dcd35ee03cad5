//! What else could be done for the same pots: other media under them, a lower fill, a taller or a
//! shorter pot, another mix, wicks. Found by the quick estimate at the best figures, off the main thread.

use super::choose::{first_look, safe_window};
use super::physics::{Tray, Wrong};
use super::question::Case;
use super::told::OtherMedium;
use crate::handbook::bed_media::BED_MEDIA;
use crate::handbook::materials::Material;
use crate::measure::Length;
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;
use crate::reckon::mix::altered::{ADDITIONS, DEEPER, as_tall, holder, opener, with_more};

/// What else could be done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Instead {
    /// Every other medium of the handbook.
    pub others: Vec<Other>,
    /// What would make some depth serve, or serve if watched, where none does now.
    pub mends: Mends,
}

/// The least of each change that does it, where any does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mends {
    /// The highest lower fill.
    pub lower_fill: Option<Length>,
    /// A pot of this height, as broad in the middle.
    pub height: Option<Length>,
    /// What opens the mix, as a share of what is there.
    pub more_opener: Option<f64>,
    /// What makes it hold more, as a share of what is there.
    pub more_holder: Option<f64>,
    /// Plugs of the mix run through the bed under so much of the base.
    pub plugs: Option<f64>,
}

/// Another medium, by the places of things in their tables.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// Place of the medium in the handbook's table.
    medium: usize,
    /// The depth to lay of it, mm.
    depth_mm: f64,
    /// Shallowest and deepest that serve or can serve, mm.
    window_mm: Option<[f64; 2]>,
    /// The verdict at the depth to lay.
    verdict: Verdict,
}

/// Where there is no such number.
const NONE: f64 = -1.0;

impl Instead {
    /// Looks for it.
    ///
    /// # Errors
    /// A problem where the figures make no curve.
    pub fn find(case: &Case) -> Result<Self, Problem> {
        let mut others = Vec::new();
        for (place, medium) in BED_MEDIA.iter().enumerate() {
            if medium.key == case.medium.row.key {
                continue;
            }
            let on_it = case.on(*medium);
            let looked = Tray::best(&on_it)?.looked();
            let laid = first_look(&looked);
            let Some(depth) = on_it.depths.get(laid) else {
                continue;
            };
            others.push(Other {
                medium: place,
                depth_mm: depth.in_millimetres(),
                window_mm: safe_window(&on_it, &looked, None, laid)
                    .map(|ends| ends.map(Length::in_millimetres)),
                verdict: looked.verdict(laid),
            });
        }
        Ok(Self {
            others,
            mends: mends(case)?,
        })
    }

    /// As numbers, for another thread.
    pub fn put(&self, into: &mut Vec<f64>) {
        let mends = &self.mends;
        into.extend([
            mends.lower_fill.map_or(NONE, Length::in_millimetres),
            mends.height.map_or(NONE, Length::in_millimetres),
            mends.more_opener.unwrap_or(NONE),
            mends.more_holder.unwrap_or(NONE),
            mends.plugs.unwrap_or(NONE),
            self.others.len() as f64,
        ]);
        for other in &self.others {
            let verdict = Verdict::ALL.iter().position(|v| *v == other.verdict);
            into.extend([other.medium as f64, other.depth_mm]);
            into.extend(other.window_mm.unwrap_or([NONE; 2]));
            into.push(verdict.map_or(NONE, |place| place as f64));
        }
    }

    /// From such numbers, with those that follow; none where they are too few.
    pub fn take(numbers: &[f64]) -> Option<(Self, &[f64])> {
        let ([lower_fill, height, opener, holder, plugs, many], mut rest) =
            numbers.split_first_chunk::<6>()?;
        let mut others = Vec::new();
        for _ in 0..(*many as usize).min(BED_MEDIA.len()) {
            let ([medium, depth_mm, from, to, verdict], after) = rest.split_first_chunk::<5>()?;
            others.push(Other {
                medium: *medium as usize,
                depth_mm: *depth_mm,
                window_mm: (*to >= 0.0).then_some([*from, *to]),
                verdict: *Verdict::ALL.get(*verdict as usize)?,
            });
            rest = after;
        }
        let there = |number: f64| (number > 0.0).then_some(number);
        let mends = Mends {
            lower_fill: there(*lower_fill).map(Length::from_millimetres),
            height: there(*height).map(Length::from_millimetres),
            more_opener: there(*opener),
            more_holder: there(*holder),
            plugs: there(*plugs),
        };
        Some((Self { others, mends }, rest))
    }

    /// The other media as they are told.
    #[must_use]
    pub fn others_told(&self) -> Vec<OtherMedium> {
        self.others
            .iter()
            .filter_map(|other| {
                let medium = BED_MEDIA.get(other.medium)?;
                Some(OtherMedium {
                    key: medium.key.to_owned(),
                    name: medium.name.to_owned(),
                    depth_mm: other.depth_mm,
                    window_mm: other.window_mm,
                    verdict: other.verdict,
                })
            })
            .collect()
    }
}

fn mends(case: &Case) -> Result<Mends, Problem> {
    /// Fills are tried so far apart, and none lower than this.
    const STEP: Length = Length::from_millimetres(5.0);
    /// Shorter pots that are tried, as shares of this one's height.
    const SHORTER: [f64; 4] = [0.85, 0.7, 0.6, 0.5];
    /// Plugs that are tried, as shares of the base.
    const PLUGS: [f64; 6] = [0.02, 0.05, 0.1, 0.2, 0.3, 0.5];
    let looked = Tray::best(case)?.looked();
    if looked.some_depth_does() {
        return Ok(Mends::default());
    }
    let somewhere = |what: Wrong| {
        (0..looked.depths()).any(|place| [what, Wrong::Both].contains(&looked.wrong(place)))
    };
    let (drowns, thirsts) = (somewhere(Wrong::Drowned), somewhere(Wrong::Thirsts));
    let as_tall_as = |times: &f64| {
        case.with_mixes(|kind| {
            let (mix, _) = as_tall(&kind.mix, *times)?;
            (mix.fill > kind.level).then_some(mix)
        })
    };
    let with_share = |addition: Option<&'static Material>, share: &f64| {
        let addition = addition?;
        case.with_mixes(|kind| with_more(&kind.mix, addition, *share))
    };
    let fills = std::iter::successors(Some(case.level - STEP), |level| Some(*level - STEP))
        .take_while(|level| *level >= STEP && *level > case.slope);
    let deeper: &[f64] = if drowns { &DEEPER } else { &[] };
    let shorter: &[f64] = if thirsts { &SHORTER } else { &[] };
    let openers: &[f64] = if drowns { &ADDITIONS } else { &[] };
    let holders: &[f64] = if thirsts { &ADDITIONS } else { &[] };
    let plugs: &[f64] = if thirsts { &PLUGS } else { &[] };
    Ok(Mends {
        lower_fill: first_that_does(fills, |level| Some(case.with(|kind| kind.level = *level)))?,
        height: first_that_does(deeper.iter().chain(shorter).copied(), as_tall_as)?
            .map(|times| case.mix.vessel.height() * times),
        more_opener: first_that_does(openers.iter().copied(), |share| {
            with_share(opener(&case.mix), share)
        })?,
        more_holder: first_that_does(holders.iter().copied(), |share| {
            with_share(holder(&case.mix), share)
        })?,
        plugs: first_that_does(plugs.iter().copied(), |share| {
            Some(case.with(|kind| kind.plugs = *share))
        })?,
    })
}

/// The first of what is tried with which some depth serves or can serve.
fn first_that_does<T>(
    tried: impl Iterator<Item = T>,
    changed: impl Fn(&T) -> Option<Case>,
) -> Result<Option<T>, Problem> {
    for one in tried {
        if let Some(case) = changed(&one)
            && Tray::best(&case)?.looked().some_depth_does()
        {
            return Ok(Some(one));
        }
    }
    Ok(None)
}
