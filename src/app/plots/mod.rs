//! Drawings, all by one toolkit: to scale, titled for whoever cannot see them, with a table behind.
//!
//! * [`scale`]: from numbers to the paper, and where the ticks go.
//! * [`ink`]: lines and words of a drawing.
//! * [`hatch`]: the hatches that tell water, air and solids apart without colour.
//! * [`pot_cut`]: the pot cut in half.
//! * [`moving_on`]: what is lost, by the day of a move.
//! * [`looked_at`]: what is looked at on a batch, point by point.
//! * [`nights`]: minima and maxima by day.
//! * [`falling`]: a reading that falls from step to step.
//! * [`bed_cut`]: a pot on its bed in its tray, hour by hour.
//! * [`depths`]: how often each depth of a bed serves.
//! * [`day_course`]: readings through a day.
//! * [`warmth`]: how warm places are through a day.
//! * [`season`]: what is sown through the weeks, and how full each place is.

pub mod bed_cut;
pub mod day_course;
pub mod depths;
pub mod falling;
pub mod hatch;
pub mod ink;
pub mod looked_at;
pub mod moving_on;
pub mod nights;
pub mod pot_cut;
pub mod scale;
pub mod season;
pub mod warmth;
