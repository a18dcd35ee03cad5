//! The record on this device, as the screens see it: read, written through commands alone, and saved.

use std::future::{poll_fn, ready};
use std::pin::Pin;
use std::rc::Rc;
use std::task::Poll;
use std::time::Duration;

use leptos::prelude::*;

use super::calendar::by_the_calendar;
use super::live::meanwhile;
use super::stored::Stored;
use crate::keep::browser::{Alone, AnyShelf, MonthArchive, ask_persistence, breathe, units_used};
use crate::keep::journal::months::part_of;
use crate::keep::journal::{Entry, Journal, Part, Pen, Present, fold};
use crate::keep::room::nights_left;
use crate::keep::store::{part_of_name, read_text};
use crate::keep::{KeepProblem, Settings, Store, Why};
use crate::nursery::check::Problem;
use crate::nursery::kinds::DAY;
use crate::nursery::record::BATCHES_STAND_BY;
use crate::nursery::search::search;
use crate::nursery::sense::Oddities;
use crate::nursery::{Day, Finder, Id, Mark, Record, Texts, Thing, Wanted};

type AnyStore = Store<AnyShelf, MonthArchive>;

/// Held while closed months go into the archive.
const CLOSING: &str = "longtom closing months";
/// What could not be saved is tried again so long after.
const SAVED_AGAIN_AFTER: Duration = Duration::from_secs(20);
const MINUTE_MS: f64 = 60_000.0;
/// More entries than this at once are not typed but come from a file.
const FEW: usize = 40;
/// Closed months that are read at once, and then told: a page is written anew at each change.
const MONTHS_AT_A_TIME: usize = 30;
/// Logs that are looked through between two looks at the clock.
const LOGS_AT_A_TIME: usize = 100;
/// Of entries made in the demo nursery, which go nowhere.
const DEMO_MARK: &str = "demo";

/// How much of the record has been read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Nothing yet.
    Opening,
    /// What stands and the open months; closed months follow.
    Following,
    /// All of it.
    Whole,
}

struct Inner {
    journal: Journal,
    present: Present,
    /// Once all of the record has been read.
    finder: Option<Finder>,
    odd: Oddities,
    /// Whether what stands where may have changed since the pages were last told.
    stands: bool,
    /// Whether logs are being taken in by these two.
    looking: bool,
    mark: Option<Mark>,
    /// Whether the browser has been asked to keep what is stored.
    asked: bool,
    store: Option<Rc<AnyStore>>,
    /// What the last copy has that was taken since the page was opened.
    copy: Journal,
    /// Whether what could not be saved is being saved just now.
    saving_again: bool,
    /// Whether that is to be done after a while.
    saves_later: bool,
    /// The grower's own record, while the demo nursery is shown in its place.
    own: Option<(Journal, Present)>,
}

impl Inner {
    /// Puts all of another journal into what is shown.
    fn join(&mut self, other: Journal) {
        let new = self.present.join(&mut self.journal, other);
        let record = &self.present.record;
        match (new, &mut self.finder) {
            (Some(new), Some(finder)) if new.len() <= FEW => {
                for thing in new.iter().filter_map(|entry| entry.thing()) {
                    finder.follow(record, thing);
                    self.odd.follow(record, thing);
                    let known = record.get(thing);
                    self.stands |= known.is_none_or(|thing| {
                        !thing.is_log() || BATCHES_STAND_BY.contains(&thing.kind.as_ref())
                    });
                }
            }
            (_, Some(_)) => self.look_through(),
            _ => self.stands = true,
        }
    }

    /// Begins to look through all logs.
    fn look_through(&mut self) {
        self.stands = true;
        self.finder = Some(Finder::default());
        self.odd.look_again();
    }

    /// Looks at some more logs; false once all have been looked at.
    fn look_on(&mut self) -> bool {
        let record = &self.present.record;
        self.looking = match &mut self.finder {
            Some(finder) if !finder.is_whole() => {
                finder.take_in(record, LOGS_AT_A_TIME);
                true
            }
            Some(_) if !self.odd.is_whole() => {
                self.odd.take_in(record, LOGS_AT_A_TIME);
                true
            }
            _ => false,
        };
        self.looking
    }
}

/// Begins what takes a while, so that it goes on while other things are done, and gives the rest of it.
async fn begun<'a, T: 'a>(
    whole: impl Future<Output = T> + 'a,
) -> Pin<Box<dyn Future<Output = T> + 'a>> {
    let mut whole = Box::pin(whole);
    match poll_fn(|context| Poll::Ready(whole.as_mut().poll(context))).await {
        Poll::Ready(done) => Box::pin(ready(done)),
        Poll::Pending => whole,
    }
}

/// The record, from wherever it was provided.
#[derive(Clone, Copy)]
pub struct Ledger {
    inner: StoredValue<Inner, LocalStorage>,
    stored: Stored,
    /// Goes up whenever the record changes.
    changes: RwSignal<u32>,
    /// Goes up whenever what stands where may have changed: most logs say nothing of that.
    stands: RwSignal<u32>,
    /// Goes up whenever all logs have been looked through.
    looked: RwSignal<u32>,
    /// How much of it has been read.
    pub reading: RwSignal<Reading>,
    /// What was done last, for whoever wants it undone.
    pub last: RwSignal<Option<Id>>,
    /// For about how many more nights there is room, where earlier months have no place of their own.
    pub room: RwSignal<Option<usize>>,
    /// Of each part that could not be saved, a sentence. It is saved again by itself.
    pub unsaved: RwSignal<Vec<String>>,
    /// Goes up when another tab has saved what is typed there and not entered yet.
    pub drafts: RwSignal<u32>,
    /// The day it is in the demo nursery, while that is shown. Nothing is saved then.
    pub demo: RwSignal<Option<Day>>,
}

/// The record, from wherever it was provided.
#[must_use]
pub fn ledger() -> Ledger {
    expect_context()
}

impl Ledger {
    /// Makes an empty one, and provides it to the whole page.
    pub fn provide(stored: Stored) -> Self {
        let ledger = Self {
            inner: StoredValue::new_local(Inner {
                journal: Journal::default(),
                present: Present::default(),
                finder: None,
                odd: Oddities::default(),
                stands: true,
                looking: false,
                mark: None,
                asked: false,
                store: None,
                copy: Journal::default(),
                saving_again: false,
                saves_later: false,
                own: None,
            }),
            stored,
            changes: RwSignal::new(0),
            stands: RwSignal::new(0),
            looked: RwSignal::new(0),
            reading: RwSignal::new(Reading::Opening),
            last: RwSignal::new(None),
            room: RwSignal::new(None),
            unsaved: RwSignal::new(Vec::new()),
            drafts: RwSignal::new(0),
            demo: RwSignal::new(None),
        };
        provide_context(ledger);
        ledger
    }

    /// Reads what is stored: first what stands and the open months, then, a month at a time, the
    /// closed ones.
    pub async fn open(self) {
        let Some(cabinet) = self.stored.cabinet() else {
            return;
        };
        let archive = MonthArchive::open().await;
        match Store::open(cabinet, archive).await {
            Ok(opened) => {
                let store = Rc::new(opened.store);
                self.inner.update_value(|inner| {
                    inner.present = fold(&opened.journal);
                    inner.journal = opened.journal;
                    inner.stands = true;
                    inner.store = Some(Rc::clone(&store));
                });
                self.stored.tell_all(opened.notices);
                self.look_for_room().await;
                self.reading.set(Reading::Following);
                self.changed();
                self.read_closed(&store).await;
            }
            Err(problem) => {
                self.stored.tell(problem.to_string());
                self.reading.set(Reading::Whole);
            }
        }
    }

    async fn read_closed(self, store: &AnyStore) {
        let closed = match store.closed().await {
            Ok(closed) => closed,
            Err(problem) => {
                self.stored.tell(problem.to_string());
                Vec::new()
            }
        };
        let mut chunks = closed.chunks(MONTHS_AT_A_TIME);
        let mut ask = async || {
            let months = chunks.next()?;
            Some((months, begun(store.closed_texts(months)).await))
        };
        let mut coming = ask().await;
        while let Some((months, texts)) = coming {
            let texts = texts.await;
            // The next come while these are read.
            coming = ask().await;
            for (month, text) in months.iter().zip(texts) {
                match text.and_then(|text| read_text(month, text.as_deref())) {
                    Ok(journal) => self.join(journal),
                    Err(problem) => {
                        let told = store.set_aside_if_damaged(problem).await;
                        self.stored.tell(told.to_string());
                    }
                }
                breathe().await;
            }
            self.changed();
        }
        self.inner.update_value(Inner::look_through);
        self.look_through();
        self.reading.set(Reading::Whole);
        self.close_months(store).await;
        self.save_unsaved().await;
    }

    /// Closes the months that are over. One tab after the other, because that costs less; without
    /// locks nothing is lost either.
    async fn close_months(self, store: &AnyStore) {
        let alone = Alone::with(CLOSING).await;
        if let Err(problem) = store.close_before(&by_the_calendar().month()).await {
            self.tell_of(store, &problem);
        }
        drop(alone);
    }

    /// Tells a problem once, unless it is shown anyway until the part is saved.
    fn tell_of(self, store: &AnyStore, problem: &KeepProblem) {
        if !store.unsaved().contains(problem) {
            self.stored.tell(problem.to_string());
        }
    }

    /// Shows what is not saved, and has it saved again after a while: room may be made where nobody
    /// is told of it.
    fn show_unsaved(self, store: &AnyStore) {
        let unsaved: Vec<String> = store.unsaved().iter().map(ToString::to_string).collect();
        let later = !unsaved.is_empty()
            && self
                .inner
                .try_update_value(|inner| !std::mem::replace(&mut inner.saves_later, true))
                == Some(true);
        if self.unsaved.with_untracked(|shown| *shown != unsaved) {
            self.unsaved.set(unsaved);
        }
        if later {
            let again = move || {
                self.inner.update_value(|inner| inner.saves_later = false);
                meanwhile(self.save_unsaved());
            };
            set_timeout(again, SAVED_AGAIN_AFTER);
        }
    }

    /// Saves what could not be saved before, if there is any: there may be room now, and months that
    /// are over make some by going into the archive.
    pub async fn save_unsaved(self) {
        let Some(store) = self.inner.with_value(|inner| inner.store.clone()) else {
            return;
        };
        let begin = |inner: &mut Inner| !std::mem::replace(&mut inner.saving_again, true);
        if store.unsaved().is_empty() || self.inner.try_update_value(begin) != Some(true) {
            return;
        }
        let theirs = store.save_unsaved().await;
        if !theirs.is_empty() {
            self.take_in(theirs);
        }
        if !store.unsaved().is_empty()
            && store.has_archive()
            && self.reading.get_untracked() == Reading::Whole
        {
            self.close_months(&store).await;
            let theirs = store.save_unsaved().await;
            if !theirs.is_empty() {
                self.take_in(theirs);
            }
        }
        self.inner.update_value(|inner| inner.saving_again = false);
        self.show_unsaved(&store);
        self.look_for_room().await;
    }

    /// Finds out how much room is left, where all of the record shares it.
    async fn look_for_room(self) {
        let store = self.inner.with_value(|inner| inner.store.clone());
        if store.is_some_and(|store| !store.has_archive()) {
            self.room.set(units_used().await.map(nights_left));
        }
    }

    /// The months of a year that are over and lie where room is scarce; those of all years where none
    /// is given.
    pub fn months_over(self, year: &str) -> Vec<String> {
        let store = self.inner.with_value(|inner| inner.store.clone());
        let mut months = store.map_or_else(Vec::new, |store| store.months_on_shelf());
        let open = by_the_calendar().month();
        months.retain(|month| month.starts_with(year) && *month < open);
        months
    }

    /// Remembers that a copy of all of it has just been taken.
    pub fn copied(self) {
        self.inner
            .update_value(|inner| inner.copy = inner.journal.clone());
    }

    /// Takes the months of a year off this device, as far as the last copy has them. They are shown
    /// until the page is opened again.
    pub async fn take_off(self, year: &str) {
        let store = self.inner.with_value(|inner| inner.store.clone());
        if let Some(store) = store {
            let copy = self.inner.with_value(|inner| inner.copy.clone());
            let done = store.take_off(&self.months_over(year), &copy).await;
            if let Err(problem) = done {
                self.stored.tell(problem.to_string());
            }
        }
        self.save_unsaved().await;
        self.look_for_room().await;
    }

    /// Entries that are stored already join the whole, and whoever reads it is told.
    fn take_in(self, other: Journal) {
        self.join(other);
        self.changed();
    }

    fn join(self, other: Journal) {
        self.inner.update_value(|inner| match &mut inner.own {
            Some((journal, present)) => {
                present.join(journal, other);
            }
            None => inner.join(other),
        });
    }

    /// Looks through the logs, a little at a time, for what is searched by words and for what makes
    /// no sense.
    fn look_through(self) {
        if self.inner.with_value(|inner| inner.looking)
            || self.inner.try_update_value(Inner::look_on) != Some(true)
        {
            return;
        }
        meanwhile(async move {
            while self.inner.try_update_value(Inner::look_on) == Some(true) {
                breathe().await;
            }
            self.looked.update(|count| *count = count.wrapping_add(1));
        });
    }

    /// Reads all that the record comes to, and what makes no sense in its logs; whoever does is told
    /// when either changes.
    pub fn read_odd<T>(self, read: impl FnOnce(&Present, &[(Id, Problem)]) -> T) -> T {
        self.changes.track();
        self.looked.track();
        self.inner
            .with_value(|inner| read(&inner.present, inner.odd.found()))
    }

    /// The first logs that are wanted, the latest first; whoever looks is told when the record
    /// changes.
    pub fn search<T>(
        self,
        wanted: &Wanted,
        most: usize,
        read: impl FnOnce(&Record, &[&Thing]) -> T,
    ) -> T {
        self.changes.track();
        self.inner.with_value(|inner| {
            let record = &inner.present.record;
            let found = match &inner.finder {
                Some(finder) => finder.search(record, wanted, most),
                None => search(record, wanted, most),
            };
            read(record, &found)
        })
    }

    /// Shows the demo nursery in place of the grower's own record, which stays as it is.
    pub fn show_demo(self, journal: Journal) {
        let present = fold(&journal);
        // There it is the day of the last log.
        let last = present.record.logs().next_back();
        let day = last.and_then(|log| log.day(DAY));
        self.inner.update_value(|inner| {
            let shown = std::mem::replace(&mut inner.journal, journal);
            let folded = std::mem::replace(&mut inner.present, present);
            inner.own.get_or_insert((shown, folded));
            inner.odd = Oddities::default();
            inner.look_through();
        });
        self.demo.set(Some(day.unwrap_or_else(by_the_calendar)));
        self.last.set(None);
        self.changed();
    }

    /// Shows the grower's own record again.
    pub fn leave_demo(self) {
        self.inner.update_value(|inner| {
            if let Some((journal, present)) = inner.own.take() {
                inner.journal = journal;
                inner.present = present;
                inner.odd = Oddities::default();
                inner.look_through();
            }
        });
        self.demo.set(None);
        self.last.set(None);
        self.changed();
    }

    /// Another tab has saved a part.
    pub async fn changed_elsewhere(self, name: String) {
        let Some(store) = self.inner.with_value(|inner| inner.store.clone()) else {
            return;
        };
        let part = part_of_name(&name);
        let (theirs, notices) = store.load(&part).await;
        self.stored.tell_all(notices);
        // The two tabs have written over one another: what is missing is saved again.
        let more = store.has_more(&part, &theirs);
        let any = !theirs.is_empty();
        self.take_in(theirs);
        if more {
            self.save(part.clone(), Vec::new());
        }
        // What lies there of a month that is over is closed at once.
        if any && is_over(&part) && self.reading.get_untracked() == Reading::Whole {
            self.close_months(&store).await;
        }
    }

    fn changed(self) {
        self.look_through();
        let stands = |inner: &mut Inner| std::mem::take(&mut inner.stands);
        if self.inner.try_update_value(stands) == Some(true) {
            self.stands.update(|count| *count = count.wrapping_add(1));
        }
        self.changes.update(|count| *count = count.wrapping_add(1));
    }

    /// Reads the record; whoever does is told when it changes.
    pub fn read<T>(self, read: impl FnOnce(&Record) -> T) -> T {
        self.changes.track();
        self.inner.with_value(|inner| read(&inner.present.record))
    }

    /// Reads the record for what stands where; whoever does is told when that may have changed.
    pub fn read_standing<T>(self, read: impl FnOnce(&Record) -> T) -> T {
        self.stands.track();
        self.inner.with_value(|inner| read(&inner.present.record))
    }

    /// Reads the journal and all that it comes to; whoever does is told when it changes.
    pub fn read_all<T>(self, read: impl FnOnce(&Journal, &Present) -> T) -> T {
        self.changes.track();
        self.inner
            .with_value(|inner| read(&inner.journal, &inner.present))
    }

    /// The day it is here.
    #[must_use]
    pub fn today(self) -> Day {
        self.demo.get_untracked().unwrap_or_else(by_the_calendar)
    }

    /// Adds a thing of a kind, and gives back its id.
    pub fn add(self, kind: &str, texts: Texts) -> Option<Id> {
        self.write(|pen| Some(pen.add(kind, texts)))
    }

    /// Changes fields of a thing.
    pub fn change(self, thing: Id, texts: &[(&str, &str)]) -> Option<Id> {
        self.write(|pen| pen.change(thing, texts))
    }

    /// Takes a thing out of the present.
    pub fn withdraw(self, thing: Id) -> Option<Id> {
        self.write(|pen| Some(pen.withdraw(thing)))
    }

    /// Brings a thing back.
    pub fn restore(self, thing: Id) -> Option<Id> {
        self.write(|pen| Some(pen.restore(thing)))
    }

    /// Makes an entry count no more.
    pub fn undo(self, entry: Id) -> Option<Id> {
        self.write(|pen| pen.undo(entry))
    }

    /// Makes many entries count no more, such as all that a file has brought. Gives back the entries
    /// that say so: undone in the same way, all count again.
    pub fn undo_all(self, entries: &[Id]) -> Vec<Id> {
        let mark = self.mark();
        let undone = self
            .inner
            .with_value(|inner| pen(inner, mark).undo_all(entries));
        self.put(undone)
    }

    /// A new row's piece of a path.
    #[must_use]
    pub fn new_row(self) -> String {
        let mark = self.mark();
        self.inner.with_value(|inner| pen(inner, mark).new_row())
    }

    /// Writes one entry, puts it in and saves it. Gives back its id, which is also that of a thing
    /// that it adds.
    fn write(self, written: impl FnOnce(&Pen<'_>) -> Option<Entry>) -> Option<Id> {
        let mark = self.mark();
        let entry = self.inner.with_value(|inner| written(&pen(inner, mark)))?;
        let id = entry.id;
        self.put(vec![entry]);
        self.last.set(Some(id));
        Some(id)
    }

    /// Asks the browser, once there is something worth keeping, not to clear it when the device runs
    /// short of room. What it answers changes nothing here: a copy is due from time to time anyway.
    fn ask_to_be_kept(self) {
        let first = self
            .inner
            .try_update_value(|inner| !std::mem::replace(&mut inner.asked, true));
        if first == Some(true) {
            meanwhile(async {
                let _ = ask_persistence().await;
            });
        }
    }

    /// Puts entries in that come from elsewhere, such as a file, and saves them. Gives back the ids
    /// of those that are new here.
    pub fn put(self, entries: Vec<Entry>) -> Vec<Id> {
        let mut other = Journal::default();
        for entry in entries {
            other.put(entry);
        }
        self.bring_in(&other)
    }

    /// Takes in another journal, with what only a newer version understands, and saves what is new.
    /// Gives back the ids of the entries that are.
    pub fn bring_in(self, other: &Journal) -> Vec<Id> {
        let new = self
            .inner
            .with_value(|inner| lacking(&inner.journal, other));
        let ids_here = |inner: &Inner| {
            let here = new.iter().filter_map(|entry| inner.journal.id_here(entry));
            here.collect()
        };
        if self.demo.get_untracked().is_some() {
            self.inner.update_value(|inner| inner.join(other.clone()));
            self.changed();
            return self.inner.with_value(ids_here);
        }
        if !new.is_empty() {
            self.ask_to_be_kept();
        }
        let many = new.len() > FEW;
        self.take_in(other.clone());
        let brought = self.inner.with_value(ids_here);
        let mut by_part: Vec<(Part, Vec<Entry>)> = Vec::new();
        self.inner.with_value(|inner| {
            for entry in new {
                let part = part_of(&inner.journal, &entry);
                match by_part.iter_mut().find(|(known, _)| *known == part) {
                    Some((_, list)) => list.push(entry),
                    None => by_part.push((part, vec![entry])),
                }
            }
        });
        self.keep_beside(other, &mut by_part);
        if many {
            self.save_many(by_part);
        } else {
            for (part, entries) in by_part {
                self.save(part, entries);
            }
        }
        brought
    }

    /// What another journal has beside its entries is saved with what stands.
    fn keep_beside(self, other: &Journal, by_part: &mut Vec<(Part, Vec<Entry>)>) {
        if other.unread().next().is_none() && other.members().next().is_none() {
            return;
        }
        if let Some(store) = self.inner.with_value(|inner| inner.store.clone()) {
            store.keep_beside(other);
        }
        if by_part.iter().all(|(part, _)| *part != Part::Standing) {
            by_part.push((Part::Standing, Vec::new()));
        }
    }

    /// Saves what a file has brought, part after part; months that are over go into the archive.
    fn save_many(self, by_part: Vec<(Part, Vec<Entry>)>) {
        let Some(store) = self.inner.with_value(|inner| inner.store.clone()) else {
            return;
        };
        meanwhile(async move {
            let alone = Alone::with(CLOSING).await;
            for (part, entries) in by_part {
                let closed = if is_over(&part) {
                    store.put_closed(&part, &entries).await
                } else {
                    store.put(&part, &entries).await.map(drop)
                };
                if let Err(problem) = closed {
                    self.tell_of(&store, &problem);
                    // Where a damaged month had to be set aside first, they are stored.
                    if problem.why != Why::SetAside {
                        self.save(part, entries);
                    }
                }
            }
            drop(alone);
        });
    }

    fn save(self, part: Part, entries: Vec<Entry>) {
        let Some(store) = self.inner.with_value(|inner| inner.store.clone()) else {
            return;
        };
        meanwhile(async move {
            match store.put(&part, &entries).await {
                Ok(theirs) if theirs.is_empty() => {}
                Ok(theirs) => self.take_in(theirs),
                Err(problem) => self.tell_of(&store, &problem),
            }
            self.show_unsaved(&store);
            self.look_for_room().await;
        });
    }

    /// The mark of this device, made when it is first needed.
    fn mark(self) -> Mark {
        if let (Some(_), Some(mark)) = (self.demo.get_untracked(), Mark::read(DEMO_MARK)) {
            return mark;
        }
        if let Some(mark) = self.inner.with_value(|inner| inner.mark) {
            return mark;
        }
        let kept = Mark::read(&self.stored.settings_now().mark);
        let mark = kept.unwrap_or_else(|| {
            // Any number will do that no other device has.
            let random = (js_sys::Math::random() * f64::from(u32::MAX)) as u64;
            let mark = Mark::from_random((random << 20) ^ (js_sys::Date::now() as u64));
            let text = mark.to_string();
            self.stored
                .change_settings(Rc::new(move |settings: &mut Settings| {
                    settings.mark.clone_from(&text);
                }));
            mark
        });
        self.inner.update_value(|inner| inner.mark = Some(mark));
        mark
    }
}

/// Whether a part is a month that is over.
fn is_over(part: &Part) -> bool {
    matches!(part, Part::Month(month) if *month < by_the_calendar().month())
}

/// The entries of another journal that one lacks.
fn lacking(journal: &Journal, other: &Journal) -> Vec<Entry> {
    let new = other
        .entries()
        .filter(|entry| journal.id_here(entry).is_none());
    new.cloned().collect()
}

fn pen(inner: &Inner, mark: Mark) -> Pen<'_> {
    Pen {
        journal: &inner.journal,
        present: &inner.present,
        mark,
        // Minutes since 1970 stay below a u32 until the year 10136.
        at: (js_sys::Date::now() / MINUTE_MS) as u32,
    }
}
