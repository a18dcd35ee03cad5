//! What is looked for beyond the three standings of one month: covers and insulation, sun, the months, heights,
//! the power to install, pots in July's sun. All at the best figures.

use super::case::{Air, Case, Stand};
use super::come::{Come, Day, growth};
use super::inputs::Inputs;
use super::stands::Variant;
use super::weather::When;
use crate::handbook::heat::POT_COLOURS;
use crate::measure::Length;
use crate::reckon::Problem;
use crate::science::heat::air::day_shape::LowestHighest;
use crate::science::heat::column::{Column, Moment, Place};
use crate::science::heat::films::sunlit_wall_k;
use crate::science::year_course::middle_of_month;

/// Months of a year.
pub const MONTHS: usize = 12;
/// Heights that are tried, mm.
pub const HEIGHTS_MM: [f64; 8] = [50.0, 100.0, 200.0, 300.0, 450.0, 600.0, 800.0, 1200.0];
/// Colours of pots.
pub const COLOURS: usize = 3;
/// What no grower can see is no lead.
pub const SEEN: f64 = 0.02;
/// July, from 0.
const JULY: usize = 6;

/// A standing as it is compared: roots and heat.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Compared {
    /// Roots at their coldest, °C.
    pub lowest_c: f64,
    /// On the mean, °C.
    pub mean_c: f64,
    /// At their warmest, °C.
    pub highest_c: f64,
    /// Growth against the floor, times.
    pub growth: f64,
    /// Heat, kWh/m² in a day.
    pub kwh_per_m2: f64,
    /// Hours of the day in which the power was too little.
    pub short_h: f64,
}

/// A month.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct MonthTold {
    /// Roots at their coldest: on the floor, and raised, °C.
    pub lowest_c: [f64; 2],
    /// On the mean: on the floor, and raised, °C.
    pub mean_c: [f64; 2],
    /// Growth against the floor: raised, and on the bench.
    pub growth: [f64; 2],
    /// Heat of the bench, kWh/m² in a day.
    pub kwh_per_m2: f64,
}

/// A height.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct HeightTold {
    /// mm.
    pub height_mm: f64,
    /// Roots at their coldest, °C.
    pub lowest_c: f64,
    /// On the mean, °C.
    pub mean_c: f64,
    /// Growth against the floor.
    pub growth: f64,
}

/// A pot in July's sun.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct ColourTold {
    /// The ball at its warmest, °C.
    pub ball_c: f64,
    /// The sunlit wall, °C.
    pub wall_c: f64,
}

/// All of it.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(
    feature = "terminal",
    derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)
)]
pub struct Further {
    /// Raised under a cover.
    pub raised_covered: Compared,
    /// The bench under a cover.
    pub bench_covered: Compared,
    /// The bench without.
    pub bench_open: Compared,
    /// The bench as asked, but not insulated.
    pub bench_bare: Compared,
    /// What the sun adds to roots on the mean: on the floor, and raised, K.
    pub sun_adds_k: [f64; 2],
    /// What holds the bench in the coldest night of the month, W/m²; below nought where nothing does.
    pub hold_w_per_m2: f64,
    /// The months, from January.
    pub months: Vec<MonthTold>,
    /// Heights of a raised tray.
    pub heights: Vec<HeightTold>,
    /// Pots in July's sun, in the order of the handbook's colours.
    pub colours: Vec<ColourTold>,
}

fn compared(come: &Come, floor: &Come, share: f64) -> Compared {
    Compared {
        lowest_c: come.lowest_c(),
        mean_c: come.mean_c(),
        highest_c: come.highest_c(),
        growth: growth(come, floor, share).all(),
        kwh_per_m2: come.kwh_per_m2,
        short_h: come.short_h,
    }
}

/// Pieces of work in all of it: this month, each month, the heights, July.
pub const PIECES: u32 = 2 + MONTHS as u32 + 1;

/// It under way.
pub struct Looking {
    inputs: Inputs,
    found: Further,
    next: u32,
}

impl Looking {
    /// Begins.
    ///
    /// # Errors
    /// A problem where the case has no inputs.
    pub fn begin(case: &Case) -> Result<Self, Problem> {
        Ok(Self {
            inputs: Inputs::best(case)?,
            found: Further {
                raised_covered: Compared::default(),
                bench_covered: Compared::default(),
                bench_open: Compared::default(),
                bench_bare: Compared::default(),
                sun_adds_k: [0.0; 2],
                hold_w_per_m2: -1.0,
                months: Vec::new(),
                heights: Vec::new(),
                colours: Vec::new(),
            },
            next: 0,
        })
    }

    /// Pieces done.
    #[must_use]
    pub fn done(&self) -> u32 {
        self.next
    }

    /// What was found.
    #[must_use]
    pub fn found(self) -> Further {
        self.found
    }

    /// Does one piece; true when all are done.
    ///
    /// # Errors
    /// A problem where a standing cannot be followed.
    pub fn one(&mut self, case: &Case) -> Result<bool, Problem> {
        match self.next {
            0 => self.this_month(case)?,
            1 => self.heights(case)?,
            2 => self.july(case)?,
            place if place < PIECES => self.month(case, (place - 3) as usize)?,
            _ => return Ok(true),
        }
        self.next += 1;
        Ok(self.next >= PIECES)
    }

    fn this_month(&mut self, case: &Case) -> Result<(), Problem> {
        let share = self.inputs.root_share;
        let day = Day::new(case, &self.inputs, &When::of_month(case, case.month))?;
        let of = |stand: Stand| Variant::asked(case, stand);
        let floor = day.come(&of(Stand::Floor))?;
        let told =
            |variant: &Variant| Ok::<_, Problem>(compared(&day.come(variant)?, &floor, share));
        let with = |stand: Stand, covered: bool| Variant {
            covered,
            ..of(stand)
        };
        self.found.raised_covered = told(&with(Stand::Raised, true))?;
        self.found.bench_covered = told(&with(Stand::Bench, true))?;
        self.found.bench_open = told(&with(Stand::Bench, false))?;
        self.found.bench_bare = told(&Variant {
            insulated: false,
            ..of(Stand::Bench)
        })?;
        let dark = day.without_sun()?;
        let raised = day.come(&of(Stand::Raised))?;
        self.found.sun_adds_k = [
            floor.mean_c() - dark.come(&of(Stand::Floor))?.mean_c(),
            raised.mean_c() - dark.come(&of(Stand::Raised))?.mean_c(),
        ];
        self.found.hold_w_per_m2 = self.hold(case, &day)?;
        Ok(())
    }

    /// What holds the bench through the coldest night of the month: as much colder inside as it is outside.
    fn hold(&self, case: &Case, day: &Day<'_>) -> Result<f64, Problem> {
        let usual = When::of_month(case, case.month).outside.lowest_c;
        let Some(coldest) = case.climate.coldest_night_c(case.month) else {
            return Ok(-1.0);
        };
        let colder = coldest.best() - usual;
        let mut night = day.course().at(0.0);
        for time in 0..24 {
            let moment = day.course().at(f64::from(time) * 3600.0);
            if moment.bench_air_c < night.bench_air_c {
                night = moment;
            }
        }
        let night = Moment {
            floor_air_c: night.floor_air_c + colder,
            bench_air_c: night.bench_air_c + colder,
            cover_c: night.cover_c + colder,
            ..night
        };
        let standing = day.standing(&Variant::asked(case, Stand::Bench))?;
        let probe = case.heated.probe;
        // Air over an open bench is not held by it.
        if probe == Place::Air {
            return Ok(-1.0);
        }
        Ok(
            Column::power_to_hold(&standing, &night, case.heated.set, probe)
                .map_or(-1.0, |power| power.in_watts_per_square_metre()),
        )
    }

    fn heights(&mut self, case: &Case) -> Result<(), Problem> {
        let day = Day::new(case, &self.inputs, &When::of_month(case, case.month))?;
        let floor = day.come(&Variant::asked(case, Stand::Floor))?;
        for height_mm in HEIGHTS_MM {
            let come = day.come(&Variant {
                height: Length::from_millimetres(height_mm),
                ..Variant::asked(case, Stand::Raised)
            })?;
            self.found.heights.push(HeightTold {
                height_mm,
                lowest_c: come.lowest_c(),
                mean_c: come.mean_c(),
                growth: growth(&come, &floor, self.inputs.root_share).all(),
            });
        }
        Ok(())
    }

    fn month(&mut self, case: &Case, month: usize) -> Result<(), Problem> {
        let day = Day::new(case, &self.inputs, &When::of_month(case, month))?;
        let share = self.inputs.root_share;
        let [floor, raised, bench] = [
            day.come(&Variant::asked(case, Stand::Floor))?,
            day.come(&Variant::asked(case, Stand::Raised))?,
            day.come(&Variant::asked(case, Stand::Bench))?,
        ];
        self.found.months.push(MonthTold {
            lowest_c: [floor.lowest_c(), raised.lowest_c()],
            mean_c: [floor.mean_c(), raised.mean_c()],
            growth: [
                growth(&raised, &floor, share).all(),
                growth(&bench, &floor, share).all(),
            ],
            kwh_per_m2: bench.kwh_per_m2,
        });
        Ok(())
    }

    /// The outer row of raised pots on the hottest day of July.
    fn july(&mut self, case: &Case) -> Result<(), Problem> {
        /// Of a wall, the part that the sun of a summer's day falls on as seen from it, and how much of the level
        /// sun it gets: a judgement.
        const LIT: f64 = 0.5;
        /// Films outside and inside the wall of a small pot, W/m² K (`tests/heat/films.rs` has both ends).
        const OUTER_W_PER_M2_K: f64 = 10.0;
        const INNER_W_PER_M2_K: f64 = 12.0;
        let mut when = When::of_month(case, JULY);
        when.sun_w_per_m2 = when.clear_sun_w_per_m2(case.latitude);
        let night = match when.air {
            Air::Inside { bench, .. } => bench.lowest_c,
            Air::Outside(day) => day.lowest_c,
        };
        when.air = Air::Inside {
            bench: LowestHighest {
                lowest_c: night.min(case.hottest.in_celsius() - 1.0),
                highest_c: case.hottest.in_celsius(),
            },
            floor: None,
        };
        let day = Day::new(case, &self.inputs, &when)?;
        let vessel = &case.mix.vessel;
        let breadth = vessel.breadth_at(case.mix.fill).in_metres();
        let walls = case.pots_per_m2 * breadth * case.mix.fill.in_metres();
        let noon = (0..24)
            .map(|hour| day.course().at(f64::from(hour) * 3600.0).sun_w_per_m2)
            .fold(0.0, f64::max);
        for colour in POT_COLOURS.iter().take(COLOURS) {
            let takes_up = colour.takes_up.range.best();
            let mut standing = day.standing(&Variant::asked(case, Stand::Raised))?;
            standing.pots.side.surface.sun = (LIT * walls * takes_up).min(1.0);
            standing.pots.side.acting = 1.0;
            let come = day.run(&standing)?;
            let wall = sunlit_wall_k(takes_up, LIT * noon, OUTER_W_PER_M2_K, INNER_W_PER_M2_K);
            self.found.colours.push(ColourTold {
                ball_c: come.highest_c(),
                wall_c: case.hottest.in_celsius() + wall,
            });
        }
        Ok(())
    }
}

/// Temperatures at which roots of any crop are harmed (from memory: above 38 °C growth stops, at 46 °C roots die).
pub const ROOTS_HARMED_C: f64 = 38.0;

impl Further {
    /// As plain numbers.
    pub fn put(&self, numbers: &mut Vec<f64>) {
        for of in [
            self.raised_covered,
            self.bench_covered,
            self.bench_open,
            self.bench_bare,
        ] {
            numbers.extend([
                of.lowest_c,
                of.mean_c,
                of.highest_c,
                of.growth,
                of.kwh_per_m2,
                of.short_h,
            ]);
        }
        numbers.extend(self.sun_adds_k);
        numbers.push(self.hold_w_per_m2);
        for month in &self.months {
            numbers.extend(month.lowest_c);
            numbers.extend(month.mean_c);
            numbers.extend(month.growth);
            numbers.push(month.kwh_per_m2);
        }
        for height in &self.heights {
            numbers.extend([
                height.height_mm,
                height.lowest_c,
                height.mean_c,
                height.growth,
            ]);
        }
        for colour in &self.colours {
            numbers.extend([colour.ball_c, colour.wall_c]);
        }
    }

    /// From plain numbers; none where they do not fit.
    #[must_use]
    pub fn take(numbers: &[f64]) -> Option<Self> {
        let (compared, rest) = numbers.split_first_chunk::<24>()?;
        let compared = compared.as_chunks::<6>().0;
        let of = |place: usize| -> Option<Compared> {
            let [lowest_c, mean_c, highest_c, growth, kwh_per_m2, short_h] =
                *compared.get(place)?;
            Some(Compared {
                lowest_c,
                mean_c,
                highest_c,
                growth,
                kwh_per_m2,
                short_h,
            })
        };
        let ([floor_sun, raised_sun, hold_w_per_m2], rest) = rest.split_first_chunk::<3>()?;
        let (months, rest) = rest.split_at_checked(7 * MONTHS)?;
        let (heights, colours) = rest.split_at_checked(4 * HEIGHTS_MM.len())?;
        if colours.len() != 2 * COLOURS {
            return None;
        }
        Some(Self {
            raised_covered: of(0)?,
            bench_covered: of(1)?,
            bench_open: of(2)?,
            bench_bare: of(3)?,
            sun_adds_k: [*floor_sun, *raised_sun],
            hold_w_per_m2: *hold_w_per_m2,
            months: months
                .as_chunks::<7>()
                .0
                .iter()
                .map(|&[a, b, c, d, e, f, kwh_per_m2]| MonthTold {
                    lowest_c: [a, b],
                    mean_c: [c, d],
                    growth: [e, f],
                    kwh_per_m2,
                })
                .collect(),
            heights: heights
                .as_chunks::<4>()
                .0
                .iter()
                .map(|&[height_mm, lowest_c, mean_c, growth]| HeightTold {
                    height_mm,
                    lowest_c,
                    mean_c,
                    growth,
                })
                .collect(),
            colours: colours
                .as_chunks::<2>()
                .0
                .iter()
                .map(|&[ball_c, wall_c]| ColourTold { ball_c, wall_c })
                .collect(),
        })
    }

    /// Days of the year about which raising begins and ends to grow more than the floor, from the middles of the
    /// months: the day, and whether raised is ahead from then on.
    #[must_use]
    pub fn overtakes(&self) -> Vec<(f64, bool)> {
        let lead = |month: &MonthTold| month.growth[0] - 1.0 - SEEN;
        let mut found = Vec::new();
        for (place, pair) in self.months.windows(2).enumerate() {
            let [before, after] = pair else { continue };
            let (from, to) = (lead(before), lead(after));
            if (from > 0.0) != (to > 0.0) {
                let (start, end) = (middle_of_month(place), middle_of_month(place + 1));
                found.push((start + (end - start) * from / (from - to), to > 0.0));
            }
        }
        found
    }

    /// The lowest height after which the next adds less than a hundredth of growth; none where none grows more
    /// than the floor.
    #[must_use]
    pub fn pays_to_mm(&self) -> Option<f64> {
        const ADDS: f64 = 0.01;
        let best = self.heights.iter().map(|at| at.growth).fold(0.0, f64::max);
        if best < 1.0 + ADDS {
            return None;
        }
        self.heights
            .iter()
            .find(|at| at.growth >= best - ADDS)
            .map(|at| at.height_mm)
    }

    /// The temperature of a balanced figure of the coldest night, for whoever installs.
    #[must_use]
    pub fn hold(&self) -> Option<f64> {
        (self.hold_w_per_m2 >= 0.0).then_some(self.hold_w_per_m2)
    }
}
