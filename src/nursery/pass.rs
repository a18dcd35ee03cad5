//! Going through all logs once, a little at a time: ten seasons take seconds.

use super::id::Id;
use super::record::Record;
use super::thing::Thing;

/// Where a pass through the logs of a record stands: it begins with the latest.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Pass {
    /// The day and id of the log that was reached last.
    reached: Option<(i32, Id)>,
    whole: bool,
}

impl Pass {
    /// Goes on to at most so many more logs.
    pub(super) fn go_on(&mut self, record: &Record, most: usize, each: &mut dyn FnMut(&Thing)) {
        let mut logs = record.logs_back_from(self.reached);
        for _ in 0..most {
            let Some((reached, thing)) = logs.next() else {
                self.whole = true;
                break;
            };
            self.reached = Some(reached);
            each(thing);
        }
    }

    /// Whether all logs have been gone through.
    pub(super) const fn is_whole(self) -> bool {
        self.whole
    }
}
