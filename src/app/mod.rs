//! Floor 6: the screens, and the only floor that touches the page.
//!
//! State flows one way: the question is a signal, the answer is derived from it,
//! the page draws the answer. No page computes.
//!
//! * [`shell`]: the frame around every page: places to go, notices, the page.
//! * [`nursery`]: the second program: the pages of the record in the same frame.
//! * [`reckonings`]: the third program: the reckonings beyond the first, in the same frame.
//! * [`this_morning`]: what is due, at the head of the start page.
//! * [`from_nursery`]: what the record brings to the pages that reckon, and what they keep in it.
//! * [`notices`]: sentences at the head of the page.
//! * [`route`]: the list of pages and their addresses.
//! * [`stored`]: settings and last questions, from and to what is kept.
//! * [`record`]: the record of the nursery, and writing in it.
//! * [`calendar`]: the day that it is.
//! * [`copy_due`]: when a copy of the record is due.
//! * [`draft`]: a thing of the record as it is filled in.
//! * [`demo`]: the demo nursery, shown beside the record.
//! * [`desk`]: one reckoning on one page: question in, answer and doubt out.
//! * [`errands`]: the other thread that finds the doubt.
//! * [`version`]: stored for use without a signal, and changing over to a new version.
//! * [`install`]: putting it on the home screen.
//! * [`markup`]: pages and parts of them as they are written.
//! * [`live`]: what changes in them later, and what is done with them.
//! * [`pages`], [`widgets`], [`plots`]: what is seen.
//! * [`words`]: the sentences of the screens.

pub mod calendar;
pub mod copy_due;
pub mod demo;
pub mod desk;
pub mod draft;
pub mod errands;
pub mod from_nursery;
pub mod install;
pub mod live;
pub mod markup;
pub mod notices;
pub mod nursery;
pub mod pages;
pub mod plots;
pub mod reckonings;
pub mod record;
pub mod route;
pub mod shell;
pub mod stored;
pub mod this_morning;
pub mod version;
pub mod widgets;
pub mod words;

use web_sys::HtmlElement;

/// Opens the application in the frame that `index.html` holds. The frame stands already: all that
/// is mounted is what is live in it.
pub fn open() {
    mount(shell::open);
}

/// Opens the second program, the pages of the nursery, in the same frame.
pub fn open_nursery() {
    mount(nursery::open);
}

/// Opens the third program, the reckonings beyond the first, in the same frame.
pub fn open_reckonings() {
    mount(reckonings::open);
}

fn mount(opened: fn()) {
    if let Some(frame) = live::element::<HtmlElement>("app") {
        leptos::mount::mount_to(frame, opened).forget();
    }
}
