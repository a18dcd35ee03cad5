//! What is stored on the device: nothing of it may be lost, whatever fails.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, VecDeque};
use std::future::{Future, poll_fn};
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;

use longtom::keep::checksum::crc32;
use longtom::keep::document::{Unreadable, Unwritable};
use longtom::keep::envelope::{self, Damage, LAST_TURN};
use longtom::keep::keys::{
    ONLY, Slot, aside_key, read_archive_aside, read_aside_key, read_slot_key, slot_key,
};
use longtom::keep::{
    Aside, Cabinet, Document, DocumentId, KeepProblem, Kind, LastQuestion, Loaded, MemoryShelf,
    Notice, Saved, Scheme, Settings, Shelf, ShelfProblem, TextSize, Why, drafts, parcel, words,
};
use longtom::measure::DecimalMark;
use longtom::nursery::Texts;
use pollster::block_on;
use proptest::prelude::*;
use rand_core::Rng;
use rand_pcg::Pcg64Mcg;
use serde_json::{Value, json};

const SEED: u128 = 0x0010_0917_0A11_0E55;

/// What goes wrong with a write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    /// Nothing.
    Fine,
    /// It fails and leaves what was there.
    Fails,
    /// It fails after writing a part.
    Tears,
    /// It writes a part and says that all is well.
    TearsInSilence,
    /// It writes everything and says that it failed.
    FailsAfterwards,
}

const FAULTS: [Fault; 4] = [
    Fault::Fails,
    Fault::Tears,
    Fault::TearsInSilence,
    Fault::FailsAfterwards,
];

/// A shelf on which things go wrong as ordered.
#[derive(Default)]
struct Double {
    memory: MemoryShelf,
    /// What happens to the next writes; fine when the list has run out.
    faults: RefCell<VecDeque<Fault>>,
    /// Bytes it may hold; unlimited if `None`.
    room: Cell<Option<usize>>,
    /// Keys that cannot be read.
    unreadable: RefCell<Vec<String>>,
    /// How many times each of the next calls waits before it does anything.
    waits: RefCell<VecDeque<u32>>,
    writes: Cell<usize>,
}

impl Double {
    fn new() -> Rc<Self> {
        Rc::default()
    }

    fn ahead(&self, faults: impl IntoIterator<Item = Fault>) {
        *self.faults.borrow_mut() = faults.into_iter().collect();
    }

    fn put(&self, key: &str, text: &str) {
        block_on(self.memory.write(key, text)).unwrap();
    }

    fn get(&self, key: &str) -> Option<String> {
        block_on(self.memory.read(key)).unwrap()
    }

    fn take(&self, key: &str) {
        block_on(self.memory.remove(key)).unwrap();
    }

    fn all(&self) -> BTreeMap<String, String> {
        block_on(self.memory.keys())
            .unwrap()
            .into_iter()
            .map(|key| (key.clone(), self.get(&key).unwrap()))
            .collect()
    }

    fn bytes(&self) -> usize {
        self.all().values().map(String::len).sum()
    }

    async fn wait(&self) {
        let mut left = self.waits.borrow_mut().pop_front().unwrap_or_default();
        poll_fn(|context| {
            if left == 0 {
                return Poll::Ready(());
            }
            left -= 1;
            context.waker().wake_by_ref();
            Poll::Pending
        })
        .await;
    }
}

impl Shelf for Double {
    async fn read(&self, key: &str) -> Result<Option<String>, ShelfProblem> {
        self.wait().await;
        if self.unreadable.borrow().iter().any(|closed| closed == key) {
            return Err(ShelfProblem::Refused);
        }
        self.memory.read(key).await
    }

    async fn write(&self, key: &str, text: &str) -> Result<(), ShelfProblem> {
        self.wait().await;
        self.writes.set(self.writes.get() + 1);
        let failed = || Err(ShelfProblem::Other("a test".to_owned()));
        let fault = self.faults.borrow_mut().pop_front();
        match fault.unwrap_or(Fault::Fine) {
            Fault::Fine => {}
            Fault::Fails => return failed(),
            Fault::Tears => {
                self.memory.write(key, &text[..text.len() / 2]).await?;
                return failed();
            }
            Fault::TearsInSilence => return self.memory.write(key, &text[..text.len() / 2]).await,
            Fault::FailsAfterwards => {
                self.memory.write(key, text).await?;
                return failed();
            }
        }
        let there = self.get(key).map_or(0, |old| old.len());
        if let Some(room) = self.room.get()
            && self.bytes() - there + text.len() > room
        {
            return Err(ShelfProblem::Full);
        }
        self.memory.write(key, text).await
    }

    async fn remove(&self, key: &str) -> Result<(), ShelfProblem> {
        self.wait().await;
        self.memory.remove(key).await
    }

    async fn keys(&self) -> Result<Vec<String>, ShelfProblem> {
        self.wait().await;
        self.memory.keys().await
    }
}

type TestCabinet = Cabinet<Rc<Double>>;

fn cabinet(shelf: &Rc<Double>) -> TestCabinet {
    Cabinet::new(Rc::clone(shelf))
}

fn settings_id() -> DocumentId {
    DocumentId::new(Kind::Settings, ONLY)
}

fn key(slot: Slot) -> String {
    slot_key(&settings_id(), slot)
}

/// Settings that tell which they are.
fn numbered(number: u32) -> Settings {
    let units = [("length", "mm"), ("volume", "L")];
    Settings {
        decimal: DecimalMark::Comma,
        scheme: Scheme::Dark,
        text_size: TextSize::Large,
        units: units
            .into_iter()
            .map(|(field, unit)| (field.to_owned(), unit.to_owned()))
            .collect(),
        extra: [("number".to_owned(), json!(number))].into_iter().collect(),
        ..Settings::default()
    }
}

fn load(cabinet: &TestCabinet) -> Loaded<Settings> {
    block_on(cabinet.load(ONLY))
}

fn reload(shelf: &Rc<Double>) -> Loaded<Settings> {
    load(&cabinet(shelf))
}

fn save(cabinet: &TestCabinet, settings: &Settings) -> Result<Saved<Settings>, KeepProblem> {
    block_on(cabinet.save(ONLY, settings))
}

/// A shelf with `numbered(1)` in one place and the newer `numbered(2)` in the other; and in which.
fn two_copies() -> (Rc<Double>, Slot) {
    let shelf = Double::new();
    let first = cabinet(&shelf);
    assert_eq!(save(&first, &numbered(1)), Ok(Saved::Kept));
    assert_eq!(save(&first, &numbered(2)), Ok(Saved::Kept));
    let newest = Slot::BOTH
        .into_iter()
        .find(|slot| shelf.get(&key(*slot)).unwrap().contains("\"number\":2"))
        .unwrap();
    (shelf, newest)
}

fn aside_texts(shelf: &Rc<Double>) -> Vec<String> {
    let all = shelf.all();
    let asides = all
        .into_iter()
        .filter(|(key, _)| read_aside_key(key).is_some());
    asides.map(|(_, text)| text).collect()
}

fn both<A: Future, B: Future>(first: A, second: B) -> (A::Output, B::Output) {
    let (mut first, mut second) = (pin!(first), pin!(second));
    let (mut done_first, mut done_second) = (None, None);
    block_on(poll_fn(|context| {
        if done_first.is_none()
            && let Poll::Ready(output) = first.as_mut().poll(context)
        {
            done_first = Some(output);
        }
        if done_second.is_none()
            && let Poll::Ready(output) = second.as_mut().poll(context)
        {
            done_second = Some(output);
        }
        match (done_first.take(), done_second.take()) {
            (Some(first), Some(second)) => Poll::Ready((first, second)),
            (first, second) => {
                done_first = first;
                done_second = second;
                Poll::Pending
            }
        }
    }))
}

// ---- the checksum and the envelope ----------------------------------------------------------

/// Source: R. N. Williams (1993), A Painless Guide to CRC Error Detection Algorithms, section 15
/// and the catalogues after it: the check value of CRC-32 (IEEE 802.3) is the checksum of the nine
/// digits 1 to 9.
#[test]
fn the_checksum_has_the_published_check_value() {
    assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
}

#[test]
fn an_envelope_is_the_json_that_its_documentation_describes() {
    let id = DocumentId::new(Kind::Question, "mi\"x");
    let text = envelope::seal(&id, 3, 7, "{\"pot\":8.5}");
    let (checked, _) = text.split_once(",\"check\":").unwrap();
    let read: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(
        read,
        json!({
            "longtom": "question", "name": "mi\"x", "schema": 3, "turn": 7, "body": {"pot": 8.5},
            "check": format!("{:08x}", crc32(checked.as_bytes())),
        })
    );
    let opened = envelope::open(&text, text.len()).unwrap();
    assert_eq!(opened.name, "mi\"x");
    assert_eq!(opened.body, json!({"pot": 8.5}));
    assert_eq!((opened.schema, opened.turn), (3, 7));
}

/// A text with a check that is right for it, whatever it says.
fn with_check(checked: &str) -> String {
    format!(
        "{checked},\"check\":\"{:08x}\"}}",
        crc32(checked.as_bytes())
    )
}

#[test]
fn hostile_texts_are_refused_as_envelopes() {
    let most = 1_000_000;
    let head = "{\"longtom\":\"settings\",\"name\":\"\",\"schema\":1,\"turn\":1,\"body\":";
    let sound = with_check(&format!("{head}{{}}"));
    assert!(envelope::open(&sound, most).is_ok());
    assert_eq!(
        envelope::open(&sound, sound.len() - 1),
        Err(Damage::TooLong)
    );

    let deep = format!("{head}{}{}", "[".repeat(200_000), "]".repeat(200_000));
    assert_eq!(
        envelope::open(&with_check(&deep), most),
        Err(Damage::NotReadable)
    );
    let late = head.replace("\"turn\":1", &format!("\"turn\":{}", LAST_TURN + 1));
    assert_eq!(
        envelope::open(&with_check(&format!("{late}{{}}")), most),
        Err(Damage::NotReadable)
    );
    for (text, damage) in [
        (String::new(), Damage::NoCheck),
        ("{}".to_owned(), Damage::NoCheck),
        (",\"check\":\"".to_owned(), Damage::NoCheck),
        (",\"check\":\"00000000\"}".to_owned(), Damage::NotReadable),
        (with_check("\u{FFFD}\u{1F331}"), Damage::NotReadable),
        (sound[..sound.len() - 1].to_owned(), Damage::NoCheck),
        (
            sound.replace("\"turn\":1", "\"turn\":2"),
            Damage::CheckDiffers,
        ),
        (
            sound.replace("\"schema\":1", "\"schema\":2"),
            Damage::CheckDiffers,
        ),
    ] {
        assert_eq!(envelope::open(&text, most), Err(damage), "{text}");
    }
}

proptest! {
    #[test]
    fn no_text_makes_opening_panic(text in ".*", checked in ".*") {
        let _ = envelope::open(&text, 1_000);
        let _ = envelope::open(&with_check(&checked), 1_000);
    }

    #[test]
    fn every_document_has_keys_of_its_own(
        name in "[a-z./ab]{0,6}", other in "[a-z./ab]{0,6}", number in 0..20_000_u32,
    ) {
        for kind in Kind::ALL {
            let id = DocumentId::new(kind, &name);
            for slot in Slot::BOTH {
                prop_assert_eq!(read_slot_key(&slot_key(&id, slot)), Some((id.clone(), slot)));
                let aside = read_aside_key(&aside_key(number, &id, slot)).unwrap();
                prop_assert_eq!(aside.number, number);
                prop_assert_eq!(aside.origin, Some((id.clone(), slot)));
                prop_assert_eq!(read_slot_key(&aside_key(number, &id, slot)), None);
                for other_kind in Kind::ALL {
                    let other = DocumentId::new(other_kind, &other);
                    prop_assert_eq!(
                        slot_key(&id, slot) == slot_key(&other, slot), id == other
                    );
                }
            }
        }
    }
}

// ---- saving and loading ---------------------------------------------------------------------

fn a_question() -> LastQuestion {
    let text = |path: &str, text: &str| (path.to_owned(), text.to_owned());
    LastQuestion {
        address: "pot.size=own&pots=12".to_owned(),
        question: vec![
            text("parts.0.material", "coir “fine” \u{1F331}"),
            text("pot.size", "own"),
            text("pots", "12"),
        ],
    }
}

#[test]
fn what_is_saved_is_loaded() {
    let shelf = Double::new();
    let first = cabinet(&shelf);
    let empty = load(&first);
    assert_eq!(empty.document, Settings::default());
    assert!(!empty.stored && !empty.read_only && empty.notices.is_empty());

    for number in 1..6 {
        assert_eq!(save(&first, &numbered(number)), Ok(Saved::Kept));
        let back = reload(&shelf);
        assert_eq!(back.document, numbered(number));
        assert!(back.stored && back.notices.is_empty());
    }
    assert_eq!(block_on(first.save("mix", &a_question())), Ok(Saved::Kept));
    let second = cabinet(&shelf);
    let mix: Loaded<LastQuestion> = block_on(second.load("mix"));
    assert_eq!(mix.document, a_question());
    let bed: Loaded<LastQuestion> = block_on(second.load("bed"));
    assert!(!bed.stored);
    assert_eq!(load(&second).document, numbered(5));
}

#[test]
fn the_copy_before_the_newest_is_always_there() {
    let (shelf, newest) = two_copies();
    shelf.take(&key(newest));
    let back = reload(&shelf);
    assert_eq!(back.document, numbered(1));
    assert!(back.stored);
}

#[test]
fn what_a_later_version_has_added_is_passed_on() {
    let shelf = Double::new();
    let body = json!({
        "scheme": "light", "sound": {"bell": [1, 2.5, null]}, "units": {"length": "in"},
    });
    let text = envelope::seal(&settings_id(), 1, 4, &body.to_string());
    shelf.put(&key(Slot::A), &text);
    let first = cabinet(&shelf);
    let mut settings = load(&first).document;
    assert_eq!(settings.scheme, Scheme::Light);
    settings.text_size = TextSize::Largest;
    assert_eq!(save(&first, &settings), Ok(Saved::Kept));

    let stored = envelope::open(&shelf.get(&key(Slot::B)).unwrap(), 1_000).unwrap();
    assert_eq!(stored.turn, 5);
    assert_eq!(
        stored.body,
        json!({
            "decimal": "ask", "scheme": "light", "text_size": "largest",
            "units": {"length": "in"}, "mark": "", "exported": "", "sound": {"bell": [1, 2.5, null]},
        })
    );
}

#[test]
fn what_is_passed_on_cannot_take_the_place_of_a_setting() {
    let shelf = Double::new();
    let mut settings = numbered(1);
    settings.extra.insert("scheme".to_owned(), json!("light"));
    assert_eq!(save(&cabinet(&shelf), &settings), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, numbered(1));
}

// ---- writes that fail -----------------------------------------------------------------------

#[test]
fn whichever_write_fails_the_old_or_the_new_is_there_whole() {
    const SAVES: u32 = 6;
    for fault in FAULTS {
        for failing in 1..=SAVES {
            let shelf = Double::new();
            let mut first = cabinet(&shelf);
            for number in 1..failing {
                assert_eq!(save(&first, &numbered(number)), Ok(Saved::Kept));
            }
            shelf.ahead([fault]);
            let failed = save(&first, &numbered(failing)).unwrap_err();
            match fault {
                Fault::TearsInSilence => assert_eq!(failed.why, Why::CameBackDifferent),
                _ => assert!(matches!(failed.why, Why::NotStored(_))),
            }
            assert!(
                failed
                    .to_string()
                    .contains("what was saved before is still there")
            );

            let back = reload(&shelf);
            let expected = match (fault, failing) {
                (Fault::FailsAfterwards, _) => numbered(failing),
                (_, 1) => Settings::default(),
                _ => numbered(failing - 1),
            };
            assert_eq!(back.document, expected, "{fault:?} at write {failing}");

            // The visit goes on, or a new one begins: either way saving works again.
            if failing % 2 == 0 {
                first = cabinet(&shelf);
                load(&first);
            }
            for number in failing + 1..=SAVES + 1 {
                assert_eq!(save(&first, &numbered(number)), Ok(Saved::Kept));
                assert_eq!(reload(&shelf).document, numbered(number));
            }
        }
    }
}

#[test]
fn a_place_torn_by_this_visit_is_written_again_without_setting_it_aside() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    load(&first);
    shelf.ahead([Fault::Tears, Fault::Tears]);
    assert!(save(&first, &numbered(3)).is_err());
    assert!(save(&first, &numbered(4)).is_err());
    assert!(load(&first).notices.is_empty());
    assert_eq!(save(&first, &numbered(5)), Ok(Saved::Kept));
    assert_eq!(aside_texts(&shelf), Vec::<String>::new());
    assert_eq!(reload(&shelf).document, numbered(5));
}

#[test]
fn only_what_this_visit_has_torn_is_written_over() {
    // After a write that has failed, or one that has torn and been made good, damage is damage.
    for fault in [Fault::Fails, Fault::Tears] {
        let (shelf, newest) = two_copies();
        let first = cabinet(&shelf);
        load(&first);
        shelf.ahead([fault]);
        assert!(save(&first, &numbered(3)).is_err());
        if fault == Fault::Tears {
            assert_eq!(save(&first, &numbered(4)), Ok(Saved::Kept));
            assert_eq!(save(&first, &numbered(5)), Ok(Saved::Kept));
        }
        shelf.put(&key(newest.other()), "damaged later");
        assert_eq!(save(&first, &numbered(6)), Ok(Saved::Kept));
        assert_eq!(aside_texts(&shelf), ["damaged later"]);
    }
}

#[derive(Clone, Debug)]
enum Step {
    Save(Fault),
    Reopen,
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        3 => Just(Step::Save(Fault::Fine)),
        3 => proptest::sample::select(FAULTS.to_vec()).prop_map(Step::Save),
        1 => Just(Step::Reopen),
    ]
}

proptest! {
    #[test]
    fn the_last_acknowledged_document_is_kept(steps in prop::collection::vec(step(), 1..40)) {
        let shelf = Double::new();
        let mut open = cabinet(&shelf);
        // What may be there: the last acknowledged, or one that was tried after it.
        let mut may_be = vec![Settings::default()];
        for (number, step) in (1..).zip(steps) {
            match step {
                Step::Save(fault) => {
                    shelf.ahead([fault]);
                    let saved = save(&open, &numbered(number));
                    if saved == Ok(Saved::Kept) {
                        may_be = vec![numbered(number)];
                    } else {
                        prop_assert!(saved.is_err());
                        may_be.push(numbered(number));
                    }
                    shelf.ahead([]);
                }
                Step::Reopen => {
                    open = cabinet(&shelf);
                    may_be = vec![load(&open).document];
                }
            }
            let back = reload(&shelf).document;
            prop_assert!(may_be.contains(&back));
        }
    }
}

// ---- damage ---------------------------------------------------------------------------------

#[test]
fn a_wrong_byte_anywhere_costs_at_most_the_newest_copy() {
    const POSITIONS: usize = 1_000;
    let mut random = Pcg64Mcg::new(SEED);
    for _ in 0..POSITIONS {
        let (shelf, newest) = two_copies();
        let slot = Slot::BOTH[random.next_u32() as usize % 2];
        let mut bytes = shelf.get(&key(slot)).unwrap().into_bytes();
        let position = random.next_u32() as usize % bytes.len();
        // Another printable ASCII character, so that it is still a text.
        let other = b' ' + (random.next_u32() % 95) as u8;
        bytes[position] = if other == bytes[position] {
            b'\t'
        } else {
            other
        };
        let damaged = String::from_utf8(bytes).unwrap();
        shelf.put(&key(slot), &damaged);

        let first = cabinet(&shelf);
        let back = load(&first);
        let expected = if slot == newest { 1 } else { 2 };
        assert_eq!(back.document, numbered(expected), "{damaged}");
        assert_eq!(aside_texts(&shelf), std::slice::from_ref(&damaged));
        let asides = block_on(first.asides()).unwrap();
        assert_eq!(asides.len(), 1);
        assert_eq!(
            back.notices,
            [Notice::SetAside {
                document: settings_id(),
                key: asides[0].key.clone(),
                others: true,
            }]
        );
        assert_eq!(
            block_on(first.aside_text(&asides[0].key)),
            Ok(damaged.clone())
        );
        // The next save takes the damaged place, and the copy aside stays.
        assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
        let after = reload(&shelf);
        assert_eq!(after.document, numbered(3));
        assert!(after.notices.is_empty());
        assert_eq!(aside_texts(&shelf), [damaged]);
    }
}

#[test]
fn two_damaged_copies_are_both_set_aside_and_the_usual_values_used() {
    let (shelf, _) = two_copies();
    let damaged = ["not JSON at all \u{1F331}", "{\"longtom\":"];
    for (slot, text) in Slot::BOTH.into_iter().zip(damaged) {
        shelf.put(&key(slot), text);
    }
    let first = cabinet(&shelf);
    let back = load(&first);
    assert_eq!(back.document, Settings::default());
    assert!(!back.stored);
    assert_eq!(back.notices.len(), 2);
    for notice in &back.notices {
        assert!(words::notice(notice).contains("usual values"));
    }
    for number in 1..4 {
        assert_eq!(save(&first, &numbered(number)), Ok(Saved::Kept));
        assert_eq!(reload(&shelf).document, numbered(number));
        assert_eq!(aside_texts(&shelf), damaged);
    }
}

#[test]
fn damage_is_set_aside_and_told_once() {
    let (shelf, newest) = two_copies();
    shelf.put(&key(newest), "torn");
    assert_eq!(reload(&shelf).notices.len(), 1);
    for _ in 0..3 {
        assert!(reload(&shelf).notices.is_empty());
    }
    assert_eq!(aside_texts(&shelf), ["torn"]);

    let first = cabinet(&shelf);
    let asides = block_on(first.asides()).unwrap();
    assert_eq!(asides[0].document, Some(settings_id()));
    assert_eq!((asides[0].bytes, asides[0].in_place), (4, false));
    assert_eq!(block_on(first.discard_aside(&asides[0].key)), Ok(()));
    // Discarded is discarded: it does not come back at the next start.
    assert!(reload(&shelf).notices.is_empty());
    assert_eq!(aside_texts(&shelf), Vec::<String>::new());
    assert_eq!(reload(&shelf).document, numbered(1));
}

#[test]
fn damage_after_loading_is_set_aside_before_it_is_written_over() {
    let (shelf, newest) = two_copies();
    let first = cabinet(&shelf);
    load(&first);
    shelf.put(&key(newest), "damaged while the page was open");
    assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
    assert_eq!(aside_texts(&shelf), ["damaged while the page was open"]);
    assert_eq!(reload(&shelf).document, numbered(3));
}

#[test]
fn each_text_set_aside_has_a_key_of_its_own() {
    let (shelf, newest) = two_copies();
    let texts: Vec<String> = (0..12).map(|number| format!("damage {number}")).collect();
    for text in &texts {
        shelf.put(&key(newest), text);
        reload(&shelf);
    }
    // In the order of age, with more than nine of them too.
    assert_eq!(aside_texts(&shelf), texts);
}

#[test]
fn a_copy_of_another_document_is_damage() {
    let (shelf, newest) = two_copies();
    let first = cabinet(&shelf);
    assert_eq!(block_on(first.save("mix", &a_question())), Ok(Saved::Kept));
    let mix = DocumentId::new(Kind::Question, "mix");
    let stray = shelf.get(&slot_key(&mix, Slot::A)).unwrap();
    shelf.put(&key(newest), &stray);
    assert_eq!(reload(&shelf).document, numbered(1));
    let bed = DocumentId::new(Kind::Question, "bed");
    shelf.put(&slot_key(&bed, Slot::A), &stray);
    let back: Loaded<LastQuestion> = block_on(cabinet(&shelf).load("bed"));
    assert!(!back.stored);
    assert_eq!(aside_texts(&shelf), [stray.clone(), stray]);

    let (shelf, newest) = two_copies();
    let nameless = DocumentId::new(Kind::Question, ONLY);
    let stray = envelope::seal(&nameless, 1, 9, "{}");
    shelf.put(&key(newest), &stray);
    assert_eq!(reload(&shelf).document, numbered(1));
    assert_eq!(aside_texts(&shelf), [stray]);
}

#[test]
fn removed_places_are_written_anew() {
    let (shelf, newest) = two_copies();
    let first = cabinet(&shelf);
    load(&first);
    shelf.take(&key(newest));
    assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
    shelf.take(&key(Slot::A));
    shelf.take(&key(Slot::B));
    assert_eq!(save(&first, &numbered(4)), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, numbered(4));
    // The count goes on, so that a copy that turns up again is known to be older.
    let stored: Vec<String> = shelf.all().into_values().collect();
    let [stored] = stored.as_slice() else {
        panic!("one copy")
    };
    assert_eq!(envelope::open(stored, 1_000).unwrap().turn, 4);
    shelf.take(&key(Slot::A));
    shelf.take(&key(Slot::B));
    assert!(!reload(&shelf).stored);
}

// ---- fields that cannot be understood -------------------------------------------------------

#[test]
fn one_bad_field_does_not_cost_the_others() {
    let sound = json!({
        "decimal": "comma", "scheme": "dark", "text_size": "large",
        "units": {"length": "mm", "volume": "L"}, "number": 1,
    });
    for bad in [
        json!(7),
        json!(null),
        json!([]),
        json!({"a": 1}),
        json!("purple"),
        json!(1e300),
    ] {
        for field in ["decimal", "scheme", "text_size", "units"] {
            let mut body = sound.clone();
            body[field] = bad.clone();
            // A map of units is judged entry by entry.
            let reset = match (field, &bad) {
                ("units", Value::Object(_)) => "units.a",
                _ => field,
            };
            let mut expected = numbered(1);
            match field {
                "decimal" => expected.decimal = DecimalMark::default(),
                "scheme" => expected.scheme = Scheme::default(),
                "text_size" => expected.text_size = TextSize::default(),
                _ => expected.units.clear(),
            }
            let shelf = Double::new();
            let text = envelope::seal(&settings_id(), 1, 1, &body.to_string());
            shelf.put(&key(Slot::B), &text);
            let first = cabinet(&shelf);
            let back = load(&first);
            assert_eq!(back.document, expected, "{text}");
            let told = Notice::FieldReset {
                document: settings_id(),
                field: reset.to_owned(),
            };
            assert!(back.notices.contains(&told), "{:?}", back.notices);
            // What could not be understood outlives both copies.
            assert_eq!(save(&first, &numbered(2)), Ok(Saved::Kept));
            assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
            assert_eq!(aside_texts(&shelf), [text]);
        }
    }
    let mut body = sound;
    body["units"]["volume"] = json!(8);
    let shelf = Double::new();
    shelf.put(
        &key(Slot::B),
        &envelope::seal(&settings_id(), 1, 1, &body.to_string()),
    );
    let back = reload(&shelf).document;
    assert_eq!(
        back.units,
        [("length".to_owned(), "mm".to_owned())]
            .into_iter()
            .collect()
    );
}

#[test]
fn a_body_without_fields_is_damage() {
    for body in ["[]", "null", "\"dark\"", "3"] {
        let (shelf, newest) = two_copies();
        let text = envelope::seal(&settings_id(), 1, 9, body);
        shelf.put(&key(newest), &text);
        assert_eq!(reload(&shelf).document, numbered(1));
        assert_eq!(aside_texts(&shelf), [text]);
    }
}

#[test]
fn one_bad_field_of_a_question_does_not_cost_the_others() {
    let id = DocumentId::new(Kind::Question, "mix");
    let whole = json!({
        "address": "pots=12",
        "question": {"pot.size": "own", "pots": "12"},
    });
    let loaded = |body: &Value| -> Loaded<LastQuestion> {
        let shelf = Double::new();
        let text = envelope::seal(&id, 1, 1, &body.to_string());
        shelf.put(&slot_key(&id, Slot::A), &text);
        block_on(cabinet(&shelf).load("mix"))
    };
    let sound = loaded(&whole);
    assert!(sound.notices.is_empty());
    for field in ["pot.size", "pots"] {
        for bad in [json!({"wrong": true}), json!(3), json!(null)] {
            let mut body = whole.clone();
            body["question"][field] = bad;
            let back = loaded(&body);
            let mut expected = sound.document.clone();
            expected.question.retain(|(path, _)| path != field);
            assert_eq!(back.document, expected);
            assert!(back.notices.contains(&Notice::FieldReset {
                document: id.clone(),
                field: field.to_owned(),
            }));
        }
    }
    for bad in [json!(3), json!([1]), json!("x")] {
        let mut body = whole.clone();
        body["question"] = bad.clone();
        let back = loaded(&body);
        assert_eq!(back.document.address, "pots=12");
        assert!(back.document.question.is_empty());
        assert!(!back.notices.is_empty());
        let mut body = whole.clone();
        body["address"] = json!({"a": bad});
        let back = loaded(&body).document;
        assert_eq!(back.address, "");
        assert_eq!(back.question, sound.document.question);
    }
}

// ---- older and newer versions ---------------------------------------------------------------

/// Settings as a later version might have them: what was `decimal` is now `mark`.
#[derive(Clone, Debug, Default, PartialEq)]
struct LaterSettings {
    mark: String,
}

impl Document for LaterSettings {
    const KIND: Kind = Kind::Settings;
    const SCHEMA: u32 = 2;
    const MOST_BYTES: usize = 400;

    fn migrate(schema: u32, body: Value) -> Result<Value, Unreadable> {
        match (schema, &body["decimal"]) {
            (1, Value::String(decimal)) => Ok(json!({"mark": decimal})),
            _ => Err(Unreadable),
        }
    }

    fn repair(body: Value, reset: &mut Vec<String>) -> Result<Self, Unreadable> {
        let mark = body["mark"].as_str().unwrap_or_else(|| {
            reset.push("mark".to_owned());
            ""
        });
        Ok(LaterSettings {
            mark: mark.to_owned(),
        })
    }

    fn body(&self) -> Result<String, Unwritable> {
        match self.mark.as_str() {
            "unwritable" => Err(Unwritable),
            "deep" => Ok(format!("{}{}", "[".repeat(130), "]".repeat(130))),
            mark => Ok(json!({"mark": mark}).to_string()),
        }
    }
}

fn later(mark: &str) -> LaterSettings {
    LaterSettings {
        mark: mark.to_owned(),
    }
}

#[test]
fn an_older_document_is_migrated_and_a_strange_one_set_aside() {
    let (shelf, newest) = two_copies();
    let back: Loaded<LaterSettings> = block_on(cabinet(&shelf).load(ONLY));
    assert_eq!(back.document, later("comma"));
    assert!(back.notices.is_empty());

    let strange = envelope::seal(&settings_id(), 0, 9, "{\"decimal\":\"point\"}");
    shelf.put(&key(newest), &strange);
    let first = cabinet(&shelf);
    let back: Loaded<LaterSettings> = block_on(first.load(ONLY));
    assert_eq!(back.document, later("comma"));
    assert_eq!(aside_texts(&shelf), [strange]);
    assert_eq!(block_on(first.save(ONLY, &later("point"))), Ok(Saved::Kept));
    let back: Loaded<LaterSettings> = block_on(cabinet(&shelf).load(ONLY));
    assert_eq!(back.document, later("point"));
}

#[test]
fn a_newer_document_is_left_alone() {
    let (shelf, _) = two_copies();
    let later_visit = cabinet(&shelf);
    let _: Loaded<LaterSettings> = block_on(later_visit.load(ONLY));
    assert_eq!(
        block_on(later_visit.save(ONLY, &later("point"))),
        Ok(Saved::Kept)
    );
    let before = shelf.all();

    let first = cabinet(&shelf);
    let back = load(&first);
    assert!(back.read_only);
    assert_eq!(back.document, numbered(2));
    assert_eq!(
        back.notices,
        [Notice::NewerVersion {
            document: settings_id()
        }]
    );
    let refused = save(&first, &numbered(3)).unwrap_err();
    assert_eq!(refused.why, Why::NewerVersion);
    assert!(refused.to_string().contains("newer Longtom"));
    // A cabinet that has not loaded it refuses too.
    assert_eq!(
        save(&cabinet(&shelf), &numbered(3)).unwrap_err().why,
        Why::NewerVersion
    );
    assert_eq!(shelf.all(), before);
    assert_eq!(shelf.writes.get(), 3);

    // It is offered for download, but is not ours to discard.
    let asides = block_on(first.asides()).unwrap();
    assert_eq!(asides.len(), 1);
    assert!(asides[0].in_place);
    assert_eq!(asides[0].document, Some(settings_id()));
    let text = block_on(first.aside_text(&asides[0].key)).unwrap();
    assert!(text.contains("\"mark\":\"point\""));
    assert_eq!(
        block_on(first.discard_aside(&asides[0].key))
            .unwrap_err()
            .why,
        Why::NotAside
    );
    assert_eq!(shelf.all(), before);

    // Nothing else of this origin is read out either.
    shelf.put("another page's", "private");
    assert_eq!(
        block_on(first.aside_text("another page's"))
            .unwrap_err()
            .why,
        Why::NotAside
    );

    // The newer version goes on with it.
    let back: Loaded<LaterSettings> = block_on(cabinet(&shelf).load(ONLY));
    assert_eq!(back.document, later("point"));
}

#[test]
fn a_newer_version_that_saves_meanwhile_is_noticed() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    assert!(!load(&first).read_only);
    let other = cabinet(&shelf);
    let _: Loaded<LaterSettings> = block_on(other.load(ONLY));
    assert_eq!(block_on(other.save(ONLY, &later("point"))), Ok(Saved::Kept));
    let before = shelf.all();
    assert_eq!(
        save(&first, &numbered(3)).unwrap_err().why,
        Why::NewerVersion
    );
    assert!(block_on(first.asides()).unwrap()[0].in_place);
    assert!(load(&first).read_only);
    assert_eq!(shelf.all(), before);
}

#[test]
fn what_is_read_only_stays_so_for_this_visit() {
    let (shelf, newest) = two_copies();
    let text = envelope::seal(&settings_id(), 2, 9, "{\"mark\":\"point\"}");
    shelf.put(&key(newest.other()), &text);
    let first = cabinet(&shelf);
    assert!(load(&first).read_only);
    // A newer version in another tab is just writing there.
    shelf.put(&key(newest.other()), "torn");
    assert_eq!(
        save(&first, &numbered(3)).unwrap_err().why,
        Why::NewerVersion
    );
    assert_eq!(shelf.get(&key(newest.other())).as_deref(), Some("torn"));
}

#[test]
fn a_newer_document_that_is_not_the_newest_copy_is_set_aside_first() {
    let (shelf, newest) = two_copies();
    let old_place = newest.other();
    let text = envelope::seal(&settings_id(), 2, 0, "{\"mark\":\"point\"}");
    shelf.put(&key(old_place), &text);
    let first = cabinet(&shelf);
    let back = load(&first);
    assert!(!back.read_only);
    assert_eq!(back.document, numbered(2));
    assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
    assert_eq!(aside_texts(&shelf), [text]);
}

#[test]
fn what_could_not_be_read_again_is_not_written() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    let _: Loaded<LaterSettings> = block_on(first.load(ONLY));
    let before = shelf.all();
    let why = |mark: &str| block_on(first.save(ONLY, &later(mark))).unwrap_err().why;
    assert!(matches!(
        why(&"long ".repeat(80)),
        Why::TooLong {
            bytes: 401..,
            most: 400
        }
    ));
    assert_eq!(why("deep"), Why::NotWritable);
    assert_eq!(why("unwritable"), Why::NotWritable);
    assert_eq!(shelf.all(), before);
    assert_eq!(shelf.writes.get(), 2);
    assert_eq!(block_on(first.save(ONLY, &later("point"))), Ok(Saved::Kept));
}

#[test]
fn the_last_turn_is_not_passed() {
    let shelf = Double::new();
    shelf.put(
        &key(Slot::A),
        &envelope::seal(&settings_id(), 1, LAST_TURN, "{}"),
    );
    let first = cabinet(&shelf);
    load(&first);
    assert_eq!(
        save(&first, &numbered(1)).unwrap_err().why,
        Why::NotWritable
    );
}

// ---- no room, no access ---------------------------------------------------------------------

#[test]
fn a_full_shelf_keeps_what_it_has_and_takes_more_once_there_is_room() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    load(&first);
    shelf.room.set(Some(shelf.bytes()));
    let mut long = numbered(3);
    long.units.insert("mass".to_owned(), "kg".to_owned());
    let failed = save(&first, &long).unwrap_err();
    assert_eq!(failed.why, Why::NotStored(ShelfProblem::Full));
    assert!(failed.to_string().contains("discard"));
    assert_eq!(reload(&shelf).document, numbered(2));
    shelf.room.set(None);
    assert_eq!(save(&first, &long), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, long);
}

#[test]
fn without_room_to_set_damage_aside_nothing_is_written_over_it() {
    let (shelf, newest) = two_copies();
    let mut damaged = shelf.get(&key(newest)).unwrap();
    damaged.pop();
    shelf.put(&key(newest), &damaged);
    shelf.room.set(Some(shelf.bytes() + 10));
    let before = shelf.all();

    let first = cabinet(&shelf);
    let back = load(&first);
    assert_eq!(back.document, numbered(1));
    assert_eq!(
        back.notices,
        [Notice::NotSetAside {
            document: settings_id(),
            problem: ShelfProblem::Full
        }]
    );
    let refused = save(&first, &numbered(3)).unwrap_err();
    assert_eq!(refused.why, Why::NoRoomToSetAside(ShelfProblem::Full));
    assert_eq!(shelf.all(), before);

    shelf.room.set(None);
    assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
    assert_eq!(aside_texts(&shelf), [damaged]);
}

#[test]
fn damage_does_not_keep_the_empty_place_from_being_used() {
    for damaged in Slot::BOTH {
        let shelf = Double::new();
        let text = "damaged ".repeat(100);
        shelf.put(&key(damaged), &text);
        // Enough for a document, not for the damaged text once more.
        shelf.room.set(Some(2 * text.len() - 1));
        let first = cabinet(&shelf);
        assert!(matches!(
            load(&first).notices[..],
            [Notice::NotSetAside { .. }]
        ));
        assert_eq!(save(&first, &numbered(1)), Ok(Saved::Kept));
        assert_eq!(shelf.get(&key(damaged)), Some(text));
        assert_eq!(reload(&shelf).document, numbered(1));
    }
}

#[test]
fn a_copy_aside_that_tears_does_not_count() {
    for fault in [Fault::Tears, Fault::TearsInSilence] {
        let (shelf, newest) = two_copies();
        shelf.put(&key(newest), "damaged");
        let before = shelf.all();
        let first = cabinet(&shelf);
        shelf.ahead([fault, fault]);
        assert!(matches!(
            load(&first).notices[..],
            [Notice::NotSetAside { .. }]
        ));
        let refused = save(&first, &numbered(3)).unwrap_err();
        assert!(matches!(refused.why, Why::NoRoomToSetAside(_)));
        assert_eq!(shelf.all(), before);
        assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));
        assert_eq!(aside_texts(&shelf), ["damaged"]);
    }
}

#[test]
fn what_could_not_be_read_is_not_written_over() {
    for closed in [
        vec![key(Slot::A)],
        vec![key(Slot::B)],
        vec![key(Slot::A), key(Slot::B)],
    ] {
        let (shelf, _) = two_copies();
        let before = shelf.all();
        *shelf.unreadable.borrow_mut() = closed;
        let first = cabinet(&shelf);
        let back = load(&first);
        let told = Notice::NotRead {
            document: settings_id(),
            problem: ShelfProblem::Refused,
        };
        assert!(back.notices.contains(&told));
        assert_eq!(
            save(&first, &numbered(3)).unwrap_err().why,
            Why::NotRead(ShelfProblem::Refused)
        );
        assert_eq!(shelf.all(), before);
        // Once it can be read, what is stored comes before what this visit would have saved.
        shelf.unreadable.borrow_mut().clear();
        if let Saved::ChangedElsewhere(stored) = save(&first, &numbered(3)).unwrap() {
            assert_eq!(stored, numbered(2));
            assert_eq!(shelf.all(), before);
        } else {
            // The newest copy could be read all along.
            assert_eq!(back.document, numbered(2));
        }
    }
}

// ---- two at once ----------------------------------------------------------------------------

#[test]
fn two_tabs_do_not_write_over_each_other() {
    let (shelf, _) = two_copies();
    let (first, second) = (cabinet(&shelf), cabinet(&shelf));
    load(&first);
    let mut mine = load(&second).document;
    assert_eq!(save(&first, &numbered(3)), Ok(Saved::Kept));

    mine.scheme = Scheme::Light;
    let before = shelf.all();
    assert_eq!(
        save(&second, &mine),
        Ok(Saved::ChangedElsewhere(numbered(3)))
    );
    assert_eq!(shelf.all(), before);
    // Take the other tab's, make the change again, save again.
    let mut taken = numbered(3);
    taken.scheme = Scheme::Light;
    assert_eq!(save(&second, &taken), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, taken);
    // Two saves of the other tab, which have changed both places, are noticed as well.
    assert_eq!(save(&second, &numbered(5)), Ok(Saved::Kept));
    assert_eq!(
        save(&first, &numbered(6)),
        Ok(Saved::ChangedElsewhere(numbered(5)))
    );
}

#[test]
fn both_tabs_changes_of_the_settings_are_kept() {
    let base = numbered(1);
    let unit = |settings: &mut Settings, field: &str, unit: Option<&str>| match unit {
        Some(unit) => settings.units.insert(field.to_owned(), unit.to_owned()),
        None => settings.units.remove(field),
    };
    let mut mine = base.clone();
    mine.scheme = Scheme::Light;
    unit(&mut mine, "length", Some("in"));
    unit(&mut mine, "volume", None);
    let mut theirs = numbered(2);
    theirs.scheme = Scheme::Auto;
    theirs.text_size = TextSize::Largest;
    theirs.decimal = DecimalMark::Point;
    unit(&mut theirs, "mass", Some("lb"));

    let mut expected = theirs.clone();
    expected.scheme = Scheme::Light;
    unit(&mut expected, "length", Some("in"));
    unit(&mut expected, "volume", None);
    assert_eq!(Settings::merged(&base, &mine, &theirs), expected);
    assert_eq!(Settings::merged(&base, &base, &theirs), theirs);
    assert_eq!(Settings::merged(&base, &mine, &base), mine);
    assert_eq!(Settings::merged(&theirs, &expected, &theirs), expected);

    // Taken away by the other tab, and not touched here.
    unit(&mut theirs, "length", None);
    assert_eq!(Settings::merged(&base, &base, &theirs), theirs);
}

#[test]
fn a_save_that_waits_does_not_undo_what_another_tab_has_saved() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    assert_eq!(load(&first).document, numbered(2));
    let other = cabinet(&shelf);
    load(&other);
    assert_eq!(save(&other, &numbered(3)), Ok(Saved::Kept));
    let elsewhere = Ok(Saved::ChangedElsewhere(numbered(3)));

    // Both were made from what was there before the other tab saved.
    let one = first.save(ONLY, &numbered(4));
    let two = first.save(ONLY, &numbered(5));
    assert_eq!(block_on(one), elsewhere);
    assert_eq!(block_on(two), elsewhere);
    assert_eq!(save(&first, &numbered(6)), Ok(Saved::Kept));

    // The same when the other tab's copy comes in by loading, which a save is waiting behind.
    load(&other);
    assert_eq!(save(&other, &numbered(7)), Ok(Saved::Kept));
    *shelf.waits.borrow_mut() = [1].into();
    let mut loading = Box::pin(first.load::<Settings>(ONLY));
    block_on(poll_fn(|context| {
        assert!(loading.as_mut().poll(context).is_pending());
        Poll::Ready(())
    }));
    let waiting = first.save(ONLY, &numbered(8));
    let (loaded, saved) = both(loading, waiting);
    assert_eq!(loaded.document, numbered(7));
    assert_eq!(saved, Ok(Saved::ChangedElsewhere(numbered(7))));
    assert_eq!(reload(&shelf).document, numbered(7));
    assert_eq!(save(&first, &numbered(9)), Ok(Saved::Kept));
}

#[test]
fn a_tab_that_starts_afresh_after_clearing_is_noticed() {
    let (shelf, _) = two_copies();
    let first = cabinet(&shelf);
    load(&first);
    shelf.take(&key(Slot::A));
    shelf.take(&key(Slot::B));
    assert_eq!(save(&cabinet(&shelf), &numbered(7)), Ok(Saved::Kept));
    assert_eq!(
        save(&first, &numbered(3)),
        Ok(Saved::ChangedElsewhere(numbered(7)))
    );
}

#[test]
fn a_cabinet_that_has_not_loaded_does_not_write_over_what_is_stored() {
    let (shelf, _) = two_copies();
    let before = shelf.all();
    assert_eq!(
        save(&cabinet(&shelf), &Settings::default()),
        Ok(Saved::ChangedElsewhere(numbered(2)))
    );
    assert_eq!(shelf.all(), before);
}

#[test]
fn a_slow_save_does_not_finish_over_a_later_one() {
    for slow in 0..6 {
        let (shelf, _) = two_copies();
        let first = cabinet(&shelf);
        load(&first);
        // One of the calls of the first save takes long; all the others are quick.
        *shelf.waits.borrow_mut() = (0..6)
            .map(|call| if call == slow { 50 } else { 0 })
            .collect();
        let older = first.save(ONLY, &numbered(3));
        let newer = first.save(ONLY, &numbered(4));
        // Even if the later one is run first.
        let (newer, older) = both(newer, older);
        assert_eq!((older, newer), (Ok(Saved::Kept), Ok(Saved::Kept)));
        assert_eq!(reload(&shelf).document, numbered(4), "call {slow} is slow");
        // And the earlier one is the copy before.
        let newest = Slot::BOTH
            .into_iter()
            .find(|slot| shelf.get(&key(*slot)).unwrap().contains("\"number\":4"))
            .unwrap();
        shelf.take(&key(newest));
        assert_eq!(reload(&shelf).document, numbered(3));
    }
}

#[test]
fn a_save_given_up_does_not_hold_up_the_others() {
    let shelf = Double::new();
    let first = cabinet(&shelf);
    let given_up = first.save(ONLY, &numbered(1));
    let next = first.save(ONLY, &numbered(2));
    drop(given_up);
    assert_eq!(block_on(next), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, numbered(2));

    // Nor one that is given up half-way, with another already waiting behind it.
    *shelf.waits.borrow_mut() = [1_000].into();
    let mut half_way = Box::pin(first.save(ONLY, &numbered(3)));
    let mut next = Box::pin(first.save(ONLY, &numbered(4)));
    block_on(poll_fn(|context| {
        assert!(half_way.as_mut().poll(context).is_pending());
        assert!(next.as_mut().poll(context).is_pending());
        Poll::Ready(())
    }));
    drop(half_way);
    assert_eq!(block_on(next), Ok(Saved::Kept));
    assert_eq!(reload(&shelf).document, numbered(4));
}

#[test]
fn giving_up_a_save_that_waits_lets_nobody_past_the_one_at_work() {
    let shelf = Double::new();
    let first = cabinet(&shelf);
    *shelf.waits.borrow_mut() = [20].into();
    let mut at_work = Box::pin(first.save(ONLY, &numbered(1)));
    let given_up = first.save(ONLY, &numbered(2));
    let next = first.save(ONLY, &numbered(3));
    block_on(poll_fn(|context| {
        assert!(at_work.as_mut().poll(context).is_pending());
        Poll::Ready(())
    }));
    drop(given_up);
    let (next, at_work) = both(next, at_work);
    assert_eq!((at_work, next), (Ok(Saved::Kept), Ok(Saved::Kept)));
    assert_eq!(reload(&shelf).document, numbered(3));
    assert_eq!(shelf.all().len(), 2);
}

#[test]
fn one_slow_document_does_not_hold_up_another() {
    let shelf = Double::new();
    let first = cabinet(&shelf);
    *shelf.waits.borrow_mut() = [1_000].into();
    let mut slow = Box::pin(first.save(ONLY, &numbered(1)));
    block_on(poll_fn(|context| {
        assert!(slow.as_mut().poll(context).is_pending());
        Poll::Ready(())
    }));
    assert_eq!(block_on(first.save("mix", &a_question())), Ok(Saved::Kept));
    assert_eq!(block_on(slow), Ok(Saved::Kept));
}

// ---- everything stored ----------------------------------------------------------------------

#[test]
fn a_parcel_holds_everything_stored_just_as_it_is() {
    let (shelf, newest) = two_copies();
    shelf.put(&key(newest), "damaged \"so\" \u{1F331}\n");
    shelf.put("longtom.a-kind-of-later.a", "{}");
    shelf.put("another page's", "private");
    reload(&shelf);
    *shelf.unreadable.borrow_mut() = vec!["longtom.a-kind-of-later.a".to_owned()];

    let closed = json!({"2031-03": "a text", "2031-02": {"packed": true, "bytes": "q1Y="}});
    let text = block_on(parcel::pack(&shelf, Ok(closed.to_string()), "2031-04-02")).unwrap();
    let read: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(
        (&read["longtom"], &read["schema"], &read["packed"]),
        (&json!("parcel"), &json!(1), &json!("2031-04-02"))
    );
    let mut expected = shelf.all();
    expected.remove("another page's");
    expected.remove("longtom.a-kind-of-later.a");
    assert_eq!(expected.len(), 3);
    assert_eq!(read["stored"], json!(expected));
    assert_eq!(read["closed"], closed);
    let not_read = read["not_read"].as_object().unwrap();
    assert_eq!(not_read.len(), 1);
    assert!(not_read["longtom.a-kind-of-later.a"].is_string());

    // An archive that cannot be reached keeps nothing else out.
    let refused = KeepProblem {
        document: None,
        why: Why::NotRead(ShelfProblem::Refused),
    };
    let text = block_on(parcel::pack(&shelf, Err(refused), "2031-04-02")).unwrap();
    let read: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(read["stored"], json!(expected));
    assert_eq!(read["closed"], json!({}));
    assert!(read["not_read"]["closed"].is_string());
}

// ---- drafts ---------------------------------------------------------------------------------

/// Two tabs fill in forms, save or throw away, are opened anew or closed, in any order: each finds
/// again what it typed last, and nothing that was saved comes back.
#[test]
fn no_tab_loses_what_it_has_typed_by_another() {
    let forms = ["new house/", "new bay/", "k3fq.1.a2b4/"];
    let tabs = ["17", "4"];
    let typed = |text: &str| Texts::of([("name", text)]);
    let mut draws = Pcg64Mcg::new(29);
    let mut stored = Vec::new();
    let mut own: [[Option<Texts>; 3]; 2] = Default::default();
    for step in 0..5_000 {
        let (tab, form) = (draws.next_u32() as usize % 2, draws.next_u32() as usize % 3);
        let key = drafts::key(tabs[tab], forms[form]);
        let draft = (!draws.next_u32().is_multiple_of(3)).then(|| typed(&step.to_string()));
        stored = drafts::with(&stored, &key, "", draft.as_ref());
        own[tab][form] = draft;
        for (tab, own) in tabs.iter().zip(&own) {
            for (form, own) in forms.iter().zip(own) {
                let found = drafts::find(&stored, tab, form);
                if let Some(own) = own {
                    assert_eq!(found, Some(drafts::key(tab, form).as_str()));
                    assert_eq!(&drafts::texts(&stored, found.unwrap()), own);
                }
            }
        }
        // Through what is stored and back.
        let last = LastQuestion {
            address: String::new(),
            question: stored,
        };
        let body = serde_json::from_str(&last.body().unwrap()).unwrap();
        stored = LastQuestion::repair(body, &mut Vec::new())
            .unwrap()
            .question;
        assert_eq!(stored, last.question);
    }
}

#[test]
fn what_a_tab_has_left_is_taken_up_by_the_next() {
    let form = "new house/";
    let left = drafts::with(
        &Vec::new(),
        &drafts::key("1", form),
        "",
        Some(&Texts::of([("name", "Left")])),
    );
    let found = drafts::find(&left, "2", form).unwrap();
    assert_eq!(drafts::texts(&left, found).get("name"), "Left");
    assert_eq!(drafts::find(&left, "2", "new bay/"), None);
    // Typed on, it is the second tab's alone; thrown away or saved, it is gone.
    let now = Texts::of([("name", "Left and typed on")]);
    let key = drafts::key("2", form);
    let on = drafts::with(&left, &key, found, Some(&now));
    assert_eq!(drafts::find(&on, "1", form), Some(key.as_str()));
    assert_eq!(drafts::texts(&on, &key), now);
    assert_eq!(drafts::with(&left, &key, found, None), Vec::new());
    // All its fields may have been emptied.
    let emptied = drafts::with(&left, &key, "", Some(&Texts::default()));
    let found = drafts::find(&emptied, "2", form).unwrap();
    assert_eq!(drafts::texts(&emptied, found), Texts::default());
    // Earlier versions did not name the tab.
    let old = vec![
        ("new house/".to_owned(), "begun".to_owned()),
        ("new house/name".to_owned(), "Old".to_owned()),
    ];
    let found = drafts::find(&old, "2", form).unwrap();
    assert_eq!(drafts::texts(&old, found).get("name"), "Old");
    assert_eq!(drafts::with(&old, &key, found, None), Vec::new());
}

// ---- words ----------------------------------------------------------------------------------

#[test]
fn every_sentence_is_one() {
    let shelves = [
        ShelfProblem::Refused,
        ShelfProblem::Full,
        ShelfProblem::Other("disk on fire".to_owned()),
    ];
    let documents = [settings_id(), DocumentId::new(Kind::Question, "Mix")];
    let mut sentences = Vec::new();
    for shelf in &shelves {
        sentences.push(words::shelf_problem(shelf));
        sentences.push(words::notice(&Notice::OnlyThisVisit {
            problem: shelf.clone(),
        }));
        for document in &documents {
            let document = document.clone();
            for notice in [
                Notice::SetAside {
                    document: document.clone(),
                    key: String::new(),
                    others: true,
                },
                Notice::SetAside {
                    document: document.clone(),
                    key: String::new(),
                    others: false,
                },
                Notice::NotSetAside {
                    document: document.clone(),
                    problem: shelf.clone(),
                },
                Notice::FieldReset {
                    document: document.clone(),
                    field: "units.pot_size".to_owned(),
                },
                Notice::NewerVersion {
                    document: document.clone(),
                },
                Notice::NotRead {
                    document: document.clone(),
                    problem: shelf.clone(),
                },
            ] {
                sentences.push(words::notice(&notice));
            }
            for why in [
                Why::NotRead(shelf.clone()),
                Why::NotStored(shelf.clone()),
                Why::CameBackDifferent,
                Why::NoRoomToSetAside(shelf.clone()),
                Why::NotSetAside(shelf.clone()),
                Why::NewerVersion,
                Why::TooLong {
                    bytes: 1_000_001,
                    most: 1_000_000,
                },
                Why::NotWritable,
                Why::NotAside,
                Why::NotRemoved(shelf.clone()),
                Why::NotOffered("no such thing".to_owned()),
            ] {
                for document in [Some(document.clone()), None] {
                    sentences.push(
                        KeepProblem {
                            document,
                            why: why.clone(),
                        }
                        .to_string(),
                    );
                }
            }
        }
    }
    for sentence in sentences {
        assert!(sentence.starts_with(char::is_uppercase), "{sentence}");
        assert!(
            sentence.ends_with('.') && !sentence.contains(".."),
            "{sentence}"
        );
        assert!(
            !sentence.contains("  ") && !sentence.contains('_'),
            "{sentence}"
        );
        let lower = sentence.to_lowercase();
        for word in [
            "error", "invalid", "success", "oops", "quota", "json", "null",
        ] {
            assert!(!lower.contains(word), "{sentence}");
        }
    }
    let not_aside = KeepProblem {
        document: Some(DocumentId::new(Kind::Record, "2025-03")),
        why: Why::NotSetAside(ShelfProblem::Full),
    };
    let sentence = not_aside.to_string();
    assert!(
        sentence.starts_with("The day book of March 2025 was found damaged and could not be set")
    );
    assert!(sentence.contains("nothing is saved over it. The room the browser gives"));
    let too_long = Why::TooLong {
        bytes: 1_000_001,
        most: 1_000_000,
    };
    let sentence = KeepProblem {
        document: Some(settings_id()),
        why: too_long,
    }
    .to_string();
    assert!(sentence.contains("1001 kB") && sentence.contains("1000 kB"));
}

#[test]
fn what_was_set_aside_is_told_by_what_it_is() {
    let told = |document: Option<DocumentId>| {
        let aside = Aside {
            key: "a key".to_owned(),
            document,
            bytes: 1,
            in_place: false,
        };
        aside.told()
    };
    let archived = read_archive_aside("aside.1932768000000.2025-03");
    assert_eq!(told(archived), "The day book of March 2025");
    let record = |name| Some(DocumentId::new(Kind::Record, name));
    assert_eq!(told(record("standing")), "The record of the nursery");
    assert_eq!(told(record("2025-13")), "The day book of 2025-13");
    assert_eq!(told(Some(settings_id())), "The settings");
    assert_eq!(told(None), "Something that a newer Longtom has stored");
    for name in [
        "2025-03",
        "aside.2025-03",
        "aside.now.2025-03",
        "aside.",
        "",
    ] {
        assert_eq!(read_archive_aside(name), None, "{name}");
    }
}

mod json {
    //! JSON as text, held to `serde_json`: whatever is written is read back the same.
    use longtom::keep::json::text_of;
    use proptest::prelude::*;
    use serde_json::{Value, json};

    fn any_json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            (-1_000_000i32..1_000_000).prop_map(|n| Value::from(f64::from(n) / 64.0)),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 64, 8, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..8).prop_map(Value::from),
                prop::collection::btree_map(any::<String>(), inner, 0..8)
                    .prop_map(|fields| Value::Object(fields.into_iter().collect())),
            ]
        })
    }

    proptest! {
        #[test]
        fn any_value_comes_back(value in any_json()) {
            prop_assert_eq!(serde_json::from_str::<Value>(&text_of(&value)).unwrap(), value);
        }
    }

    #[test]
    fn a_document_is_written_plainly() {
        let value = json!({"a": [1, -2, true, null], "b": {"c": "\u{1}\n\"\\é"}, "d": 2.5});
        assert_eq!(
            text_of(&value),
            r#"{"a":[1,-2,true,null],"b":{"c":"\u0001\n\"\\é"},"d":2.5e0}"#
        );
    }
}
