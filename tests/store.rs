//! The record in its parts: whatever fails, whoever saves first, no entry is lost or doubled.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::rc::Rc;
use std::sync::Arc;
use std::task::{Context, Poll, Waker};

use longtom::keep::document::Document;
use longtom::keep::envelope;
use longtom::keep::journal::months::part_of;
use longtom::keep::journal::{Act, Entry, Journal, Part, format};
use longtom::keep::keys::{Slot, read_aside_key, slot_key};
use longtom::keep::room::{A_NIGHT, UNITS, nights_left};
use longtom::keep::store::{OpenedStore, PartDocument, part_of_name};
use longtom::keep::{
    Archive, Cabinet, DocumentId, Filed, KeepProblem, Kind, MemoryShelf, Notice, Shelf,
    ShelfProblem, Store, Why, words,
};
use longtom::nursery::kinds::DAY;
use longtom::nursery::thing::kind_key;
use longtom::nursery::{Mark, Texts};
use pollster::block_on;
use proptest::prelude::*;
use rand_core::Rng;
use rand_pcg::Pcg64Mcg;
use serde_json::{Value, json};

const SEED: u128 = 0x0010_0917_0A11_0E55;

const MAY: &str = "2026-05";
const JUNE: &str = "2026-06";

// ---- a shelf and an archive on which things go wrong as ordered -----------------------------

/// What goes wrong with a call. Calls that write nothing know only whether they fail.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    Fine,
    /// It is not allowed.
    Refused,
    /// There is no room.
    Full,
    /// It fails after writing a part.
    Tears,
    /// It writes a part and says that all is well.
    TearsInSilence,
    /// It writes everything and says that it failed.
    FailsAfterwards,
    /// It writes nothing and says that all is well.
    DoesNothing,
}

const FAULTS: [Fault; 6] = [
    Fault::Refused,
    Fault::Full,
    Fault::Tears,
    Fault::TearsInSilence,
    Fault::FailsAfterwards,
    Fault::DoesNothing,
];

/// When which call goes wrong, and how long each waits.
#[derive(Default)]
struct Troubles {
    calls: Cell<usize>,
    writes: Cell<usize>,
    /// The call, counted from 1, that goes wrong.
    call: Cell<Option<(usize, Fault)>>,
    /// The write, counted from 1, that goes wrong.
    write: Cell<Option<(usize, Fault)>>,
    /// How many times each of the next calls waits before it does anything.
    waits: RefCell<VecDeque<u32>>,
}

impl Troubles {
    fn clear(&self) {
        self.calls.set(0);
        self.writes.set(0);
        self.call.set(None);
        self.write.set(None);
    }

    fn at_call(&self, number: usize, fault: Fault) {
        self.clear();
        self.call.set(Some((number, fault)));
    }

    fn at_write(&self, number: usize, fault: Fault) {
        self.clear();
        self.write.set(Some((number, fault)));
    }

    async fn wait(&self) {
        let mut left = self.waits.borrow_mut().pop_front().unwrap_or_default();
        poll_fn(|_| {
            if left == 0 {
                return Poll::Ready(());
            }
            left -= 1;
            Poll::Pending
        })
        .await;
    }

    fn fault(&self, writes: bool) -> Fault {
        self.calls.set(self.calls.get() + 1);
        let mut fault = match self.call.get() {
            Some((number, fault)) if number == self.calls.get() => fault,
            _ => Fault::Fine,
        };
        if writes {
            self.writes.set(self.writes.get() + 1);
            if let Some((number, ordered)) = self.write.get()
                && number == self.writes.get()
            {
                fault = ordered;
            }
        }
        fault
    }

    /// Before a call that writes nothing.
    async fn looks(&self) -> Result<(), ShelfProblem> {
        self.wait().await;
        match self.fault(false) {
            Fault::Fine => Ok(()),
            fault => Err(problem_of(fault)),
        }
    }

    /// Before a write: what is to be written, and what is to be said of it.
    async fn writes<'a>(&self, text: &'a str) -> (Option<&'a str>, Result<(), ShelfProblem>) {
        self.wait().await;
        let half = text.get(..text.len() / 2);
        match self.fault(true) {
            Fault::Fine => (Some(text), Ok(())),
            fault @ (Fault::Refused | Fault::Full) => (None, Err(problem_of(fault))),
            Fault::DoesNothing => (None, Ok(())),
            Fault::Tears => (half, Err(problem_of(Fault::Tears))),
            Fault::TearsInSilence => (half, Ok(())),
            Fault::FailsAfterwards => (Some(text), Err(problem_of(Fault::FailsAfterwards))),
        }
    }
}

fn problem_of(fault: Fault) -> ShelfProblem {
    match fault {
        Fault::Refused => ShelfProblem::Refused,
        Fault::Full => ShelfProblem::Full,
        _ => ShelfProblem::Other("a test".to_owned()),
    }
}

#[derive(Default)]
struct DoubleShelf {
    memory: MemoryShelf,
    troubles: Troubles,
    /// Bytes it may hold; unlimited if `None`.
    room: Cell<Option<usize>>,
}

impl DoubleShelf {
    fn put(&self, key: &str, text: &str) {
        block_on(self.memory.write(key, text)).unwrap();
    }

    fn get(&self, key: &str) -> Option<String> {
        block_on(self.memory.read(key)).unwrap()
    }

    fn all(&self) -> BTreeMap<String, String> {
        let keys = block_on(self.memory.keys()).unwrap();
        let text = |key: String| (key.clone(), self.get(&key).unwrap());
        keys.into_iter().map(text).collect()
    }

    fn asides(&self) -> Vec<String> {
        let all = self.all().into_iter();
        all.filter(|(key, _)| read_aside_key(key).is_some())
            .map(|(_, text)| text)
            .collect()
    }
}

impl Shelf for DoubleShelf {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        self.troubles.looks().await?;
        self.memory.read(key).await
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        let (text, said) = self.troubles.writes(text).await;
        if let Some(text) = text {
            let there = self.get(key).map_or(0, |old| old.len());
            let bytes: usize = self.all().values().map(String::len).sum();
            if self
                .room
                .get()
                .is_some_and(|room| bytes - there + text.len() > room)
            {
                return Err(ShelfProblem::Full);
            }
            self.memory.write(key, text).await?;
        }
        said
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        self.troubles.looks().await?;
        self.memory.remove(key).await
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        self.troubles.looks().await?;
        self.memory.keys().await
    }
}

/// An archive in which each text has a stamp, and looking and writing are one step.
#[derive(Default)]
struct DoubleArchive {
    /// Text and stamp, by name.
    texts: RefCell<BTreeMap<String, (String, u32)>>,
    /// What was set aside, in order.
    asides: RefCell<Vec<(String, String)>>,
    stamps: Cell<u32>,
    /// Names of which no text can be made.
    illegible: RefCell<BTreeSet<String>>,
    troubles: Troubles,
    /// What the next write puts there in place of what it is given.
    instead: RefCell<Option<String>>,
}

impl DoubleArchive {
    fn put(&self, name: &str, text: &str) {
        let mut texts = self.texts.borrow_mut();
        self.stamps.set(self.stamps.get() + 1);
        self.illegible.borrow_mut().remove(name);
        texts.insert(name.to_owned(), (text.to_owned(), self.stamps.get()));
    }

    fn get(&self, name: &str) -> Option<String> {
        let texts = self.texts.borrow();
        texts.get(name).map(|(text, _)| text.clone())
    }

    fn still_has(&self, name: &str, seen: Option<&str>) -> bool {
        let texts = self.texts.borrow();
        texts
            .get(name)
            .map(|(_, stamp)| stamp.to_string())
            .as_deref()
            == seen
    }
}

/// An archive that several stores share.
#[derive(Clone)]
struct Shared(Rc<DoubleArchive>);

impl Archive for Shared {
    async fn names(&self) -> Result<Vec<String>, ShelfProblem> {
        self.0.troubles.looks().await?;
        Ok(self.0.texts.borrow().keys().cloned().collect())
    }

    async fn look(&self, name: &str) -> Result<Option<Filed>, ShelfProblem> {
        self.0.troubles.looks().await?;
        let illegible = self.0.illegible.borrow().contains(name);
        let texts = self.0.texts.borrow();
        Ok(texts.get(name).map(|(text, stamp)| Filed {
            text: (!illegible).then(|| text.clone()),
            stamp: stamp.to_string(),
        }))
    }

    async fn replace(
        &self,
        name: &str,
        text: &str,
        seen: Option<&str>,
    ) -> Result<bool, ShelfProblem> {
        let (text, said) = self.0.troubles.writes(text).await;
        if !self.0.still_has(name, seen) {
            return Ok(false);
        }
        let instead = self.0.instead.borrow_mut().take();
        if let Some(text) = text {
            self.0.put(name, instead.as_deref().unwrap_or(text));
        }
        said.map(|()| true)
    }

    async fn set_aside(&self, name: &str, seen: &str) -> Result<bool, ShelfProblem> {
        self.0.troubles.looks().await?;
        if !self.0.still_has(name, Some(seen)) {
            return Ok(false);
        }
        if let Some((text, _)) = self.0.texts.borrow_mut().remove(name) {
            self.0.asides.borrow_mut().push((name.to_owned(), text));
        }
        self.0.illegible.borrow_mut().remove(name);
        Ok(true)
    }
}

type TestStore = Store<Rc<DoubleShelf>, Shared>;

/// One device.
#[derive(Clone, Default)]
struct World {
    shelf: Rc<DoubleShelf>,
    archive: Rc<DoubleArchive>,
}

impl World {
    fn opened(&self) -> OpenedStore<Rc<DoubleShelf>, Shared> {
        self.try_open().unwrap()
    }

    fn try_open(&self) -> Result<OpenedStore<Rc<DoubleShelf>, Shared>, KeepProblem> {
        let cabinet = Cabinet::new(Rc::clone(&self.shelf));
        block_on(Store::open(cabinet, Some(Shared(Rc::clone(&self.archive)))))
    }

    fn store(&self) -> TestStore {
        self.opened().store
    }

    /// What another visit finds on the shelf.
    fn on_shelf(&self) -> Journal {
        self.opened().journal
    }

    /// What another visit finds in the archive; what is damaged there is left out.
    fn archived(&self) -> Journal {
        let store = self.store();
        let mut journal = Journal::default();
        for month in block_on(store.closed()).unwrap() {
            if let Ok(closed) = block_on(store.read_closed(&month)) {
                journal.merge(&closed);
            }
        }
        journal
    }

    /// All that another visit finds.
    fn everything(&self) -> Journal {
        let mut journal = self.on_shelf();
        journal.merge(&self.archived());
        journal
    }

    fn fine(&self) {
        self.shelf.troubles.clear();
        self.archive.troubles.clear();
    }
}

fn put(store: &TestStore, part: &Part, entries: &[Entry]) -> Result<Journal, KeepProblem> {
    block_on(store.put(part, entries))
}

fn close(store: &TestStore, open_month: &str) -> Result<(), KeepProblem> {
    block_on(store.close_before(open_month))
}

fn month(name: &str) -> Part {
    Part::Month(name.to_owned())
}

/// An entry that belongs to a part.
fn entry(part: &Part, mark: &str, number: u32) -> Entry {
    let name = ["of ", mark].concat();
    let (kind, texts) = match part {
        Part::Standing => ("house", Texts::of([("name", name.as_str())])),
        Part::Month(month) => (
            "reading",
            Texts::of([(DAY, [month, "-07"].concat().as_str()), ("note", &name)]),
        ),
    };
    let act = Act::Add {
        kind: kind_key(kind),
        texts: Arc::new(texts),
    };
    let entry = Entry::new(Mark::read(mark).unwrap(), number, 29_635_660, act);
    assert_eq!(part_of(&Journal::default(), &entry), *part);
    entry
}

fn journal_of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Journal {
    let mut journal = Journal::default();
    for entry in entries {
        journal.put(entry.clone());
    }
    journal
}

fn holds(journal: &Journal, entries: &[Entry]) -> bool {
    entries
        .iter()
        .all(|entry| journal.get(entry.id) == Some(entry))
}

fn id_of(part: &Part) -> DocumentId {
    DocumentId::new(Kind::Record, part.name())
}

fn key(part: &Part, slot: Slot) -> String {
    slot_key(&id_of(part), slot)
}

/// A device with two saves of what stands and two of May.
fn two_saves() -> (World, Vec<Entry>) {
    let world = World::default();
    let store = world.store();
    let mut entries = Vec::new();
    for number in [1, 2] {
        for part in [Part::Standing, month(MAY)] {
            let entry = entry(&part, "a", 10 * number + u32::from(part != Part::Standing));
            put(&store, &part, std::slice::from_ref(&entry)).unwrap();
            entries.push(entry);
        }
    }
    (world, entries)
}

/// Polls both, now the one and now the other, as `first` says, until both are done.
fn in_turns<A: Future, B: Future>(
    first: A,
    second: B,
    mut is_first: impl FnMut() -> bool,
) -> (A::Output, B::Output) {
    let (mut first, mut second) = (pin!(first), pin!(second));
    let (mut done_first, mut done_second) = (None, None);
    let mut context = Context::from_waker(Waker::noop());
    // Nothing here waits for ever: each poll uses up one wait.
    for _ in 0..1_000_000 {
        if done_first.is_none()
            && (done_second.is_some() || is_first())
            && let Poll::Ready(output) = first.as_mut().poll(&mut context)
        {
            done_first = Some(output);
        } else if done_second.is_none()
            && let Poll::Ready(output) = second.as_mut().poll(&mut context)
        {
            done_second = Some(output);
        }
        if done_first.is_some() && done_second.is_some() {
            break;
        }
    }
    (done_first.unwrap(), done_second.unwrap())
}

// ---- putting and loading --------------------------------------------------------------------

#[test]
fn what_is_put_is_loaded_by_another_store() {
    let (world, entries) = two_saves();
    let opened = world.opened();
    assert_eq!(opened.journal, journal_of(&entries));
    assert_eq!(opened.notices, []);
    let asked = block_on(opened.store.load(&month(MAY)));
    assert_eq!(
        asked,
        (journal_of([&entries[1], &entries[3]]), Vec::new()),
        "a part holds its own alone"
    );
    assert_eq!(block_on(opened.store.closed()), Ok(Vec::new()));
}

#[test]
fn the_parts_lie_apart() {
    let (world, entries) = two_saves();
    for part in [Part::Standing, month(MAY)] {
        for slot in Slot::BOTH {
            let text = world.shelf.get(&key(&part, slot)).unwrap();
            let sealed = envelope::open(&text, usize::MAX).unwrap();
            assert_eq!(sealed.body["part"], json!(part.name()));
            let read = format::read(sealed.body).unwrap().journal;
            assert_eq!(read.members().count() + read.unread().count(), 0);
            for entry in read.entries() {
                assert_eq!(part_of(&read, entry), part);
                assert!(entries.contains(entry));
            }
        }
        assert_eq!(part_of_name(part.name()), part);
    }
    let keys: BTreeSet<String> = world.shelf.all().into_keys().collect();
    let expected = [Part::Standing, month(MAY)]
        .iter()
        .flat_map(|part| Slot::BOTH.map(|slot| key(part, slot)))
        .collect();
    assert_eq!(keys, expected);
}

// ---- a shelf that fails ---------------------------------------------------------------------

/// Puts into both parts, four times, with one thing going wrong; at every step what was stored
/// is there, and in the end everything.
fn puts_with(order: impl Fn(&Troubles), what: &str) -> bool {
    let world = World::default();
    let store = world.store();
    order(&world.shelf.troubles);
    let mut stored: Vec<Entry> = Vec::new();
    let mut waiting: BTreeMap<Part, Vec<Entry>> = BTreeMap::new();
    let mut failed = false;
    for number in 1..=4 {
        for part in [Part::Standing, month(MAY)] {
            let entry = entry(&part, "a", number);
            let outcome = put(&store, &part, std::slice::from_ref(&entry));
            let (calls, writes) = (
                world.shelf.troubles.calls.get(),
                world.shelf.troubles.writes.get(),
            );
            waiting.entry(part.clone()).or_default().push(entry.clone());
            match outcome {
                Ok(theirs) => {
                    // Also what an earlier call could not store.
                    stored.extend(waiting.remove(&part).unwrap());
                    let told = theirs.entries().all(|entry| stored.contains(entry));
                    assert!(told, "{what}");
                }
                Err(problem) => {
                    failed = true;
                    assert_eq!(problem.document, Some(id_of(&part)), "{what}");
                }
            }
            // A look by another visit does not count among the calls.
            let ordered = (
                world.shelf.troubles.call.take(),
                world.shelf.troubles.write.take(),
            );
            let found = world.on_shelf();
            world.shelf.troubles.call.set(ordered.0);
            world.shelf.troubles.write.set(ordered.1);
            world.shelf.troubles.calls.set(calls);
            world.shelf.troubles.writes.set(writes);
            assert!(holds(&found, &stored), "{what} at {number}");
            // Either state, whole: what is found of this part beyond what is stored is all that
            // waits for it.
            let beyond = found
                .entries()
                .filter(|entry| !stored.contains(entry))
                .count();
            let waits: usize = waiting.values().map(Vec::len).sum();
            assert!(beyond == 0 || beyond == waits, "{what} at {number}");
        }
    }
    for (part, entries) in waiting {
        put(&store, &part, &[]).unwrap();
        stored.extend(entries);
    }
    assert_eq!(stored.len(), 8);
    assert_eq!(world.on_shelf(), journal_of(&stored), "{what}");
    failed
}

#[test]
fn whichever_write_to_the_shelf_fails_nothing_stored_is_lost() {
    assert!(!puts_with(|_| {}, "all fine"));
    for fault in FAULTS {
        for number in 1..=8 {
            let failed = puts_with(
                |troubles| troubles.at_write(number, fault),
                &format!("{fault:?} at write {number}"),
            );
            // Where a write did not come back, the store looks and writes again by itself.
            let told = !matches!(fault, Fault::TearsInSilence | Fault::DoesNothing);
            assert_eq!(failed, told, "{fault:?} at write {number}");
        }
    }
}

#[test]
fn whichever_call_of_the_shelf_fails_nothing_stored_is_lost() {
    // Each put reads both places, writes one and reads it back.
    for number in 1..=32 {
        for fault in [Fault::Refused, Fault::Tears] {
            puts_with(
                |troubles| troubles.at_call(number, fault),
                &format!("{fault:?} at call {number}"),
            );
        }
    }
}

#[test]
fn a_shelf_that_cannot_say_what_is_on_it_is_told() {
    let (world, entries) = two_saves();
    world.shelf.troubles.at_call(1, Fault::Refused);
    let problem = world.try_open().err().unwrap();
    assert_eq!(problem.why, Why::NotRead(ShelfProblem::Refused));
    assert!(
        problem
            .to_string()
            .starts_with("What is stored could not be read")
    );
    // Any later call that fails costs one part at most, and only until it can be read again.
    for number in 2..=5 {
        world.shelf.troubles.at_call(number, Fault::Tears);
        let opened = world.try_open().unwrap();
        world.fine();
        assert!(
            matches!(opened.notices.as_slice(), [Notice::NotRead { .. }]),
            "{number}"
        );
        for part in [Part::Standing, month(MAY)] {
            let late = entry(&part, "b", 50 + number as u32);
            put(&opened.store, &part, &[late]).unwrap();
        }
        assert!(holds(&world.on_shelf(), &entries), "{number}");
    }
}

#[test]
fn a_full_shelf_keeps_nothing_and_loses_nothing() {
    let world = World::default();
    world.shelf.room.set(Some(0));
    let opened = world.opened();
    assert_eq!(opened.notices, []);
    let may = month(MAY);
    let entries = [entry(&may, "a", 1), entry(&may, "a", 2)];
    for entry in &entries {
        let problem = put(&opened.store, &may, std::slice::from_ref(entry)).unwrap_err();
        assert_eq!(problem.why, Why::NotStored(ShelfProblem::Full));
        let sentence = problem.to_string();
        assert!(sentence.contains("The room the browser gives this page is full."));
    }
    assert!(world.shelf.all().is_empty());
    assert!(opened.store.has_more(&may, &Journal::default()));
    // Closing needs no room on the shelf.
    close(&opened.store, JUNE).unwrap_err();
    assert_eq!(world.archived(), journal_of(&entries));
    world.shelf.room.set(None);
    put(&opened.store, &may, &[]).unwrap();
    assert_eq!(world.everything(), journal_of(&entries));
}

#[test]
fn what_found_no_room_is_remembered_and_saved_once_there_is_some() {
    let (world, mut entries) = two_saves();
    let opened = world.opened();
    let store = opened.store;
    assert_eq!(store.unsaved(), []);
    let full: usize = world.shelf.all().values().map(String::len).sum();
    world.shelf.room.set(Some(full - 1));
    // Two parts find no room.
    let (june, standing) = (month(JUNE), Part::Standing);
    for (number, part) in [(50, &standing), (51, &june), (52, &june)] {
        let new = entry(part, "a", number);
        let problem = put(&store, part, std::slice::from_ref(&new)).unwrap_err();
        assert!(store.unsaved().contains(&problem), "{number}");
        entries.push(new);
    }
    let told = |store: &TestStore| -> Vec<String> {
        let unsaved = store.unsaved().into_iter();
        unsaved
            .map(|problem| problem.document.unwrap().name)
            .collect()
    };
    assert_eq!(told(&store), [standing.name(), JUNE]);
    // As long as there is none, they stay so, and what is stored is not harmed.
    assert!(block_on(store.save_unsaved()).is_empty());
    assert_eq!(told(&store), [standing.name(), JUNE]);
    assert!(holds(&world.on_shelf(), &entries[..4]));
    // Another tab saves meanwhile what is smaller, and is told of.
    world.shelf.room.set(None);
    let theirs = entry(&june, "b", 60);
    put(&world.store(), &june, std::slice::from_ref(&theirs)).unwrap();
    entries.push(theirs.clone());
    assert!(holds(&block_on(store.save_unsaved()), &[theirs]));
    assert_eq!(store.unsaved(), []);
    assert_eq!(world.on_shelf(), journal_of(&entries));
    // Nothing is written where nothing is unsaved.
    world.fine();
    assert!(block_on(store.save_unsaved()).is_empty());
    assert_eq!(world.shelf.troubles.writes.get(), 0);
}

#[test]
fn what_found_no_room_and_is_closed_then_is_unsaved_no_more() {
    let world = World::default();
    world.shelf.room.set(Some(0));
    let store = world.store();
    let (may, june) = (month(MAY), month(JUNE));
    let entries = [entry(&may, "a", 1), entry(&june, "a", 2)];
    put(&store, &may, &entries[..1]).unwrap_err();
    put(&store, &june, &entries[1..]).unwrap_err();
    assert_eq!(store.unsaved().len(), 2);
    let _ = close(&store, JUNE);
    assert_eq!(world.archived(), journal_of(&entries[..1]));
    let left: Vec<_> = store
        .unsaved()
        .into_iter()
        .map(|problem| problem.document)
        .collect();
    assert_eq!(left, [Some(id_of(&june))]);
    // A month that another tab has closed is stored too.
    let (other, late) = (world.store(), entry(&may, "a", 3));
    put(&store, &may, std::slice::from_ref(&late)).unwrap_err();
    block_on(other.put_closed(&may, std::slice::from_ref(&late))).unwrap();
    block_on(store.load(&may));
    assert_eq!(store.unsaved().len(), 1);
}

#[test]
fn without_an_archive_everything_stays_on_the_shelf() {
    let (world, entries) = two_saves();
    let cabinet = Cabinet::new(Rc::clone(&world.shelf));
    let opened = block_on(Store::<_, Shared>::open(cabinet, None)).unwrap();
    assert_eq!(opened.journal, journal_of(&entries));
    let before = world.shelf.all();
    assert_eq!(close(&opened.store, "2030-01"), Ok(()));
    assert_eq!(block_on(opened.store.closed()), Ok(Vec::new()));
    assert_eq!(
        block_on(opened.store.read_closed(MAY)),
        Ok(Journal::default())
    );
    assert_eq!(world.shelf.all(), before);
}

// ---- closing --------------------------------------------------------------------------------

#[test]
fn a_closed_month_is_in_the_archive_and_off_the_shelf() {
    let (world, entries) = two_saves();
    let store = world.store();
    let june = entry(&month(JUNE), "a", 30);
    put(&store, &month(JUNE), std::slice::from_ref(&june)).unwrap();
    assert_eq!(close(&store, JUNE), Ok(()));

    let of_may = [entries[1].clone(), entries[3].clone()];
    assert_eq!(world.archived(), journal_of(&of_may));
    assert_eq!(
        world.on_shelf(),
        journal_of([&entries[0], &entries[2], &june])
    );
    for slot in Slot::BOTH {
        let text = world.shelf.get(&key(&month(MAY), slot)).unwrap();
        assert!(!text.contains("reading"), "both copies make room");
    }
    assert_eq!(block_on(store.closed()), Ok(vec![MAY.to_owned()]));
    let text = world.archive.get(MAY).unwrap();
    let sealed = envelope::open(&text, usize::MAX).unwrap();
    assert_eq!(
        (sealed.kind.as_str(), sealed.name.as_str()),
        ("record", MAY)
    );
    assert_eq!(sealed.body["part"], json!(MAY));

    // Once more changes nothing at all.
    let before = world.shelf.all();
    assert_eq!(close(&world.store(), JUNE), Ok(()));
    assert_eq!(world.shelf.all(), before);
    assert_eq!(world.archive.get(MAY).unwrap(), text);
}

#[test]
fn closed_months_are_told_the_latest_first() {
    let world = World::default();
    let store = world.store();
    for (number, name) in ["2026-01", "2025-12", "2026-03"].into_iter().enumerate() {
        let part = month(name);
        put(&store, &part, &[entry(&part, "a", 1 + number as u32)]).unwrap();
    }
    close(&store, "2026-04").unwrap();
    assert_eq!(
        block_on(store.closed()).unwrap(),
        ["2026-03", "2026-01", "2025-12"]
    );
}

#[test]
fn late_entries_lie_on_the_shelf_and_join_at_the_next_closing() {
    let (world, entries) = two_saves();
    let may = month(MAY);
    let store = world.store();
    close(&store, JUNE).unwrap();
    let late = entry(&may, "b", 40);
    put(&store, &may, std::slice::from_ref(&late)).unwrap();
    let reopened = world.opened();
    assert!(holds(&reopened.journal, std::slice::from_ref(&late)));
    assert!(!holds(&reopened.journal, &entries[1..2]));
    close(&reopened.store, JUNE).unwrap();
    assert_eq!(
        world.archived(),
        journal_of([&entries[1], &entries[3], &late])
    );
    assert!(!holds(&world.on_shelf(), &[late]));
}

/// A device with May closed, and a late entry of May and one of April on its shelf.
fn before_closing() -> (World, Vec<Entry>) {
    let (world, mut entries) = two_saves();
    let store = world.store();
    close(&store, JUNE).unwrap();
    for part in [month(MAY), month("2026-04")] {
        for number in [60, 61] {
            let late = entry(&part, "b", number);
            put(&store, &part, std::slice::from_ref(&late)).unwrap();
            entries.push(late);
        }
    }
    world.fine();
    (world, entries)
}

#[test]
fn whichever_call_fails_while_months_are_closed_nothing_is_lost() {
    let (world, _) = before_closing();
    let store = world.store();
    world.fine();
    close(&store, JUNE).unwrap();
    let calls = [
        world.shelf.troubles.calls.get(),
        world.archive.troubles.calls.get(),
    ];
    assert_eq!(calls[1], 6, "each month is read, written and read back");
    for at_archive in [false, true] {
        for number in 1..=calls[usize::from(at_archive)] {
            for fault in FAULTS {
                let what = format!("{fault:?} at {number}, archive: {at_archive}");
                let (world, entries) = before_closing();
                let whole = journal_of(&entries);
                let store = world.store();
                world.fine();
                let troubles = if at_archive {
                    &world.archive.troubles
                } else {
                    &world.shelf.troubles
                };
                troubles.at_call(number, fault);
                let outcome = close(&store, JUNE);
                world.fine();
                if at_archive {
                    let problem = outcome.unwrap_err();
                    let named = problem.to_string();
                    let name = if number <= 3 { "April" } else { "May" };
                    assert!(
                        named.contains(&format!("he day book of {name}")),
                        "{what}: {named}"
                    );
                }
                assert_eq!(world.everything(), whole, "{what}");
                // The visit goes on, and so does the next.
                let late = entry(&month(MAY), "c", 70);
                put(&store, &month(MAY), std::slice::from_ref(&late)).unwrap();
                let mut whole = whole;
                whole.put(late);
                assert_eq!(world.everything(), whole, "{what}");
                let again = close(&world.store(), JUNE);
                assert_eq!(world.everything(), whole, "{what}");
                let torn = matches!(fault, Fault::Tears | Fault::TearsInSilence)
                    && at_archive
                    && number % 3 == 2;
                assert_eq!(again.is_err(), torn, "{what}");
            }
        }
    }
}

#[test]
fn nothing_leaves_the_shelf_before_it_is_in_the_archive() {
    let (world, entries) = two_saves();
    let store = world.store();
    world.fine();
    let mut closing = pin!(store.close_before(JUNE));
    world.shelf.troubles.waits.borrow_mut().extend([1; 100]);
    world.archive.troubles.waits.borrow_mut().extend([1; 100]);
    let mut context = Context::from_waker(Waker::noop());
    let mut steps = 0;
    while closing.as_mut().poll(&mut context).is_pending() {
        steps += 1;
        let mut found = Journal::default();
        for text in world.shelf.all().values() {
            let body = envelope::open(text, usize::MAX).unwrap().body;
            found.merge(&format::read(body).unwrap().journal);
        }
        if world.shelf.troubles.writes.get() > 0 {
            let text = world.archive.get(MAY).unwrap();
            let body = envelope::open(&text, usize::MAX).unwrap().body;
            found.merge(&format::read(body).unwrap().journal);
            assert_eq!(
                world.archive.troubles.calls.get(),
                3,
                "it has been read back"
            );
        }
        assert!(holds(&found, &entries));
    }
    assert!(steps > 8);
}

#[test]
fn other_content_in_the_archive_than_was_written_is_noticed() {
    let (other, _) = before_closing();
    let may = month(MAY);
    let seal = |name: &str, journal: &Journal| {
        let body = format::text(journal);
        envelope::seal(&DocumentId::new(Kind::Record, name), 1, 1, &body)
    };
    let one = journal_of([&entry(&may, "a", 11)]);
    let full = other.everything();
    for (instead, what) in [
        (seal(MAY, &one), "less"),
        (seal(MAY, &Journal::default()), "nothing"),
        (seal("2026-04", &full), "another month"),
        (format::text(&full), "no envelope"),
        (String::new(), "an empty text"),
    ] {
        let (world, entries) = two_saves();
        let store = world.store();
        *world.archive.instead.borrow_mut() = Some(instead);
        let problem = close(&store, JUNE).unwrap_err();
        assert_eq!(problem.document, Some(id_of(&may)), "{what}");
        assert!(holds(&world.on_shelf(), &entries), "{what}");
    }
}

/// Texts that may lie in place of May, and whether a newer version wrote them.
fn damaged_months() -> Vec<(String, bool)> {
    let (sound, _) = before_closing();
    let text = sound.archive.get(MAY).unwrap();
    let newer = |schema: u32, body: &str| envelope::seal(&id_of(&month(MAY)), schema, 1, body);
    let inner = json!({"longtom": "record", "schema": format::SCHEMA + 1, "logs": []});
    let another = envelope::seal(
        &id_of(&month("2026-04")),
        1,
        1,
        &format::text(&Journal::default()),
    );
    vec![
        (text[..text.len() - 3].to_owned(), false),
        (text.replace("of a", "of b"), false),
        (String::new(), false),
        ("{}".to_owned(), false),
        (newer(1, "{}"), false),
        (another, false),
        (newer(PartDocument::SCHEMA + 1, "{}"), true),
        (newer(1, &inner.to_string()), true),
    ]
}

#[test]
fn a_damaged_month_in_the_archive_is_set_aside_and_never_written_over() {
    for (damaged, is_newer) in damaged_months() {
        for illegible in [false, true] {
            if is_newer && illegible {
                continue;
            }
            let (world, entries) = before_closing();
            world.archive.put(MAY, &damaged);
            if illegible {
                world.archive.illegible.borrow_mut().insert(MAY.to_owned());
            }
            let store = world.store();
            // Reading it changes nothing.
            let problem = block_on(store.read_closed(MAY)).unwrap_err();
            assert_eq!(problem.document, Some(id_of(&month(MAY))));
            let expected = if is_newer {
                Why::NewerVersion
            } else {
                Why::Damaged
            };
            assert_eq!(problem.why, expected, "{damaged}");
            assert_eq!(world.archive.get(MAY).unwrap(), damaged);

            let told = close(&store, JUNE).unwrap_err();
            let april = journal_of(&entries[6..8]);
            assert_eq!(block_on(store.read_closed("2026-04")), Ok(april.clone()));
            if is_newer {
                // A newer version will understand it: it stays, and the late entries wait.
                assert_eq!(told, problem);
                assert_eq!(world.archive.get(MAY).unwrap(), damaged);
                assert!(world.archive.asides.borrow().is_empty());
                assert!(holds(&world.on_shelf(), &entries[4..6]));
                assert_eq!(world.archived(), april);
                continue;
            }
            // It lies aside, to the letter, and the month is used again.
            assert_eq!(told.why, Why::SetAside);
            let sentence = told.to_string();
            assert!(
                sentence.starts_with("The day book of May 2026 was found damaged and set aside"),
                "{sentence}"
            );
            let aside = [(MAY.to_owned(), damaged.clone())];
            assert_eq!(*world.archive.asides.borrow(), aside);
            assert_eq!(world.archived(), journal_of(&entries[4..8]));
            assert_eq!(world.on_shelf(), journal_of([&entries[0], &entries[2]]));
            // And is told once.
            assert_eq!(close(&world.store(), JUNE), Ok(()));
            assert_eq!(*world.archive.asides.borrow(), aside);
        }
    }
}

#[test]
fn a_damaged_month_that_is_found_in_reading_can_be_set_aside_at_once() {
    let (world, entries) = before_closing();
    world.archive.put(MAY, "damaged");
    let tabs = [world.store(), world.store()];
    let found = tabs
        .each_ref()
        .map(|tab| block_on(tab.read_closed(MAY)).unwrap_err());
    for (tab, problem) in tabs.iter().zip(found) {
        // The second finds that the first has done it.
        let told = block_on(tab.set_aside_if_damaged(problem));
        assert_eq!(told.why, Why::SetAside);
        assert_eq!(world.archive.asides.borrow().len(), 1);
        assert_eq!(world.archive.get(MAY), None);
        assert_eq!(block_on(tab.read_closed(MAY)), Ok(Journal::default()));
    }
    // What has come into its place meanwhile is left there.
    world.archive.put("2026-04", "damaged");
    let problem = block_on(tabs[0].read_closed("2026-04")).unwrap_err();
    let april = journal_of(&entries[6..8]);
    close(&tabs[1], JUNE).unwrap_err();
    assert_eq!(
        block_on(tabs[0].set_aside_if_damaged(problem)).why,
        Why::SetAside
    );
    assert_eq!(block_on(tabs[0].read_closed("2026-04")), Ok(april));
    // Any other problem is told as it is.
    world.archive.troubles.at_call(1, Fault::Refused);
    let problem = block_on(tabs[0].read_closed(MAY)).unwrap_err();
    assert_eq!(
        block_on(tabs[0].set_aside_if_damaged(problem.clone())),
        problem
    );
}

#[test]
fn a_damaged_month_that_cannot_be_set_aside_stays_where_it_is() {
    for number in 2..=3 {
        let (world, entries) = before_closing();
        world.archive.put(MAY, "damaged");
        let store = world.store();
        // April comes first: it is looked at, written and read back.
        world.archive.troubles.at_call(3 + number, Fault::Refused);
        let told = close(&store, JUNE).unwrap_err();
        assert_eq!(told.why, Why::NotSetAside(ShelfProblem::Refused));
        let sentence = told.to_string();
        let start = "The day book of May 2026 was found damaged and could not be set aside. It \
                     stays where it is";
        assert!(sentence.starts_with(start), "{sentence}");
        world.fine();
        assert_eq!(world.archive.get(MAY).unwrap(), "damaged");
        assert!(holds(&world.on_shelf(), &entries[4..6]));
    }
}

#[test]
fn one_month_that_cannot_be_closed_does_not_hold_up_the_others() {
    let (world, entries) = before_closing();
    let newer = envelope::seal(&id_of(&month("2026-04")), PartDocument::SCHEMA + 1, 1, "{}");
    world.archive.put("2026-04", &newer);
    let problem = close(&world.store(), JUNE).unwrap_err();
    assert_eq!(problem.document, Some(id_of(&month("2026-04"))));
    assert!(holds(&world.archived(), &entries[4..6]));
    assert!(holds(&world.on_shelf(), &entries[6..8]));
}

#[test]
fn what_could_not_be_read_again_does_not_take_the_place_of_what_can() {
    let (world, _) = before_closing();
    let before = world.archive.get(MAY).unwrap();
    let store = world.store();
    // Deeper than any text is read.
    let mut value = Value::from(1);
    for _ in 0..200 {
        value = Value::from(vec![value]);
    }
    let mut late = entry(&month(MAY), "d", 90);
    late.extra = Some(Box::new([("deep".to_owned(), value)].into_iter().collect()));
    let refused = put(&store, &month(MAY), &[late]).unwrap_err();
    assert_eq!(refused.why, Why::NotWritable);
    let refused = close(&store, JUNE).unwrap_err();
    assert_eq!(refused.why, Why::NotWritable);
    assert_eq!(world.archive.get(MAY).unwrap(), before);
}

// ---- room -----------------------------------------------------------------------------------

/// Room as the browser counts it: a text is stored as a JSON string, and each UTF-16 unit counts.
fn units(shelf: &DoubleShelf) -> usize {
    let all = shelf.all().into_iter();
    let units = |text: &str| text.encode_utf16().count();
    all.map(|(key, text)| units(&key) + units(&Value::from(text).to_string()))
        .sum()
}

/// The minimum and maximum of a night, as a grower enters them.
fn night(number: u32, day: &str) -> Entry {
    let texts = [
        (DAY, day),
        ("place", "k3fq.1.a2b4"),
        ("low", "6,5 degC"),
        ("high", "31 degC"),
    ];
    let act = Act::Add {
        kind: kind_key("night"),
        texts: Arc::new(Texts::of(texts)),
    };
    Entry::new(
        Mark::read("k3fq").unwrap(),
        number,
        29_635_660 + number,
        act,
    )
}

#[test]
fn a_night_takes_as_much_room_as_is_told() {
    let world = World::default();
    let cabinet = Cabinet::new(Rc::clone(&world.shelf));
    let store = block_on(Store::<_, Shared>::open(cabinet, None))
        .unwrap()
        .store;
    assert!(!store.has_archive());
    let put = |part: &str, entries: &[Entry]| {
        block_on(store.put(&month(part), entries)).unwrap();
        // Into the other copy too.
        block_on(store.put(&month(part), &[])).unwrap();
    };
    put(MAY, &[night(1_000, "2026-05-01")]);
    let before = units(&world.shelf);
    let days = (2..=31).map(|day| night(1_000 + day, &format!("2026-05-{day:02}")));
    put(MAY, &days.collect::<Vec<_>>());
    let each = (units(&world.shelf) - before) / 30;
    assert!(each.abs_diff(A_NIGHT) <= A_NIGHT / 20, "{each}");
}

#[test]
fn the_room_left_is_told_in_nights() {
    assert_eq!(nights_left(0), 15_000);
    assert_eq!(nights_left(UNITS - 42 * A_NIGHT), 42);
    assert_eq!(nights_left(UNITS - 4_257 * A_NIGHT), 4_200);
    assert_eq!(nights_left(UNITS - A_NIGHT + 1), 0);
    assert_eq!(nights_left(UNITS + 1), 0);
}

#[test]
fn months_can_be_taken_off_once_there_is_a_copy_of_them() {
    let (world, mut entries) = two_saves();
    let cabinet = Cabinet::new(Rc::clone(&world.shelf));
    let store = block_on(Store::<_, Shared>::open(cabinet, None))
        .unwrap()
        .store;
    let june = entry(&month(JUNE), "a", 30);
    block_on(store.put(&month(JUNE), std::slice::from_ref(&june))).unwrap();
    entries.push(june);
    assert_eq!(store.months_on_shelf(), [MAY, JUNE]);
    let copy = journal_of(&entries);
    // Something was entered for June after the copy was taken.
    let late = entry(&month(JUNE), "b", 40);
    block_on(store.put(&month(JUNE), std::slice::from_ref(&late))).unwrap();
    // And something finds no room at all.
    world.shelf.room.set(Some(0));
    let waiting = entry(&Part::Standing, "b", 41);
    let refused = block_on(store.put(&Part::Standing, std::slice::from_ref(&waiting)));
    let sentence = refused.unwrap_err().to_string();
    assert!(sentence.contains("Export the record under"), "{sentence}");
    let full: usize = world.shelf.all().values().map(String::len).sum();
    world.shelf.room.set(Some(full));

    let months = [MAY.to_owned(), JUNE.to_owned()];
    assert_eq!(store.unsaved().len(), 1);
    assert_eq!(block_on(store.take_off(&months, &copy)), Ok(()));
    assert_eq!(store.unsaved(), []);
    assert_eq!(store.months_on_shelf(), [JUNE]);
    for slot in Slot::BOTH {
        assert_eq!(world.shelf.get(&key(&month(MAY), slot)), None);
    }
    let left = [&entries[0], &entries[2], &entries[4], &late, &waiting];
    assert_eq!(world.on_shelf(), journal_of(left));
    // The copy brings it back, into a month that can be used as before.
    let may: Vec<Entry> = entries[..4].iter().skip(1).step_by(2).cloned().collect();
    world.shelf.room.set(None);
    block_on(store.put(&month(MAY), &may)).unwrap();
    entries.extend([late, waiting]);
    assert_eq!(world.on_shelf(), journal_of(&entries));
    // What cannot be read is not taken off.
    world.shelf.put(&key(&month(MAY), Slot::A), "damaged");
    world.shelf.put(&key(&month(MAY), Slot::B), "damaged");
    assert_eq!(
        block_on(store.take_off(&months[..1], &world.everything())),
        Ok(())
    );
    assert!(holds(&world.on_shelf(), &may));
}

#[test]
fn a_month_that_found_no_room_and_is_taken_off_is_unsaved_no_more() {
    let world = World::default();
    let cabinet = Cabinet::new(Rc::clone(&world.shelf));
    let store = block_on(Store::<_, Shared>::open(cabinet, None))
        .unwrap()
        .store;
    world.shelf.room.set(Some(0));
    let may = entry(&month(MAY), "a", 1);
    block_on(store.put(&month(MAY), std::slice::from_ref(&may))).unwrap_err();
    assert_eq!(store.unsaved().len(), 1);
    // A copy that lacks it does not do.
    let months = [MAY.to_owned()];
    let _ = block_on(store.take_off(&months, &Journal::default()));
    assert_eq!(store.unsaved().len(), 1);
    // Whoever has a copy has all of it: nothing is left to be saved, and nothing to be told.
    assert_eq!(
        block_on(store.take_off(&months, &journal_of([&may]))),
        Ok(())
    );
    assert_eq!(store.unsaved(), []);
    world.shelf.room.set(None);
    assert!(block_on(store.save_unsaved()).is_empty());
    assert_eq!(world.shelf.all(), BTreeMap::new());
}

// ---- two tabs -------------------------------------------------------------------------------

#[test]
fn two_tabs_that_close_one_after_the_other_lose_nothing() {
    // Either tab may have heard or not of what the other has entered.
    for late_by in [0, 1] {
        for closes_first in [0, 1] {
            let (world, mut entries) = two_saves();
            let tabs = [world.store(), world.store()];
            let may = month(MAY);
            for number in 0..3 {
                let late = entry(&may, "b", 20 + number);
                put(&tabs[late_by], &may, std::slice::from_ref(&late)).unwrap();
                entries.push(late);
                let closing = (closes_first + number as usize) % 2;
                close(&tabs[closing], JUNE).unwrap();
                assert_eq!(world.everything(), journal_of(&entries));
            }
            for tab in [1, 0] {
                close(&tabs[tab], JUNE).unwrap();
            }
            close(&world.store(), JUNE).unwrap();
            assert_eq!(world.everything(), journal_of(&entries));
            assert_eq!(world.archived().len(), 5);
            assert_eq!(world.on_shelf().len(), 2);
        }
    }
}

#[test]
fn a_tab_that_enters_while_another_closes_loses_nothing() {
    let mut draws = Pcg64Mcg::new(SEED);
    let may = month(MAY);
    for _ in 0..400 {
        let (world, mut entries) = two_saves();
        let tabs = [world.store(), world.store()];
        let late = entry(&may, "b", 40);
        let waits = (0..200).map(|_| draws.next_u32() % 3).collect();
        *world.shelf.troubles.waits.borrow_mut() = waits;
        let waits = (0..20).map(|_| draws.next_u32() % 6).collect();
        *world.archive.troubles.waits.borrow_mut() = waits;
        let (closed, stored) = in_turns(
            tabs[0].close_before(JUNE),
            tabs[1].put(&may, std::slice::from_ref(&late)),
            || draws.next_u32().is_multiple_of(2),
        );
        world.shelf.troubles.waits.borrow_mut().clear();
        world.archive.troubles.waits.borrow_mut().clear();
        closed.unwrap();
        stored.unwrap();
        entries.push(late);
        until_quiet(&tabs, &may);
        assert_eq!(world.everything(), journal_of(&entries));
        close(&tabs[1], JUNE).unwrap();
        close(&world.store(), JUNE).unwrap();
        assert_eq!(world.everything(), journal_of(&entries));
        assert_eq!(world.archived().len(), 3);
    }
}

#[test]
fn two_tabs_that_close_the_same_month_at_once_lose_nothing() {
    let mut draws = Pcg64Mcg::new(SEED + 1);
    for _ in 0..400 {
        let (world, entries) = before_closing();
        let tabs = [world.store(), world.store()];
        let waits = (0..300).map(|_| draws.next_u32() % 3).collect();
        *world.shelf.troubles.waits.borrow_mut() = waits;
        let waits = (0..40).map(|_| draws.next_u32() % 6).collect();
        *world.archive.troubles.waits.borrow_mut() = waits;
        let outcomes = in_turns(
            tabs[0].close_before(JUNE),
            tabs[1].close_before(JUNE),
            || draws.next_u32().is_multiple_of(2),
        );
        world.shelf.troubles.waits.borrow_mut().clear();
        world.archive.troubles.waits.borrow_mut().clear();
        assert_eq!(outcomes, (Ok(()), Ok(())));
        assert_eq!(world.everything(), journal_of(&entries));
        close(&world.store(), JUNE).unwrap();
        assert_eq!(world.everything(), journal_of(&entries));
        assert_eq!(world.on_shelf().len(), 2);
    }
}

/// Waits for both tabs' calls, as drawn.
fn draw_waits(world: &World, draws: &mut Pcg64Mcg) {
    let waits = (0..400).map(|_| draws.next_u32() % 3).collect();
    *world.shelf.troubles.waits.borrow_mut() = waits;
    let waits = (0..80).map(|_| draws.next_u32() % 6).collect();
    *world.archive.troubles.waits.borrow_mut() = waits;
}

fn no_waits(world: &World) {
    world.shelf.troubles.waits.borrow_mut().clear();
    world.archive.troubles.waits.borrow_mut().clear();
}

/// Nothing keeps the tabs apart here: no lock, and each in the middle of whatever it does while the
/// other goes on. Each has entered something that the other may not have heard of.
#[test]
fn whatever_the_order_two_tabs_that_close_and_enter_at_once_lose_nothing() {
    let mut draws = Pcg64Mcg::new(SEED + 7);
    let may = month(MAY);
    let mut met = 0;
    for _ in 0..4_000 {
        let (world, mut entries) = before_closing();
        let tabs = [world.store(), world.store()];
        let late = [
            entry(&may, "c", 81),
            entry(&may, "d", 81),
            entry(&may, "e", 82),
        ];
        put(&tabs[0], &may, &late[..1]).unwrap();
        put(&tabs[1], &may, &late[1..2]).unwrap();
        entries.extend(late.clone());
        let stamps = world.archive.stamps.get();
        draw_waits(&world, &mut draws);
        let outcomes = in_turns(
            tabs[0].close_before(JUNE),
            async {
                let stored = tabs[1].put(&may, &late[2..]).await;
                stored.and(tabs[1].close_before(JUNE).await)
            },
            || draws.next_u32().is_multiple_of(2),
        );
        no_waits(&world);
        assert_eq!(outcomes, (Ok(()), Ok(())));
        met += usize::from(world.archive.stamps.get() > stamps + 2);
        until_quiet(&tabs, &may);
        assert_eq!(world.everything(), journal_of(&entries));
        close(&world.store(), JUNE).unwrap();
        assert_eq!(world.everything(), journal_of(&entries));
        assert_eq!(world.on_shelf(), journal_of([&entries[0], &entries[2]]));
        assert!(world.archive.asides.borrow().is_empty());
    }
    // Often both have something of their own to put in.
    assert!(met > 100, "{met}");
}

#[test]
fn both_tabs_look_at_the_archive_and_then_both_write() {
    let (world, mut entries) = before_closing();
    let may = month(MAY);
    let tabs = [world.store(), world.store()];
    // Neither has heard of the other's entry, and neither finds it on the shelf.
    let late = [entry(&may, "c", 81), entry(&may, "d", 81)];
    let closing = |tab: usize| tabs[tab].put_closed(&may, &late[tab..=tab]);
    // In step: both look, both write, both read back.
    *world.archive.troubles.waits.borrow_mut() = [1; 12].into();
    let mut first = false;
    let outcomes = in_turns(closing(0), closing(1), || {
        first = !first;
        first
    });
    no_waits(&world);
    assert_eq!(outcomes, (Ok(()), Ok(())));
    entries.extend(late);
    assert_eq!(world.everything(), journal_of(&entries));
    assert!(holds(&world.archived(), &entries[8..]));
}

#[test]
fn a_tab_that_hears_of_a_closing_does_not_put_the_month_back() {
    let may = month(MAY);
    for enters in [false, true] {
        let (world, mut entries) = two_saves();
        let tabs = [world.store(), world.store()];
        close(&tabs[0], JUNE).unwrap();
        let archived = journal_of([&entries[1], &entries[3]]);
        let mut late = Vec::new();
        if enters {
            // Before it has heard of anything.
            late.push(entry(&may, "b", 40));
            put(&tabs[1], &may, &late).unwrap();
        }
        assert!(until_quiet(&tabs, &may) <= 1);
        let mut on_shelf = journal_of([&entries[0], &entries[2]]);
        on_shelf.merge(&journal_of(&late));
        assert_eq!(world.on_shelf(), on_shelf, "what is closed stays closed");
        assert_eq!(world.archived(), archived);
        entries.extend(late);
        assert_eq!(world.everything(), journal_of(&entries));
        // Either tab closes what came late.
        close(&tabs[usize::from(enters)], JUNE).unwrap();
        assert_eq!(world.on_shelf().len(), 2);
        assert_eq!(world.everything(), journal_of(&entries));
    }
}

/// Each tab hears of the other's saves and saves what is missing, until there is nothing to hear.
fn until_quiet(tabs: &[TestStore; 2], part: &Part) -> usize {
    for round in 0..10 {
        let mut quiet = true;
        for tab in tabs {
            let (theirs, _) = block_on(tab.load(part));
            if tab.has_more(part, &theirs) {
                quiet = false;
                put(tab, part, &[]).unwrap();
            }
        }
        if quiet {
            return round;
        }
    }
    panic!("two tabs save for ever");
}

#[test]
fn two_tabs_that_write_at_once_both_have_everything_in_the_end() {
    let mut draws = Pcg64Mcg::new(SEED + 2);
    let may = month(MAY);
    let (mut written_over, mut told) = (0, 0);
    for _ in 0..2_000 {
        let (world, mut entries) = two_saves();
        let tabs = [world.store(), world.store()];
        let new = [entry(&may, "a", 31), entry(&may, "b", 31)];
        let waits = (0..200).map(|_| draws.next_u32() % 3).collect();
        *world.shelf.troubles.waits.borrow_mut() = waits;
        let (one, other) = in_turns(
            tabs[0].put(&may, &new[..1]),
            tabs[1].put(&may, &new[1..]),
            || draws.next_u32().is_multiple_of(2),
        );
        world.shelf.troubles.waits.borrow_mut().clear();
        let (one, other) = (one.unwrap(), other.unwrap());
        if holds(&one, &new[1..]) || holds(&other, &new[..1]) {
            told += 1;
        }
        let found = world.on_shelf();
        if !holds(&found, &new) {
            // Both wrote over the same place at the same moment, and neither saw it.
            written_over += 1;
            assert!(
                tabs.iter()
                    .any(|tab| tab.has_more(&may, &block_on(tab.load(&may)).0))
            );
        }
        until_quiet(&tabs, &may);
        entries.extend(new);
        assert_eq!(world.on_shelf(), journal_of(&entries));
        for tab in &tabs {
            assert!(!tab.has_more(&may, &world.on_shelf()));
            assert!(tab.has_more(&may, &Journal::default()));
        }
        assert_eq!(world.shelf.asides(), Vec::<String>::new());
    }
    // The schedules reach what they are meant to.
    assert!(written_over > 10 && told > 10, "{written_over} {told}");
}

#[test]
fn both_tabs_write_the_same_place_at_the_same_moment() {
    let (world, mut entries) = two_saves();
    let may = month(MAY);
    let tabs = [world.store(), world.store()];
    let new = [entry(&may, "a", 31), entry(&may, "b", 31)];
    // In step: both look at both places, both write, both read back.
    *world.shelf.troubles.waits.borrow_mut() = [1; 8].into();
    let mut first = false;
    let (one, other) = in_turns(
        tabs[0].put(&may, &new[..1]),
        tabs[1].put(&may, &new[1..]),
        || {
            first = !first;
            first
        },
    );
    one.unwrap();
    other.unwrap();
    until_quiet(&tabs, &may);
    entries.extend(new);
    assert_eq!(world.on_shelf(), journal_of(&entries));
    assert_eq!(world.shelf.asides(), Vec::<String>::new());
}

// ---- damage ---------------------------------------------------------------------------------

#[test]
fn a_damaged_character_costs_the_newest_save_at_most() {
    let mut draws = Pcg64Mcg::new(SEED + 3);
    let (sound, entries) = two_saves();
    let texts: Vec<(String, String)> = sound.shelf.all().into_iter().collect();
    assert_eq!(texts.len(), 4);
    let mut lost = 0;
    for number in 0..1_000 {
        let (key, text) = &texts[number % 4];
        assert!(text.is_ascii());
        let place = draws.next_u32() as usize % text.len();
        let mut bytes = text.clone().into_bytes();
        // Another character of one byte.
        bytes[place] = (bytes[place] + 1 + (draws.next_u32() % 126) as u8) % 128;
        let damaged = String::from_utf8(bytes).unwrap();
        let world = World::default();
        texts
            .iter()
            .for_each(|(key, text)| world.shelf.put(key, text));
        world.shelf.put(key, &damaged);

        let opened = world.opened();
        let what = format!("{key} at {place}");
        let [Notice::SetAside { others: true, .. }] = opened.notices.as_slice() else {
            panic!("{what}: {:?}", opened.notices);
        };
        assert_eq!(world.shelf.asides(), [damaged.as_str()], "{what}");
        // The first save of both parts, and the second of the other.
        assert!(holds(&opened.journal, &entries[..2]), "{what}");
        assert!(opened.journal.len() >= 3, "{what}");
        lost += entries.len() - opened.journal.len();
        for part in [Part::Standing, month(MAY)] {
            let late = entry(&part, "b", 40);
            put(&opened.store, &part, std::slice::from_ref(&late)).unwrap();
            assert!(holds(&world.on_shelf(), &[late]), "{what}");
        }
        assert!(holds(&world.on_shelf(), &entries[..2]), "{what}");
        assert_eq!(world.shelf.asides(), [damaged], "{what}");
    }
    assert_eq!(lost, 500, "every second text is a newest one");
}

#[test]
fn a_damaged_character_in_the_archive_is_noticed() {
    let mut draws = Pcg64Mcg::new(SEED + 4);
    let (sound, entries) = before_closing();
    let text = sound.archive.get(MAY).unwrap();
    for number in 0..1_000 {
        let place = draws.next_u32() as usize % text.len();
        let mut bytes = text.clone().into_bytes();
        bytes[place] = (bytes[place] + 1 + (draws.next_u32() % 126) as u8) % 128;
        let damaged = String::from_utf8(bytes).unwrap();
        sound.archive.put(MAY, &damaged);
        let store = sound.store();
        let problem = block_on(store.read_closed(MAY)).unwrap_err();
        assert_eq!(problem.why, Why::Damaged, "{place}");
        assert_eq!(
            block_on(store.set_aside_if_damaged(problem)).why,
            Why::SetAside
        );
        let asides = sound.archive.asides.borrow();
        assert_eq!(asides[number], (MAY.to_owned(), damaged));
        assert_eq!(asides.len(), number + 1);
        assert!(holds(&sound.on_shelf(), &entries[4..6]));
    }
}

#[test]
fn garbage_in_the_place_of_a_part_is_set_aside() {
    let may = month(MAY);
    let sealed = |body: &str| envelope::seal(&id_of(&may), 1, 9, body);
    for garbage in [
        String::new(),
        "null".to_owned(),
        "\u{FFFD}\u{1F331}".to_owned(),
        sealed("null"),
        sealed("[1,2]"),
        sealed("{\"longtom\":\"record\",\"schema\":1,\"entries\":{}}"),
        sealed("{\"longtom\":\"record\",\"schema\":0,\"entries\":[]}"),
        sealed("{\"longtom\":\"record\",\"schema\":-1,\"entries\":[]}"),
        envelope::seal(&id_of(&may), 0, 9, &format::text(&Journal::default())),
        envelope::seal(
            &id_of(&Part::Standing),
            1,
            9,
            &format::text(&Journal::default()),
        ),
    ] {
        let world = World::default();
        for slot in Slot::BOTH {
            world.shelf.put(&key(&may, slot), &garbage);
        }
        let opened = world.opened();
        assert!(opened.journal.is_empty());
        assert_eq!(world.shelf.asides(), [garbage.as_str()]);
        let sentence = words::notice(&opened.notices[0]);
        assert!(
            sentence.starts_with("A damaged copy of the day book of May 2026 was found"),
            "{sentence}"
        );
        let entries = [
            entry(&may, "a", 1),
            entry(&may, "a", 2),
            entry(&may, "a", 3),
        ];
        for entry in &entries {
            put(&opened.store, &may, std::slice::from_ref(entry)).unwrap();
        }
        assert_eq!(world.on_shelf(), journal_of(&entries));
        assert_eq!(world.shelf.asides(), [garbage]);
    }
}

#[test]
fn keys_that_are_no_parts_are_left_alone() {
    let world = World::default();
    let strange = [
        ("longtom.record.a", "no name"),
        ("longtom.record.standing.c", "no slot"),
        ("longtom.recording.2026-05.a", "no kind"),
        ("other.record.2026-05.a", "another page"),
    ];
    for (key, text) in strange {
        world.shelf.put(key, text);
    }
    let opened = world.opened();
    assert!(opened.journal.is_empty());
    close(&opened.store, JUNE).unwrap();
    for (key, text) in strange {
        assert_eq!(world.shelf.get(key).as_deref(), Some(text));
    }
    assert!(world.archive.texts.borrow().is_empty());
}

// ---- newer versions -------------------------------------------------------------------------

#[test]
fn a_part_of_a_newer_version_is_left_alone() {
    assert_eq!(
        PartDocument::SCHEMA,
        format::SCHEMA,
        "by the envelope an older program must see that it cannot read the record inside"
    );
    for part in [Part::Standing, month(MAY)] {
        let (world, entries) = two_saves();
        let newer = PartDocument::SCHEMA + 1;
        let body = json!({"longtom": "record", "schema": newer, "part": part.name(), "logs": []});
        let text = envelope::seal(&id_of(&part), newer, 9, &body.to_string());
        world.shelf.put(&key(&part, Slot::A), &text);
        let before = world.shelf.all();

        let opened = world.opened();
        let document = id_of(&part);
        assert_eq!(opened.notices, [Notice::NewerVersion { document }]);
        // The copy beside it is of this version.
        assert_eq!(opened.journal, journal_of(&entries));
        let problem = put(&opened.store, &part, &[entry(&part, "b", 40)]).unwrap_err();
        assert_eq!(problem.why, Why::NewerVersion);
        assert!(problem.to_string().contains("a newer Longtom"));
        if part != Part::Standing {
            let problem = close(&opened.store, JUNE).unwrap_err();
            assert_eq!(problem.why, Why::NewerVersion);
        }
        assert_eq!(world.shelf.all(), before);
        // And is offered.
        let cabinet = Cabinet::new(Rc::clone(&world.shelf));
        let _: longtom::keep::Loaded<PartDocument> = block_on(cabinet.load(part.name()));
        let asides = block_on(cabinet.asides()).unwrap();
        assert_eq!(asides.len(), 1);
        assert!(asides[0].in_place);
        assert_eq!(block_on(cabinet.aside_text(&asides[0].key)), Ok(text));
    }
}

/// No version writes this, since both schemas go up together; it is damage, and kept as it is.
#[test]
fn a_newer_record_in_an_envelope_of_this_version_is_set_aside() {
    let (world, _) = two_saves();
    let may = month(MAY);
    let body = json!({"longtom": "record", "schema": format::SCHEMA + 1, "entries": []});
    let text = envelope::seal(&id_of(&may), PartDocument::SCHEMA, 9, &body.to_string());
    world.shelf.put(&key(&may, Slot::A), &text);
    let opened = world.opened();
    assert_eq!(world.shelf.asides(), [text.as_str()]);
    for number in 40..44 {
        put(&opened.store, &may, &[entry(&may, "b", number)]).unwrap();
    }
    assert_eq!(world.shelf.asides(), [text]);
}

// ---- what only a newer version understands --------------------------------------------------

/// A document of a part with members, an entry and a list that this version does not understand.
fn with_more(part: &Part, number: u32) -> (String, Journal) {
    let known: Value = serde_json::from_str(&entry(part, "a", number).text()).unwrap();
    let body = json!({
        "longtom": "record", "schema": 1, "part": part.name(),
        "entries": [known, {"id": format!("z.{number}.0"), "weigh": {"kg": [1, 2]}}, ["no entry", part.name()], 7],
        "scales": {"of": part.name()}, "others": [["scales", {"of": "elsewhere"}]],
    });
    let journal = format::read(body.clone()).unwrap().journal;
    assert_eq!((journal.len(), journal.unread().count()), (2, 2));
    assert_eq!(journal.members().count(), 2);
    (
        envelope::seal(&id_of(part), 1, 5, &body.to_string()),
        journal,
    )
}

#[test]
fn what_a_newer_version_has_added_stays_with_its_part() {
    for part in [Part::Standing, month(MAY)] {
        let world = World::default();
        let (text, mut journal) = with_more(&part, 1);
        world.shelf.put(&key(&part, Slot::A), &text);
        for number in 2..6 {
            let opened = world.opened();
            assert_eq!(opened.journal, journal);
            assert_eq!(opened.notices, []);
            let new = entry(&part, "b", number);
            journal.put(new.clone());
            put(&opened.store, &part, &[new]).unwrap();
        }
        assert_eq!(world.on_shelf(), journal);
        let (only, _) = block_on(world.store().load(&part));
        assert_eq!(only, journal, "it has not gone to another part");
        close(&world.store(), JUNE).unwrap();
        assert_eq!(world.everything(), journal);
    }
}

#[test]
fn what_a_newer_version_has_added_goes_with_a_closed_month() {
    let world = World::default();
    let may = month(MAY);
    let (text, mut whole) = with_more(&may, 1);
    world.shelf.put(&key(&may, Slot::A), &text);
    close(&world.store(), JUNE).unwrap();
    assert_eq!(world.archived(), whole);
    assert!(world.on_shelf().is_empty());
    // And joins what is there already.
    let (text, more) = with_more(&may, 2);
    whole.merge(&more);
    for slot in Slot::BOTH {
        world.shelf.put(&key(&may, slot), &text);
    }
    close(&world.store(), JUNE).unwrap();
    assert_eq!(world.archived(), whole);
    assert!(world.on_shelf().is_empty());
}

#[test]
fn another_tab_is_told_of_unread_values_too() {
    let world = World::default();
    let may = month(MAY);
    let (text, journal) = with_more(&may, 1);
    world.shelf.put(&key(&may, Slot::A), &text);
    let store = world.store();
    assert!(!store.has_more(&may, &journal));
    let entries: Vec<Entry> = journal.entries().cloned().collect();
    assert!(store.has_more(&may, &journal_of(&entries)));
}

#[test]
fn two_entries_of_one_name_are_both_kept() {
    // Two devices carry the same mark, and their entries the same name.
    let may = month(MAY);
    let mut one = entry(&may, "a", 1);
    let mut other = entry(&may, "a", 1);
    one.at = 1;
    other.at = 2;
    let world = World::default();
    let tabs = [world.store(), world.store()];
    put(&tabs[0], &may, std::slice::from_ref(&one)).unwrap();
    put(&tabs[1], &may, std::slice::from_ref(&other)).unwrap();
    let both = journal_of([&one, &other]);
    assert_eq!(both.len(), 2);
    assert_eq!(world.on_shelf(), both);
    close(&tabs[0], JUNE).unwrap();
    put(&tabs[1], &may, &[one]).unwrap();
    close(&tabs[1], JUNE).unwrap();
    close(&world.store(), JUNE).unwrap();
    assert_eq!(world.archived(), both);
    assert_eq!(world.everything(), both);
}

// ---- sentences ------------------------------------------------------------------------------

#[test]
fn every_problem_names_its_part() {
    let (world, _) = two_saves();
    let store = world.store();
    for (part, name) in [
        (Part::Standing, "The record of the nursery"),
        (month(MAY), "The day book of May 2026"),
    ] {
        let new = entry(&part, "c", 80);
        let say = |order: &dyn Fn(), expected: &str| {
            order();
            let problem = put(&store, &part, std::slice::from_ref(&new)).unwrap_err();
            world.fine();
            let sentence = problem.to_string();
            let start = [name, expected].concat();
            assert!(sentence.starts_with(&start), "{sentence}");
        };
        let troubles = &world.shelf.troubles;
        let not_saved = " could not be saved; what was saved before is still there. ";
        say(&|| troubles.at_write(1, Fault::Refused), not_saved);
        say(&|| troubles.at_write(1, Fault::Full), not_saved);
        say(&|| troubles.at_write(1, Fault::Tears), not_saved);
        say(
            &|| troubles.at_call(1, Fault::Tears),
            " could not be read from this device, so nothing was saved over it. ",
        );
    }
    // In the archive.
    for (number, fault, expected) in [
        (1, Fault::Refused, " could not be read from this device"),
        (2, Fault::Full, " could not be saved"),
        (2, Fault::DoesNothing, " did not come back as it was saved"),
        (3, Fault::Refused, " could not be read from this device"),
    ] {
        world.archive.troubles.at_call(number, fault);
        let sentence = close(&store, JUNE).unwrap_err().to_string();
        let start = ["The day book of May 2026", expected].concat();
        assert!(sentence.starts_with(&start), "{number}: {sentence}");
    }
    world.archive.troubles.at_call(1, Fault::Refused);
    let sentence = block_on(store.closed()).unwrap_err().to_string();
    assert!(sentence.starts_with("What is stored could not be read"));
}

// ---- anything, in any order -----------------------------------------------------------------

#[derive(Clone, Copy, Debug)]
enum Step {
    /// A tab enters something into a part.
    Put { tab: usize, part: usize },
    /// A tab is opened anew; what it had not stored is gone with it.
    Open { tab: usize },
    /// A tab closes the months before one.
    Close { tab: usize, before: usize },
    /// A tab hears that a part has changed.
    Hear { tab: usize, part: usize },
}

/// A step, and what goes wrong meanwhile: on the shelf or in the archive, at which call.
type Troubled = (Step, Option<(bool, usize, usize)>);

const PARTS: [&str; 4] = ["standing", "2026-03", "2026-04", MAY];
const BEFORE: [&str; 4] = ["2026-03", "2026-04", MAY, JUNE];

fn step() -> impl Strategy<Value = Troubled> {
    let (tab, four) = (0..2_usize, 0..4_usize);
    let step = prop_oneof![
        4 => (tab.clone(), four.clone()).prop_map(|(tab, part)| Step::Put { tab, part }),
        1 => tab.clone().prop_map(|tab| Step::Open { tab }),
        2 => (tab.clone(), four.clone()).prop_map(|(tab, before)| Step::Close { tab, before }),
        1 => (tab, four).prop_map(|(tab, part)| Step::Hear { tab, part }),
    ];
    let trouble = (any::<bool>(), 1..12_usize, 0..FAULTS.len());
    (step, prop::option::weighted(0.4, trouble))
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None, ..ProptestConfig::with_cases(400)
    })]
    #[test]
    fn whatever_happens_nothing_is_lost_or_doubled(steps in prop::collection::vec(step(), 1..40)) {
        let world = World::default();
        let mut tabs = [world.store(), world.store()];
        let mut stored: Vec<Entry> = Vec::new();
        let mut all: Vec<Entry> = Vec::new();
        let mut waiting: [BTreeMap<Part, Vec<Entry>>; 2] = Default::default();
        for (number, (step, trouble)) in steps.into_iter().enumerate() {
            world.fine();
            if let Some((at_archive, call, fault)) = trouble {
                let troubles = if at_archive {
                    &world.archive.troubles
                } else {
                    &world.shelf.troubles
                };
                troubles.at_call(call, FAULTS[fault]);
            }
            match step {
                Step::Put { tab, part } => {
                    let part = part_of_name(PARTS[part]);
                    let new = entry(&part, ["a", "b"][tab], 1 + number as u32);
                    all.push(new.clone());
                    let list = waiting[tab].entry(part.clone()).or_default();
                    list.push(new.clone());
                    if put(&tabs[tab], &part, &[new]).is_ok() {
                        stored.append(list);
                    }
                }
                Step::Open { tab } => {
                    if let Ok(opened) = world.try_open() {
                        tabs[tab] = opened.store;
                        waiting[tab].clear();
                    }
                }
                Step::Close { tab, before } => {
                    let _ = close(&tabs[tab], BEFORE[before]);
                }
                Step::Hear { tab, part } => {
                    let part = part_of_name(PARTS[part]);
                    let (theirs, _) = block_on(tabs[tab].load(&part));
                    if tabs[tab].has_more(&part, &theirs) && put(&tabs[tab], &part, &[]).is_ok() {
                        stored.extend(waiting[tab].remove(&part).unwrap_or_default());
                    }
                }
            }
            world.fine();
            let found = world.everything();
            // A tab knows of every part of which something that it holds is not stored.
            for (store, parts) in tabs.iter().zip(&waiting) {
                let told = store.unsaved();
                for (part, entries) in parts {
                    prop_assert!(
                        holds(&found, entries)
                            || told.iter().any(|one| one.document == Some(id_of(part))),
                        "after step {}", number + 1
                    );
                }
            }
            prop_assert!(holds(&found, &stored), "after step {}", number + 1);
            prop_assert!(found.entries().all(|entry| all.contains(entry)));
            prop_assert_eq!(found.unread().count() + found.members().count(), 0);
        }
        // What was not stored is saved by itself.
        for (tab, parts) in tabs.iter().zip(waiting) {
            block_on(tab.save_unsaved());
            prop_assert_eq!(tab.unsaved(), []);
            stored.extend(parts.into_values().flatten());
        }
        prop_assert!(holds(&world.everything(), &stored));
    }
}
