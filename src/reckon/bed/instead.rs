//! What else could be done for the same pots: other media under them, and a lower fill. Found by the
//! quick estimate at the best figures, off the main thread.

use super::choose::{first_look, window};
use super::physics::best_scene;
use super::question::Case;
use super::told::OtherMedium;
use crate::handbook::bed_media::BED_MEDIA;
use crate::measure::Length;
use crate::reckon::Problem;
use crate::reckon::answer::Verdict;

/// What else could be done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Instead {
    /// Every other medium of the handbook.
    pub others: Vec<Other>,
    /// The highest lower fill at which some depth serves or can serve, where none does now.
    pub lower_fill: Option<Length>,
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
            if medium.key == case.medium.key {
                continue;
            }
            let on_it = Case {
                medium: *medium,
                ..case.clone()
            };
            let all = best_scene(&on_it)?.at_all_depths();
            let laid = first_look(&all);
            let (Some(at), Some(depth)) = (all.get(laid), on_it.depths.get(laid)) else {
                continue;
            };
            others.push(Other {
                medium: place,
                depth_mm: depth.in_millimetres(),
                window_mm: window(&on_it, &all, None, laid)
                    .map(|ends| ends.map(Length::in_millimetres)),
                verdict: at.verdict,
            });
        }
        Ok(Self {
            others,
            lower_fill: lower_fill(case)?,
        })
    }

    /// As numbers, for another thread.
    pub fn put(&self, into: &mut Vec<f64>) {
        into.push(self.lower_fill.map_or(NONE, Length::in_millimetres));
        into.push(self.others.len() as f64);
        for other in &self.others {
            let verdict = Verdict::ALL.iter().position(|v| *v == other.verdict);
            into.extend([other.medium as f64, other.depth_mm]);
            into.extend(other.window_mm.unwrap_or([NONE; 2]));
            into.push(verdict.map_or(NONE, |place| place as f64));
        }
    }

    /// From such numbers, with those that follow; none where they are too few.
    pub fn take(numbers: &[f64]) -> Option<(Self, &[f64])> {
        let ([lower_fill, many], mut rest) = numbers.split_first_chunk::<2>()?;
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
        let lower_fill = (*lower_fill > 0.0).then(|| Length::from_millimetres(*lower_fill));
        Some((Self { others, lower_fill }, rest))
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

fn lower_fill(case: &Case) -> Result<Option<Length>, Problem> {
    /// Fills are tried so far apart, and none lower than this.
    const STEP: Length = Length::from_millimetres(5.0);
    let some_depth_does = |case: &Case| -> Result<bool, Problem> {
        let all = best_scene(case)?.at_all_depths();
        Ok(all.iter().any(|at| at.verdict != Verdict::DoesNotServe))
    };
    if some_depth_does(case)? {
        return Ok(None);
    }
    let mut level = case.level - STEP;
    while level >= STEP && level > case.slope {
        let lower = Case {
            level,
            ..case.clone()
        };
        if some_depth_does(&lower)? {
            return Ok(Some(level));
        }
        level = level - STEP;
    }
    Ok(None)
}
