//! The record's journal: nothing is lost by merging, correcting, undoing, storing or being damaged.
#![cfg(feature = "terminal")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::sync::Arc;

use longtom::keep::journal::explain::{field_history, history};
use longtom::keep::journal::fold::WITHDRAWN;
use longtom::keep::journal::format::{DEEPEST, MOST_BYTES, open, part_text, text};
use longtom::keep::journal::months::{part_of, parts};
use longtom::keep::journal::plausible::{careless, damaged, endures, journal as plausible};
use longtom::keep::journal::{
    Act, Change, Clash, Entry, Journal, Part, Pen, Present, Put, Refused, fold, preview,
};
use longtom::nursery::search::search;
use longtom::nursery::{Finder, Id, Mark, Texts, Wanted};
use longtom::science::numerics::draws::Draws;
use proptest::prelude::*;
use serde_json::{Value, json};

/// A device with its journal and what it comes to.
#[derive(Clone)]
struct Device {
    mark: Mark,
    journal: Journal,
    present: Present,
}

impl Device {
    fn new(mark: &str) -> Self {
        Self {
            mark: Mark::read(mark).unwrap(),
            journal: Journal::default(),
            present: Present::default(),
        }
    }

    fn pen(&self) -> Pen<'_> {
        Pen {
            journal: &self.journal,
            present: &self.present,
            mark: self.mark,
            at: 29_635_660,
        }
    }

    fn write(&mut self, entry: Entry) -> Id {
        let id = entry.id;
        assert_eq!(self.journal.put(entry.clone()), Put::New);
        self.present.follow(&self.journal, &entry);
        assert_eq!(self.present, fold(&self.journal), "following is folding");
        id
    }

    fn add(&mut self, kind: &str, pairs: &[(&str, &str)]) -> Id {
        let entry = self.pen().add(kind, Texts::of(pairs.iter().copied()));
        self.write(entry)
    }

    fn change(&mut self, thing: Id, field: &str, text: &str) -> Id {
        let entry = self.pen().change(thing, &[(field, text)]).unwrap();
        self.write(entry)
    }

    fn withdraw(&mut self, thing: Id) -> Id {
        let entry = self.pen().withdraw(thing);
        self.write(entry)
    }

    fn restore(&mut self, thing: Id) -> Id {
        let entry = self.pen().restore(thing);
        self.write(entry)
    }

    fn undo(&mut self, entry: Id) -> Id {
        let entry = self.pen().undo(entry).unwrap();
        self.write(entry)
    }

    fn merge(&mut self, other: &Self) {
        self.journal.merge(&other.journal);
        self.present = fold(&self.journal);
    }

    fn text(&self, thing: Id, field: &str) -> &str {
        self.present.record.get(thing).unwrap().text(field)
    }

    fn gone(&self, thing: Id) -> bool {
        self.present.record.get(thing).unwrap().gone
    }

    fn clashes(&self, thing: Id) -> &[Clash] {
        self.present.clashes.get(&thing).map_or(&[], Vec::as_slice)
    }
}

/// Two devices that both have a house.
fn two_devices() -> (Device, Device, Id) {
    let mut tablet = Device::new("tablet");
    let house = tablet.add("house", &[("name", "North"), ("cover", "glass")]);
    let mut phone = Device::new("phone");
    phone.merge(&tablet);
    (tablet, phone, house)
}

fn sides(clash: &Clash) -> Vec<&str> {
    clash.sides.iter().map(|side| side.text.as_str()).collect()
}

mod folding {
    use super::*;

    #[test]
    fn a_change_replaces_what_its_device_knew() {
        let (mut tablet, _, house) = two_devices();
        tablet.change(house, "name", "Old North");
        tablet.change(house, "name", "Far North");
        tablet.change(house, "cover", "");
        assert_eq!(tablet.text(house, "name"), "Far North");
        assert_eq!(tablet.text(house, "cover"), "");
        assert!(tablet.present.clashes.is_empty());
        assert_eq!(tablet.pen().change(house, &[("name", "Far North")]), None);
    }

    #[test]
    fn changes_without_knowing_of_each_other_clash_and_both_are_kept() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.change(house, "name", "Left");
        phone.change(house, "name", "Right");
        phone.change(house, "cover", "film");
        tablet.merge(&phone);
        phone.merge(&tablet);
        assert_eq!(tablet.present, phone.present);
        let [clash] = tablet.clashes(house) else {
            panic!("one clash");
        };
        assert_eq!(clash.field, "name");
        assert_eq!(
            sides(clash)[0],
            tablet.text(house, "name"),
            "the one shown is first"
        );
        let mut both = sides(clash);
        both.sort_unstable();
        assert_eq!(both, ["Left", "Right"]);
        assert_eq!(tablet.text(house, "cover"), "film");
        // A change over both settles it, also to what is shown already.
        let shown = tablet.text(house, "name").to_owned();
        tablet.change(house, "name", &shown);
        assert!(tablet.clashes(house).is_empty());
        phone.merge(&tablet);
        assert!(phone.clashes(house).is_empty());
        assert_eq!(phone.text(house, "name"), shown);
    }

    #[test]
    fn the_same_change_on_two_devices_is_no_clash() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.change(house, "name", "South");
        phone.change(house, "name", "South");
        tablet.merge(&phone);
        assert!(tablet.clashes(house).is_empty());
        // And both are replaced by the next.
        tablet.change(house, "name", "West");
        assert!(tablet.clashes(house).is_empty());
        assert_eq!(tablet.text(house, "name"), "West");
    }

    #[test]
    fn a_thing_withdrawn_here_and_changed_there_stays_and_is_told() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.withdraw(house);
        assert!(tablet.gone(house));
        phone.change(house, "name", "Still here");
        tablet.merge(&phone);
        assert!(!tablet.gone(house));
        assert_eq!(tablet.clashes(house).len(), 1);
        assert_eq!(tablet.clashes(house)[0].field, "");
        assert_eq!(sides(&tablet.clashes(house)[0]), ["", WITHDRAWN]);
        let mut other = tablet.clone();
        tablet.withdraw(house);
        assert!(tablet.gone(house) && tablet.clashes(house).is_empty());
        other.restore(house);
        assert!(!other.gone(house) && other.clashes(house).is_empty());
        assert_eq!(other.text(house, "name"), "Still here");
    }

    #[test]
    fn withdrawn_twice_and_brought_back_once_clashes() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.withdraw(house);
        phone.withdraw(house);
        phone.restore(house);
        tablet.merge(&phone);
        assert!(!tablet.gone(house));
        assert_eq!(sides(&tablet.clashes(house)[0]), ["", WITHDRAWN]);
    }

    #[test]
    fn what_is_about_something_not_here_waits_for_it() {
        let (tablet, mut phone, house) = two_devices();
        let renamed = phone.change(house, "name", "South");
        let undone = phone.undo(renamed);
        let late = phone.withdraw(house);
        let mut third = Device::new("third");
        for id in [undone, renamed, late] {
            let entry = phone.journal.get(id).unwrap().clone();
            third.write(entry);
        }
        assert_eq!(
            third.present.unplaced,
            [renamed, undone, late].into_iter().collect()
        );
        assert!(third.present.record.is_empty());
        let stored = open(&text(&third.journal)).unwrap().journal;
        assert_eq!(stored, third.journal, "and is not lost by being stored");
        let house_entry = tablet.journal.get(house).unwrap().clone();
        third.write(house_entry);
        assert!(third.present.unplaced.is_empty());
        assert!(third.gone(house));
        assert_eq!(third.text(house, "name"), "North");
    }

    /// Entries that claim to replace what comes after them, in a ring.
    #[test]
    fn rings_of_claims_leave_something_to_show() {
        let (mut tablet, _, house) = two_devices();
        let entry = |number: u32, text: &str, over: Vec<Id>| {
            let change = Change {
                field: "name".into(),
                text: text.into(),
                over,
            };
            let fields = vec![change];
            Entry::new(
                Mark::read("x").unwrap(),
                number,
                0,
                Act::Change { of: house, fields },
            )
        };
        let mut first = entry(8, "first", Vec::new());
        let second = entry(9, "second", vec![first.id]);
        if let Act::Change { fields, .. } = &mut first.act {
            fields[0].over = vec![second.id];
        }
        tablet.write(first);
        tablet.write(second);
        assert_eq!(tablet.text(house, "name"), "second");
        assert!(tablet.clashes(house).is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]
        /// However entries come in, one by one, the present is the same as folded at once.
        #[test]
        fn the_order_does_not_matter(seed: u64, many in 20..90usize) {
            let whole = plausible(many, seed);
            let mut draws = Draws::from_seed(seed ^ 1);
            let mut entries: Vec<Entry> = whole.entries().cloned().collect();
            // Corrections and undoings of all sorts, from several devices.
            for number in 0..30u32 {
                let target = entries[draws.below(entries.len())].clone();
                let Some(of) = target.thing() else { continue };
                let some = |draws: &mut Draws| vec![entries[draws.below(entries.len())].id];
                let act = match draws.below(4) {
                    0 => Act::Undo { of, entry: target.id },
                    1 => Act::Withdraw { of, over: some(&mut draws) },
                    2 => Act::Restore { of, over: some(&mut draws) },
                    _ => Act::Change { of, fields: vec![Change {
                        field: ["name", "notes"][draws.below(2)].into(),
                        text: ["", "a", "b"][draws.below(3)].into(),
                        over: some(&mut draws),
                    }] },
                };
                let mark = Mark::from_random(draws.below(3) as u64);
                entries.push(Entry::new(mark, 1000 + number / 2, 0, act));
            }
            let mut journal = Journal::default();
            for entry in &entries {
                journal.put(entry.clone());
            }
            let at_once = fold(&journal);
            for place in (1..entries.len()).rev() {
                entries.swap(place, draws.below(place + 1));
            }
            let mut grown = Journal::default();
            let mut present = Present::default();
            for entry in entries {
                if grown.put(entry.clone()) == Put::New {
                    present.follow(&grown, &entry);
                }
            }
            prop_assert_eq!(&grown, &journal);
            prop_assert_eq!(present, at_once);
        }
    }
}

mod undoing {
    use super::*;

    /// Every act, undone, leaves everything as it was; undone again, as it had become.
    #[test]
    fn every_act_can_be_undone_and_done_again() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.change(house, "name", "Left");
        phone.change(house, "name", "Right");
        tablet.merge(&phone);
        type Deed = fn(&mut Device, Id) -> Id;
        let deeds: [(&str, Deed); 6] = [
            ("change", |device, house| {
                device.change(house, "cover", "film")
            }),
            ("settle a clash", |device, house| {
                device.change(house, "name", "Middle")
            }),
            ("withdraw", |device, house| device.withdraw(house)),
            ("restore", |device, house| device.restore(house)),
            ("undo", |device, house| {
                let changed = device.change(house, "cover", "net");
                device.undo(changed)
            }),
            ("empty", |device, house| device.change(house, "cover", "")),
        ];
        for (name, deed) in deeds {
            let mut device = tablet.clone();
            if name == "restore" {
                device.withdraw(house);
            }
            let before_undo = device.clone();
            let done = deed(&mut device, house);
            let after = (
                device.present.record.clone(),
                device.present.clashes.clone(),
            );
            let undone = device.undo(done);
            if name != "undo" {
                assert_eq!(device.present.record, before_undo.present.record, "{name}");
                assert_eq!(
                    device.present.clashes, before_undo.present.clashes,
                    "{name}"
                );
                assert_ne!(
                    after,
                    (before_undo.present.record, before_undo.present.clashes)
                );
            }
            device.undo(undone);
            let again = (
                device.present.record.clone(),
                device.present.clashes.clone(),
            );
            assert_eq!(again, after, "{name}");
        }
    }

    #[test]
    fn an_added_thing_undone_is_gone_but_kept() {
        let (mut tablet, _, house) = two_devices();
        let undone = tablet.undo(house);
        assert!(tablet.gone(house));
        assert_eq!(tablet.present.record.name_of(house), "North");
        tablet.undo(undone);
        assert!(!tablet.gone(house));
        tablet.undo(house);
        tablet.restore(house);
        assert!(!tablet.gone(house), "whoever brings it back means it");
    }

    /// Writes some acts of all sorts, each about something that the device has.
    fn live_on(device: &mut Device, draws: &mut Draws, acts: usize) {
        for _ in 0..acts {
            let things: Vec<Id> = device.journal.entries().filter_map(Entry::thing).collect();
            let entries: Vec<Id> = device.journal.entries().map(|entry| entry.id).collect();
            let thing = things[draws.below(things.len())];
            let pen = device.pen();
            let entry = match draws.below(6) {
                0 => Some(pen.add("house", Texts::of([("name", "New")]))),
                1 => Some(pen.withdraw(thing)),
                2 => Some(pen.restore(thing)),
                3 => pen.undo(entries[draws.below(entries.len())]),
                _ => {
                    let field = ["name", "notes"][draws.below(2)];
                    pen.change(thing, &[(field, ["", "a", "b", "c"][draws.below(4)])])
                }
            };
            if let Some(entry) = entry {
                device.write(entry);
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]
        /// All that a file has brought, undone, leaves everything as it was; undone again, as the
        /// file had made it.
        #[test]
        fn a_file_can_be_undone_as_a_whole(seed: u64, same_mark: bool) {
            let mut draws = Draws::from_seed(seed);
            let mut tablet = Device::new("tablet");
            tablet.journal = plausible(12, seed);
            tablet.present = fold(&tablet.journal);
            live_on(&mut tablet, &mut draws, 6);
            let mut phone = Device::new(if same_mark { "tablet" } else { "phone" });
            phone.merge(&tablet);
            live_on(&mut tablet, &mut draws, 6);
            live_on(&mut phone, &mut draws, 12);

            let before = tablet.present.clone();
            let file: Vec<Entry> = phone.journal.entries().cloned().collect();
            let new: Vec<&Entry> =
                file.iter().filter(|entry| tablet.journal.id_here(entry).is_none()).collect();
            let known = tablet.journal.len();
            tablet.merge(&phone);
            let brought: Vec<Id> =
                new.iter().filter_map(|entry| tablet.journal.id_here(entry)).collect();
            prop_assert_eq!(brought.len(), new.len());
            prop_assert_eq!(tablet.journal.len(), known + brought.len());
            let merged = tablet.present.clone();

            let put_all = |device: &mut Device, entries: Vec<Entry>| -> Vec<Id> {
                entries.into_iter().map(|entry| device.write(entry)).collect()
            };
            let undoing = tablet.pen().undo_all(&brought);
            prop_assert_eq!(undoing.len(), brought.len());
            let undone = put_all(&mut tablet, undoing);
            for thing in tablet.present.record.all() {
                match before.record.get(thing.id) {
                    Some(as_it_was) => prop_assert_eq!(thing, as_it_was),
                    None => prop_assert!(thing.gone),
                }
            }
            for (thing, clashes) in before.clashes.iter() {
                prop_assert_eq!(tablet.clashes(*thing), clashes.as_slice());
            }
            prop_assert_eq!(tablet.present.clashes.len(), before.clashes.len());

            prop_assert!(tablet.journal.undoings_of(&tablet.journal).is_empty());
            let mut found = tablet.journal.undoings_of(&phone.journal);
            found.sort_unstable();
            // What the tablet itself has undone of both is among them.
            prop_assert!(undone.iter().all(|id| found.binary_search(id).is_ok()));
            let again = tablet.pen().undo_all(&undone);
            put_all(&mut tablet, again);
            let rest = tablet.journal.undoings_of(&phone.journal);
            prop_assert!(undone.iter().all(|id| !rest.contains(id)));
            prop_assert_eq!(&tablet.present.record, &merged.record);
            prop_assert_eq!(&tablet.present.clashes, &merged.clashes);
        }
    }

    #[test]
    fn undoing_an_older_change_does_not_touch_the_later_one() {
        let (mut tablet, _, house) = two_devices();
        let first = tablet.change(house, "name", "First");
        let second = tablet.change(house, "name", "Second");
        tablet.undo(first);
        assert_eq!(tablet.text(house, "name"), "Second");
        tablet.undo(second);
        assert_eq!(tablet.text(house, "name"), "North");
        assert!(tablet.clashes(house).is_empty());
    }
}

mod explaining {
    use super::*;

    #[test]
    fn every_step_is_told() {
        let mut tablet = Device::new("tablet");
        let house = tablet.add("house", &[("name", "North")]);
        let night = tablet.add(
            "night",
            &[
                ("day", "2026-05-03"),
                ("place", &house.text()),
                ("low", "6 degC"),
            ],
        );
        let changed = tablet.change(night, "low", "16 degC");
        tablet.undo(changed);
        tablet.withdraw(night);
        tablet.restore(night);
        let steps = history(&tablet.journal, &tablet.present, night);
        let told: Vec<&str> = steps
            .iter()
            .flat_map(|step| step.sentences.iter().map(String::as_str))
            .collect();
        assert_eq!(
            told,
            [
                "Minimum and maximum entered.",
                "Day: 3 May 2026.",
                "Minimum: 6\u{a0}°C.",
                "Where: North.",
                "Minimum: 16\u{a0}°C, in place of 6\u{a0}°C.",
                "A change undone.",
                "Withdrawn.",
                "Brought back.",
            ]
        );
        assert_eq!(steps[0].at, 29_635_660);
        let of_low = field_history(&tablet.journal, &tablet.present, night, "low");
        assert_eq!(
            of_low[0].sentences,
            ["Minimum and maximum entered.", "Minimum: 6\u{a0}°C."]
        );
    }

    #[test]
    fn a_settled_clash_tells_both_sides() {
        let (mut tablet, mut phone, house) = two_devices();
        tablet.change(house, "name", "Left");
        phone.change(house, "name", "Right");
        tablet.merge(&phone);
        tablet.change(house, "name", "Middle");
        let steps = history(&tablet.journal, &tablet.present, house);
        let last = steps.last().unwrap().sentences[0].clone();
        assert!(
            [
                "Name: Middle, in place of Left and Right.",
                "Name: Middle, in place of Right and Left."
            ]
            .contains(&last.as_str()),
            "{last}"
        );
    }
}

mod merging {
    use super::*;

    fn careless_journal(seed: u64) -> Journal {
        let mut draws = Draws::from_seed(seed);
        let mut journal = Journal::default();
        while journal.len() < 4 {
            if let Ok(opened) = open(&careless(&mut draws)) {
                journal.merge(&opened.journal);
            }
        }
        journal
    }

    fn merged(a: &Journal, b: &Journal) -> Journal {
        let mut both = a.clone();
        both.merge(b);
        both
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]
        /// Also with different entries under one id, unread things and unknown members.
        #[test]
        fn merging_is_commutative_associative_and_idempotent(a: u64, b: u64, c: u64) {
            let (a, b, c) = (careless_journal(a), careless_journal(b), careless_journal(c));
            prop_assert_eq!(merged(&a, &b), merged(&b, &a));
            prop_assert_eq!(merged(&merged(&a, &b), &c), merged(&a, &merged(&b, &c)));
            prop_assert_eq!(merged(&a, &a), a.clone());
            prop_assert_eq!(merged(&merged(&a, &b), &b), merged(&a, &b));
        }
    }

    #[test]
    fn two_devices_with_the_same_mark_lose_nothing() {
        let mut tablet = Device::new("same");
        let mut copy = Device::new("same");
        let night = tablet.add("night", &[("day", "2026-05-03"), ("low", "6 degC")]);
        let other = copy.add("night", &[("day", "2026-05-03"), ("low", "9 degC")]);
        assert_eq!((night.number, night.mark), (other.number, other.mark));
        assert_ne!(night, other, "the id depends on what is said");
        tablet.merge(&copy);
        assert_eq!(tablet.journal.len(), 2);
        assert_eq!(tablet.text(other, "low"), "9 degC");
    }

    /// By hand, for it hardly happens: two entries of one id.
    #[test]
    fn different_entries_under_one_id_are_both_kept() {
        let document = |low: &str| {
            let entry = json!({"id": "same.1.7", "at": 5, "add": "night", "set": {"low": low}});
            let document = json!({"longtom": "record", "schema": 1, "entries": [entry]});
            open(&document.to_string()).unwrap().journal
        };
        let (a, b) = (document("6 degC"), document("9 degC"));
        let mut both = a.clone();
        both.merge(&b);
        let mut other_way = b.clone();
        other_way.merge(&a);
        assert_eq!(both, other_way);
        assert_eq!(both.len(), 2);
        let lows: Vec<String> = fold(&both)
            .record
            .all()
            .map(|thing| thing.text("low").to_owned())
            .collect();
        assert_eq!(lows.len(), 2);
        assert!(lows.contains(&"6 degC".to_owned()) && lows.contains(&"9 degC".to_owned()));
        assert_eq!(both.entries().filter(|entry| entry.is_renamed()).count(), 1);
        let again = open(&text(&both)).unwrap();
        assert_eq!(again.journal, both);
        let mut once_more = both.clone();
        once_more.merge(&a);
        once_more.merge(&b);
        assert_eq!(once_more, both);
        // Each is found under the name it has here.
        let [one, other] = [&a, &b].map(|of| of.entries().next().unwrap().clone());
        assert_ne!(both.id_here(&one), both.id_here(&other));
        for entry in [&one, &other] {
            let here = both.get(both.id_here(entry).unwrap()).unwrap();
            assert_eq!(here.act, entry.act);
            assert!(
                [&a, &b]
                    .iter()
                    .any(|journal| journal.id_here(entry).is_none())
            );
        }
    }

    #[test]
    fn a_preview_tells_what_would_change_and_changes_nothing() {
        let (mut tablet, mut phone, house) = two_devices();
        let night = phone.add("night", &[("day", "2026-05-03"), ("place", &house.text())]);
        phone.change(house, "cover", "film");
        phone.change(house, "name", "Right");
        let tray = phone.add("tray", &[("name", "Short")]);
        phone.withdraw(tray);
        tablet.change(house, "name", "Left");
        let before = tablet.journal.clone();
        let told = preview(&tablet.journal, &tablet.present, &phone.journal);
        assert_eq!(tablet.journal, before);
        assert_eq!((told.new, told.known), (5, 1));
        assert_eq!(told.added, [night]);
        let fields: Vec<(&str, &str, &str)> = told
            .changed
            .iter()
            .map(|changed| (&*changed.field, &*changed.before, &*changed.after))
            .collect();
        assert!(fields.contains(&("cover", "glass", "film")), "{fields:?}");
        assert_eq!(told.clashes.len(), 1);
        tablet.merge(&phone);
        assert_eq!(told.merged, tablet.journal);
        assert_eq!(told.present, tablet.present);
        let again = preview(&tablet.journal, &tablet.present, &phone.journal);
        assert_eq!(
            (
                again.new,
                again.added.len(),
                again.changed.len(),
                again.clashes.len()
            ),
            (0, 0, 0, 0)
        );
    }
}

mod the_door {
    use super::*;

    /// The document of the description, to the letter.
    #[test]
    fn the_format_is_as_described() {
        let written = concat!(
            "{\"longtom\":\"record\",\"schema\":1,\"entries\":[\n",
            "{\"id\":\"k3fq.1.a2b4\",\"at\":29635660,\"add\":\"house\",\"set\":{\"name\":\"North\"}},\n",
            "{\"id\":\"k3fq.2.7cde\",\"at\":29635661,\"of\":\"k3fq.1.a2b4\",\"set\":{\"name\":\"Old North\"}},\n",
            "{\"id\":\"k3fq.3.9xyz\",\"at\":29635662,\"of\":\"k3fq.1.a2b4\",\"set\":{\"name\":\"North\"},",
            "\"over\":{\"name\":[\"k3fq.2.7cde\"]}},\n",
            "{\"id\":\"k3fq.4.abc\",\"at\":29635663,\"of\":\"k3fq.1.a2b4\",\"withdraw\":[\"k3fq.3.9xyz\"]},\n",
            "{\"id\":\"k3fq.5.4def\",\"at\":29635664,\"of\":\"k3fq.1.a2b4\",\"restore\":[\"k3fq.4.abc\"]},\n",
            "{\"id\":\"k3fq.6.5fgh\",\"at\":29635665,\"of\":\"k3fq.1.a2b4\",\"undo\":\"k3fq.3.9xyz\"}\n",
            "]}"
        );
        let opened = open(written).unwrap();
        assert_eq!(opened.report.understood, 6);
        assert_eq!(text(&opened.journal), written);
        let present = fold(&opened.journal);
        let house = present.record.all().next().unwrap();
        assert_eq!(house.text("name"), "Old North");
        assert!(present.clashes.is_empty() && present.unplaced.is_empty() && !house.gone);
    }

    #[test]
    fn what_a_newer_version_writes_is_passed_on() {
        let document = json!({
            "longtom": "record",
            "schema": 1,
            "entries": [
                {"id": "a.1.1", "at": 1, "add": "glasshouse_cat", "set": {"name": "Tom", "fur": ["red", 2]}},
                {"id": "a.2.1", "at": 2, "add": "house", "set": {"name": "North", "ghost": "white"}, "why": {"x": null}},
                {"id": "a.3.1", "at": 3, "swap": ["a.1.1", "a.2.1"]},
                {"id": "a.4.1", "at": "noon", "of": "a.2.1", "set": {"name": "N"}, "over": {"name": ["a.2.1", 7]}},
                {"id": "a.5.1", "at": 5, "of": "a.2.1", "withdraw": ["a.4.1", {"new": 1}]},
                "a remark", 17, null, {"at": 4},
            ],
            "seal": {"by": "hand"},
        });
        let opened = open(&document.to_string()).unwrap();
        assert_eq!(opened.report.no_entries, [5, 6, 7, 8]);
        assert_eq!(opened.report.in_part.len(), 5);
        let written: Value = serde_json::from_str(&text(&opened.journal)).unwrap();
        let sorted = |value: &Value| {
            let mut entries: Vec<String> = value["entries"]
                .as_array()
                .unwrap()
                .iter()
                .map(Value::to_string)
                .collect();
            entries.sort();
            entries
        };
        assert_eq!(
            sorted(&written),
            sorted(&document),
            "nothing more and nothing less"
        );
        assert_eq!(written["seal"], document["seal"]);
        let present = fold(&opened.journal);
        assert_eq!(present.record.of_kind("glasshouse_cat").count(), 1);
        assert_eq!(present.unknown.len(), 1);
        let house = present.record.get(Id::read("a.2.1").unwrap()).unwrap();
        assert_eq!((house.text("name"), house.text("ghost")), ("N", "white"));
    }

    #[test]
    fn members_that_differ_are_both_kept() {
        let document = |seal: &str| {
            let document = json!({"longtom": "record", "schema": 1, "entries": [], "seal": seal});
            open(&document.to_string()).unwrap().journal
        };
        let mut both = document("red");
        both.merge(&document("blue"));
        let written = text(&both);
        assert!(
            written.contains("\"red\"") && written.contains("\"blue\""),
            "{written}"
        );
        assert_eq!(open(&written).unwrap().journal, both);
    }

    #[test]
    fn what_is_no_record_is_refused_with_a_sentence() {
        let refused = |text: &str| open(text).unwrap_err();
        for garbage in [
            "",
            "{",
            "PNG",
            "\u{0}\u{1}",
            "[1,2",
            "{\"longtom\":\"record\"",
            "nul",
        ] {
            assert_eq!(refused(garbage), Refused::NotJson, "{garbage}");
        }
        for other in [
            "[]",
            "7",
            "{}",
            r#"{"longtom":"settings","schema":1,"entries":[]}"#,
            r#"{"longtom":"record","schema":1}"#,
            r#"{"longtom":"record","schema":"1","entries":[]}"#,
            r#"{"longtom":"record","schema":1,"entries":{}}"#,
        ] {
            assert_eq!(refused(other), Refused::NotARecord, "{other}");
        }
        assert_eq!(
            refused(r#"{"longtom":"record","schema":2,"entries":[]}"#),
            Refused::Newer
        );
        assert_eq!(
            refused(r#"{"longtom":"record","schema":0,"entries":[]}"#),
            Refused::Unreadable
        );
        for why in [
            Refused::TooLong,
            Refused::TooDeep,
            Refused::NotJson,
            Refused::NotARecord,
            Refused::Newer,
            Refused::Unreadable,
        ] {
            assert!(why.to_string().ends_with('.'));
        }
    }

    #[test]
    fn too_long_and_too_deep_are_refused_before_they_are_parsed() {
        let nested = |deep: usize| {
            let inner = "[".repeat(deep) + &"]".repeat(deep);
            let head = r#"{"longtom":"record","schema":1,"entries":["#;
            [head, &inner, "]}"].concat()
        };
        assert!(open(&nested(DEEPEST - 2)).is_ok());
        assert_eq!(open(&nested(DEEPEST - 1)).unwrap_err(), Refused::TooDeep);
        assert_eq!(open(&nested(1_000_000)).unwrap_err(), Refused::TooDeep);
        let quoted = format!(
            r#"{{"longtom":"record","schema":1,"entries":[],"x":"{}"}}"#,
            "[".repeat(200)
        );
        assert!(open(&quoted).is_ok(), "brackets in a text are no depth");
        let long = " ".repeat(MOST_BYTES + 1);
        assert_eq!(open(&long).unwrap_err(), Refused::TooLong);
    }

    /// A record cut off anywhere is refused, and one with a byte changed anywhere is refused or
    /// read, but breaks nothing.
    #[test]
    fn damage_anywhere_breaks_nothing() {
        let journal = plausible(60, 5);
        let whole = text(&journal);
        for end in 0..whole.len() {
            assert_eq!(open(&whole[..end]).unwrap_err(), Refused::NotJson, "{end}");
        }
        let mut draws = Draws::from_seed(6);
        for _ in 0..1000 {
            let hurt = damaged(&whole, &mut draws);
            endures(&hurt, &journal).unwrap();
        }
    }

    #[test]
    fn one_bad_entry_does_not_lose_the_others() {
        let journal = plausible(200, 8);
        let whole = text(&journal);
        let mut lines: Vec<&str> = whole.lines().collect();
        let broken = "{\"id\":5,\"set\":[]},";
        lines[40] = broken;
        let opened = open(&lines.join("\n")).unwrap();
        assert_eq!(opened.journal.len(), journal.len() - 1);
        assert_eq!(opened.report.no_entries, [39]);
        assert_eq!(opened.journal.unread().count(), 1);
    }

    #[test]
    fn careless_documents_break_nothing() {
        const ROUNDS: usize = 10_000;
        let mut draws = Draws::from_seed(2026);
        let mut before = Journal::default();
        let mut let_in = 0;
        for round in 0..ROUNDS {
            let document = careless(&mut draws);
            match endures(&document, &before) {
                Ok(yes) => let_in += usize::from(yes),
                Err(why) => panic!("round {round}, {why}: {document}"),
            }
            if let Ok(opened) = open(&document) {
                before = opened.journal;
            }
        }
        assert!(let_in > ROUNDS / 2, "{let_in} let in");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(100))]
        #[test]
        fn whatever_is_written_reads_back(seed: u64, many in 1..200usize) {
            let journal = plausible(many, seed);
            let opened = open(&text(&journal)).unwrap();
            prop_assert_eq!(opened.report.understood, journal.len());
            prop_assert_eq!(opened.journal, journal);
        }

        #[test]
        fn any_text_is_let_in_or_refused(document in "\\PC{0,60}|[\\[\\]{}\",:a-z0-9]{0,60}") {
            let _ = open(&document);
        }
    }
}

mod storing_by_month {
    use super::*;

    fn month(text: &str) -> Part {
        Part::Month(text.to_owned())
    }

    #[test]
    fn an_entry_belongs_to_one_part_for_good() {
        let mut tablet = Device::new("tablet");
        let house = tablet.add("house", &[("name", "North"), ("day", "2026-05-03")]);
        let night = tablet.add("night", &[("day", "2026-05-03"), ("place", &house.text())]);
        let moved = tablet.change(night, "day", "2026-06-03");
        let undone = tablet.undo(moved);
        let late = tablet.add("night", &[("day", "soon")]);
        let cat = tablet.add("glasshouse_cat", &[("day", "2026-07-01")]);
        let other_cat = tablet.add("glasshouse_cat", &[("name", "Tom")]);
        let of = |id: Id| part_of(&tablet.journal, tablet.journal.get(id).unwrap());
        assert_eq!(of(house), Part::Standing);
        for id in [night, moved, undone] {
            assert_eq!(of(id), month("2026-05"));
        }
        // 29 635 660 minutes after 1 January 1970 is 7 May 2026 (86 400 seconds a day).
        assert_eq!(of(late), month("2026-05"));
        assert_eq!((of(cat), of(other_cat)), (month("2026-07"), Part::Standing));
        assert_eq!(parts(&tablet.journal).len(), 3);
    }

    #[test]
    fn the_parts_make_up_the_whole() {
        let mut journal = plausible(500, 3);
        journal.keep_unread("\"a remark\"".to_owned());
        journal.keep_member("seal".to_owned(), "7".to_owned());
        let mut pieces = Journal::default();
        let all = parts(&journal);
        assert!(all.len() > 50);
        for (part, entries) in all.iter().rev() {
            let document = part_text(&journal, part, entries.iter().copied());
            let name = serde_json::from_str::<Value>(&document).unwrap()["part"].clone();
            assert_eq!(name, part.name());
            pieces.merge(&open(&document).unwrap().journal);
        }
        assert_eq!(pieces, journal);
    }
}

#[test]
fn a_long_record_is_found_in_and_followed() {
    let journal = plausible(5_000, 11);
    let mut device = Device::new("tablet");
    device.present = fold(&journal);
    device.journal = journal;
    let logs = device.present.record.logs().count();
    assert!(logs > 4_500, "{logs}");
    assert!(device.present.unplaced.is_empty());
    let wanted = Wanted {
        words: "probe loose".to_owned(),
        ..Wanted::default()
    };
    let found = search(&device.present.record, &wanted, usize::MAX);
    let expected = device.present.record.logs().filter(|thing| {
        let notes = thing.text("notes");
        notes.contains("probe") && notes.contains("loose")
    });
    assert_eq!(found.len(), expected.count());
    let finder = Finder::of(&device.present.record);
    for most in [7, usize::MAX] {
        for words in ["probe loose", "house 1", "thrips", "bay", "nowhere", "e"] {
            let wanted = Wanted {
                words: words.to_owned(),
                ..Wanted::default()
            };
            let with = finder.search(&device.present.record, &wanted, most);
            assert_eq!(
                with,
                search(&device.present.record, &wanted, most),
                "{words}"
            );
        }
    }
    assert!(!found.is_empty());
    let shared = device.journal.entries().find_map(|entry| match &entry.act {
        Act::Add { texts, .. } => Some((entry.id, Arc::clone(texts))),
        _ => None,
    });
    let (id, texts) = shared.unwrap();
    let thing = device.present.record.get(id).unwrap();
    assert!(
        Arc::ptr_eq(&thing.texts, &texts),
        "an unchanged thing takes no room of its own"
    );
}

mod the_quick_wing {
    use super::*;
    use longtom::keep::journal::format::{open_plain, read};

    /// The same document as this program writes it, with entries as they came.
    fn as_written(document: &Value) -> String {
        let mut text = String::from("{\"longtom\":\"record\",\"schema\":1,\"entries\":[");
        for (place, entry) in document["entries"].as_array().unwrap().iter().enumerate() {
            text.push_str(if place > 0 { ",\n" } else { "\n" });
            match Entry::read(entry.clone()) {
                Ok(entry) => text.push_str(&entry.text()),
                Err(value) => text.push_str(&value.to_string()),
            }
        }
        text.push_str("\n],\"part\":\"2026-05\"}");
        text
    }

    /// By way of a tree of values.
    fn by_the_door(text: &str) -> Result<longtom::keep::journal::Opened, Refused> {
        read(serde_json::from_str(text).map_err(|_| Refused::NotJson)?)
    }

    #[test]
    fn it_lets_in_what_the_door_lets_in_and_nothing_else() {
        let mut draws = Draws::from_seed(11);
        let (mut whole, mut quick_and_damaged, mut rounds) = (0, 0, 0);
        while rounds < 20_000 {
            let Ok(document) = serde_json::from_str::<Value>(&careless(&mut draws)) else {
                continue;
            };
            if !document["entries"].is_array() {
                continue;
            }
            rounds += 1;
            let text = as_written(&document);
            let expected = by_the_door(&text);
            if let Some(opened) = open_plain(&text) {
                whole += 1;
                assert_eq!(Ok(opened), expected, "{text}");
            }
            assert_eq!(open(&text), expected, "{text}");
            let text = damaged(&text, &mut draws);
            if let Some(opened) = open_plain(&text) {
                quick_and_damaged += 1;
                assert_eq!(Ok(opened), by_the_door(&text), "{text}");
            }
        }
        // All but those without any entry, and those of strings among the entries.
        assert!(whole > rounds / 2, "{whole} went through it");
        assert!(
            quick_and_damaged > rounds / 20,
            "{quick_and_damaged} damaged ones did"
        );
    }

    #[test]
    fn what_it_reads_is_the_whole_record() {
        let journal = plausible(2_000, 5);
        let opened = open_plain(&text(&journal)).unwrap();
        assert_eq!(opened.journal, journal);
        assert_eq!(opened.report.understood, journal.len());
        for (part, entries) in parts(&journal) {
            let text = part_text(&journal, &part, entries);
            assert_eq!(open_plain(&text), by_the_door(&text).ok());
        }
    }

    #[test]
    fn the_shapes_that_tempt_it() {
        let entry = r#"{"id":"a.1.0","at":5,"add":"note","set":{"day":"2026-05-03"}}"#;
        let document = |entries: &str, tail: &str| {
            [
                "{\"longtom\":\"record\",\"schema\":1,\"entries\":[\n",
                entries,
                "\n]",
                tail,
            ]
            .concat()
        };
        let and = |other: &str| document(&[entry, ",\n", other].concat(), "}");
        let deep = |depth: usize| {
            let nested = ["[".repeat(depth), "]".repeat(depth)].concat();
            and(&["{\"id\":\"a.2.0\",\"x\":", &nested, "}"].concat())
        };
        let quick = [
            document(entry, "}"),
            document(entry, ",\"part\":\"x\"}"),
            // The same id twice, a path twice, out of order, emptied, written out, unknown members.
            and(&entry.replace("05-03", "05-04")),
            and(r#"{"id":"a.2.0","at":5,"add":"note","set":{"b":"1","a":"2","a":"3","b":""}}"#),
            and(r#"{"id":"a.2.0","at":5,"add":"note","set":{"notes":"\u00e9\n\"ß𝄞"}}"#),
            and(r#"{"id":"a.2.0","at":5,"add":"note","set":{},"set":{"notes":"later"}}"#),
            and(r#"{"id":"a.2.0","at":5,"add":"note"}"#),
            and(r#"{"id":"a.2.0","at":4294967296,"add":"note","set":{}}"#),
            and(r#"{"id":"a.2.0","at":5.0,"add":"note","set":{}}"#),
            and(r#"{"id":"A.2.0","at":5,"add":"note","set":{}}"#),
            and(r#"{"id":"a.2.0","at":5,"add":"note","set":{"]":"}","[":"{"}}"#),
            and("[]"),
            and("5"),
            deep(DEEPEST - 3),
        ];
        for text in quick {
            let opened = open_plain(&text).unwrap_or_else(|| panic!("not quick: {text}"));
            assert_eq!(Ok(&opened), by_the_door(&text).as_ref(), "{text}");
            assert_eq!(open(&text), Ok(opened), "{text}");
        }
        let not_quick = [
            document("", "}"),
            document(entry, ",\"entries\":[]}"),
            document(entry, ",\"colour\":\"red\"}"),
            document(entry, "} "),
            document(entry, "}}"),
            document(entry, ""),
            document(entry, "}").replace("\"schema\":1", "\"schema\":2"),
            document(entry, "}").replace("\"schema\":1", "\"schema\":1.0"),
            document(entry, "}").replace("\"schema\":1", "\"schema\":10"),
            document(entry, "}").replace(":5", ":05"),
            document(entry, "}").replace("day", "d\u{1}y"),
            document(entry, "}").replace("day", "d\\qy"),
            and(""),
            and("\"word\""),
            and("{]"),
            and(" {}"),
            deep(DEEPEST - 2),
            deep(DEEPEST + 200),
        ];
        for text in not_quick {
            assert_eq!(open_plain(&text), None, "{text}");
            match open(&text) {
                Err(Refused::TooDeep) => {}
                opened => assert_eq!(opened, by_the_door(&text), "{text}"),
            }
        }
    }
}
