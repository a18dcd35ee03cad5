//! The sentences of this floor.
//!
//! Each says what happened, what that means for what is stored, and what to do.

use super::cabinet::{KeepProblem, Notice, Why};
use super::keys::{DocumentId, Kind};
use super::shelf::ShelfProblem;
use crate::measure::letters::capitalised;
use crate::nursery::Day;
use crate::nursery::day::month_name;

/// What the file with everything stored is called, before the day.
pub const PARCEL_NAME: &str = "longtom-everything-stored";

const DOWNLOAD: &str = "Download everything stored before you close the page.";

const MAKE_ROOM: &str = "Export the record under “Bring in and take out”; there, or under Settings, \
     room can be made. Once there is room it is saved by itself; until then your change is kept only \
     while this page is open.";

/// A document as one would speak of it within a sentence.
pub fn the(document: &DocumentId) -> String {
    match document.kind {
        Kind::Settings => "the settings".to_owned(),
        Kind::Question if document.name.is_empty() => "the last question".to_owned(),
        Kind::Record
            if document
                .name
                .starts_with(|letter: char| letter.is_ascii_digit()) =>
        {
            ["the day book of ", &month_told(&document.name)].concat()
        }
        Kind::Record => "the record of the nursery".to_owned(),
        Kind::Question => ["the last question of the page “", &document.name, "”"].concat(),
    }
}

/// What was set aside by a version that knows more kinds of document than this one.
pub fn of_unknown_kind() -> &'static str {
    "Something that a newer Longtom has stored"
}

/// `March 2025`, of the month's part of the record; a name that is no month stays as it is.
fn month_told(name: &str) -> String {
    match Day::from_iso(&[name, "-01"].concat()).map(Day::civil) {
        Some((year, month, _)) => [month_name(month), " ", &year.to_string()].concat(),
        None => name.to_owned(),
    }
}

/// A field as one would speak of it: settings have names of their own, the fields of a question
/// keep the name they are stored under.
fn field_name(kind: Kind, field: &str) -> String {
    if kind == Kind::Settings {
        match field {
            "decimal" => return "decimal mark".to_owned(),
            "scheme" => return "light or dark".to_owned(),
            "text_size" => return "size of text".to_owned(),
            "units" => return "units".to_owned(),
            _ => {}
        }
        if let Some(quantity) = field.strip_prefix("units.") {
            return ["unit of ", &quantity.replace('_', " ")].concat();
        }
    }
    field.replace('_', " ")
}

/// What kept a shelf from doing what it was asked.
pub fn shelf_problem(problem: &ShelfProblem) -> String {
    match problem {
        ShelfProblem::Refused => "The browser does not let this page store anything.".to_owned(),
        ShelfProblem::Full => "The room the browser gives this page is full.".to_owned(),
        ShelfProblem::Damaged => "What is stored is damaged.".to_owned(),
        ShelfProblem::Other(text) => ["The browser could not do it; it says: ", text, "."].concat(),
    }
}

/// The way out of it.
fn way_out(problem: &ShelfProblem) -> &'static str {
    match problem {
        ShelfProblem::Refused => {
            "Allow this site to store data in the browser's settings, or open it in a window that \
             is not private. Until then everything works, but is gone when the page is closed."
        }
        ShelfProblem::Full => {
            "Download what was set aside and discard it here, which makes room; then save again. \
             Until then your change is kept only while this page is open."
        }
        ShelfProblem::Damaged | ShelfProblem::Other(_) => {
            "It is tried again at the next change. Until then your change is kept only while this \
             page is open."
        }
    }
}

/// What the grower is told after loading.
pub fn notice(notice: &Notice) -> String {
    match notice {
        Notice::SetAside {
            document, others, ..
        } => [
            "A damaged copy of ",
            &the(document),
            " was found and set aside, just as it is; it can be downloaded. ",
            if *others {
                "What could be read is in use."
            } else {
                "Nothing of it could be read, so the usual values are in use."
            },
        ]
        .concat(),
        Notice::NotSetAside { document, problem } => [
            "A damaged copy of ",
            &the(document),
            " was found and could not be set aside, so it is left where it is and nothing is \
             saved over it. ",
            &shelf_problem(problem),
            " ",
            way_out(problem),
        ]
        .concat(),
        Notice::FieldReset { document, field } => [
            "Part of ",
            &the(document),
            " could not be understood and has its usual value: ",
            &field_name(document.kind, field),
            ".",
        ]
        .concat(),
        Notice::NewerVersion { document } => newer(document),
        Notice::NotRead { document, problem } => [
            &capitalised(&the(document)),
            " could not be read from this device, and nothing is saved over what was not read. ",
            &shelf_problem(problem),
            " Open the page again.",
        ]
        .concat(),
        Notice::OnlyThisVisit { problem } => [
            &shelf_problem(problem),
            " ",
            way_out(&ShelfProblem::Refused),
        ]
        .concat(),
    }
}

/// What was not done, why, and the way out.
pub fn problem(problem: &KeepProblem) -> String {
    let what = match &problem.document {
        Some(document) => the(document),
        None => "what is stored".to_owned(),
    };
    let start = capitalised(&what);
    match &problem.why {
        Why::Damaged => not_read(&start, &ShelfProblem::Damaged),
        Why::NotRead(shelf) => not_read(&start, shelf),
        Why::NotStored(shelf) => [
            &start,
            " could not be saved; what was saved before is still there. ",
            &shelf_problem(shelf),
            " ",
            way_out_of_not_saving(problem, shelf),
        ]
        .concat(),
        Why::SetAside => [
            &start,
            " was found damaged and set aside, just as it is: Settings offers it as a file. Bring in \
             a copy of the record that has what is missing.",
        ]
        .concat(),
        Why::NotSetAside(shelf) => [
            &start,
            " was found damaged and could not be set aside. It stays where it is, just as it is, \
             and nothing is saved over it. ",
            &shelf_problem(shelf),
            " It is tried again when the page is opened again; before that, save everything stored \
             as a file under Settings.",
        ]
        .concat(),
        Why::CameBackDifferent => [
            &start,
            " did not come back as it was saved; what was saved before is still there. It is \
             tried again at the next change. ",
            DOWNLOAD,
        ]
        .concat(),
        Why::NoRoomToSetAside(shelf) => [
            "A damaged copy of ",
            &what,
            " is in the way and could not be set aside, so nothing was saved over it. ",
            &shelf_problem(shelf),
            " ",
            way_out(shelf),
        ]
        .concat(),
        Why::NewerVersion => match &problem.document {
            Some(document) => newer(document),
            None => "This device has been used with a newer Longtom.".to_owned(),
        },
        Why::TooLong { bytes, most } => [
            &start,
            " would be ",
            &kilobytes(*bytes),
            " long; ",
            &kilobytes(*most),
            " is the most that is kept. Make it shorter. What was saved before is still there.",
        ]
        .concat(),
        Why::NotWritable => [
            &start,
            " holds something that could not be read again, so it was not saved; what was saved \
             before is still there. Undo the last change.",
        ]
        .concat(),
        Why::NotAside => {
            "There is no such text set aside. It may have been discarded in another window."
                .to_owned()
        }
        Why::NotRemoved(shelf) => [
            "What was set aside could not be discarded. ",
            &shelf_problem(shelf),
        ]
        .concat(),
        Why::NotOffered(text) => {
            ["This browser does not offer that; it says: ", text, "."].concat()
        }
    }
}

fn way_out_of_not_saving(problem: &KeepProblem, shelf: &ShelfProblem) -> &'static str {
    let document = problem.document.as_ref();
    let of_record = document.is_some_and(|document| document.kind == Kind::Record);
    if of_record && *shelf == ShelfProblem::Full {
        MAKE_ROOM
    } else {
        way_out(shelf)
    }
}

fn not_read(start: &str, shelf: &ShelfProblem) -> String {
    [
        start,
        " could not be read from this device, so nothing was saved over it. ",
        &shelf_problem(shelf),
        " ",
        way_out(shelf),
    ]
    .concat()
}

fn newer(document: &DocumentId) -> String {
    [
        "This device has been used with a newer Longtom, which has saved ",
        &the(document),
        ". This older one leaves that alone: changes made here are gone when the page is closed. \
         Close Longtom in every window and open it again to get the newer one.",
    ]
    .concat()
}

/// A length in bytes, rounded up so that what is too long never looks as if it were not.
fn kilobytes(bytes: usize) -> String {
    /// The SI prefix.
    const KILO: usize = 1_000;
    [&bytes.div_ceil(KILO).to_string(), " kB"].concat()
}
