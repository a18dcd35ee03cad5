//! The record in its parts: what stands and the open months lie on the shelf, closed months in the
//! archive.
//!
//! Every part is a journal, and journals merge without loss. So nothing here depends on who saves
//! first: where another tab has saved a part meanwhile, its entries join ours and the part is saved
//! again; where the two have written over one another, whoever sees it saves what is missing.
//!
//! A month is closed by writing it into the archive, reading it back and comparing; only then does
//! it leave the shelf. What is entered for a closed month later lies on the shelf until the next
//! closing. Without an archive everything stays on the shelf.
//!
//! Whoever writes into the archive says what was seen there; where something else lies there by
//! then, nothing is written, and the month is read and merged again. What is damaged there is moved
//! aside, exactly as it is, before anything takes its place. A tab that still knows entries which
//! another has closed forgets them, rather than putting them back on the shelf.
//!
//! What a part holds that only a newer version understands stays with that part, wherever it goes.

use litemap::LiteMap;
use std::cell::RefCell;

use serde_json::Value;

use super::cabinet::{Cabinet, KeepProblem, Notice, Saved, Why};
use super::document::{Document, Unreadable, Unwritable};
use super::envelope;
use super::journal::{Entry, Journal, Part, Refused, format};
use super::json::text_of;
use super::keys::{DocumentId, Kind, read_slot_key};
use super::shelf::{Shelf, ShelfProblem};

/// What lies under a name in an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Filed {
    /// The text; none where no text can be made of what lies there.
    pub text: Option<String>,
    /// Tells it from whatever else has lain there or will.
    pub stamp: String,
}

impl Filed {
    /// The text, where one can be made of what lies there.
    ///
    /// # Errors
    /// [`ShelfProblem::Damaged`] otherwise.
    pub fn whole(&self) -> Result<&str, ShelfProblem> {
        self.text.as_deref().ok_or(ShelfProblem::Damaged)
    }
}

/// Texts under names, for what is closed: roomier than a shelf, and slower.
// A page has one thread, so the futures need not be `Send`, which is all the lint warns of.
#[allow(async_fn_in_trait)]
pub trait Archive {
    /// The names of all that is in it.
    async fn names(&self) -> Result<Vec<String>, ShelfProblem>;

    /// What lies under a name, if anything does.
    async fn look(&self, name: &str) -> Result<Option<Filed>, ShelfProblem>;

    /// The text under a name, if there is one.
    async fn read(&self, name: &str) -> Result<Option<String>, ShelfProblem> {
        let filed = self.look(name).await?;
        let whole = filed.as_ref().map(Filed::whole).transpose()?;
        Ok(whole.map(str::to_owned))
    }

    /// The texts under several names, in their order. One that cannot be read keeps no other from
    /// being read.
    async fn read_many(&self, names: &[String]) -> Vec<Result<Option<String>, ShelfProblem>> {
        let mut texts = Vec::new();
        for name in names {
            texts.push(self.read(name).await);
        }
        texts
    }

    /// Puts a text under a name, wholly or not at all, and only while what was seen there still
    /// lies there: what has this stamp, or nothing. Gives back whether it did; otherwise nothing
    /// was written. Looking and writing are one step, between which nobody else comes.
    async fn replace(
        &self,
        name: &str,
        text: &str,
        seen: Option<&str>,
    ) -> Result<bool, ShelfProblem>;

    /// Moves what was seen under a name, exactly as it is, to where nothing is ever written over
    /// it. Gives back whether it still lay there.
    async fn set_aside(&self, name: &str, seen: &str) -> Result<bool, ShelfProblem>;
}

/// One part of the record, as a document.
#[derive(Clone, Debug, PartialEq)]
pub struct PartDocument {
    /// Which part.
    pub part: Part,
    /// Its entries.
    pub journal: Journal,
}

impl Default for PartDocument {
    fn default() -> Self {
        Self {
            part: Part::Standing,
            journal: Journal::default(),
        }
    }
}

impl Document for PartDocument {
    const KIND: Kind = Kind::Record;
    /// That of the record inside: an older program must see by the envelope that it cannot read it.
    const SCHEMA: u32 = format::SCHEMA;
    /// A month of a hundred entries a day, or all that stands in a large nursery, several times over.
    const MOST_BYTES: usize = 8_000_000;

    fn repair(body: Value, _reset: &mut Vec<String>) -> Result<Self, Unreadable> {
        let part = match body.get(PART).and_then(Value::as_str) {
            Some(month) if month != Part::Standing.name() => Part::Month(month.to_owned()),
            _ => Part::Standing,
        };
        let opened = format::read(body).map_err(|_| Unreadable)?;
        Ok(Self {
            part,
            journal: opened.journal,
        })
    }

    fn body(&self) -> Result<String, Unwritable> {
        Ok(part_text(&self.part, &self.journal))
    }
}

/// The member that tells which part a document is.
const PART: &str = "part";

/// A part with all that it holds, also what is kept beside its entries.
fn part_text(part: &Part, journal: &Journal) -> String {
    let mut told = journal.clone();
    told.keep_member(PART.to_owned(), text_of(&Value::from(part.name())));
    format::text(&told)
}

/// What of one journal another lacks.
fn lacking(ours: &Journal, theirs: &Journal) -> Journal {
    let mut rest = Journal::default();
    for entry in ours.entries() {
        if theirs.get(entry.id) != Some(entry) {
            rest.put(entry.clone());
        }
    }
    for json in ours.unread() {
        if !theirs.unread().any(|other| other == json) {
            rest.keep_unread(json.to_owned());
        }
    }
    for (name, json) in ours.members() {
        if !theirs.members().any(|other| other == (name, json)) {
            rest.keep_member(name.to_owned(), json.to_owned());
        }
    }
    rest
}

/// A closed month is in one place alone, so its saves need not be counted.
const CLOSED_TURN: u64 = 1;

/// Another tab would have to save between every two of our steps for this many not to do.
const TRIES: usize = 8;

/// The parts of the record on this device.
pub struct Store<S, A> {
    cabinet: Cabinet<S>,
    archive: Option<A>,
    /// What lies on the shelf, or is about to, by part.
    parts: RefCell<LiteMap<Part, Journal>>,
    /// The parts of which the last save failed, and why.
    unsaved: RefCell<LiteMap<Part, KeepProblem>>,
}

/// What came of opening the store.
pub struct OpenedStore<S, A> {
    /// The store.
    pub store: Store<S, A>,
    /// What stands, and all months that are on the shelf.
    pub journal: Journal,
    /// What the grower should be told.
    pub notices: Vec<Notice>,
}

impl<S: Shelf, A: Archive> Store<S, A> {
    /// Opens the store, with all that lies on the shelf.
    ///
    /// # Errors
    /// A [`KeepProblem`] if the shelf cannot say what is on it.
    pub async fn open(
        cabinet: Cabinet<S>,
        archive: Option<A>,
    ) -> Result<OpenedStore<S, A>, KeepProblem> {
        let store = Self {
            cabinet,
            archive,
            parts: RefCell::default(),
            unsaved: RefCell::default(),
        };
        let mut journal = Journal::default();
        let mut notices = Vec::new();
        for part in store.on_shelf().await? {
            let (found, told) = store.load_all(&part).await;
            journal.merge(&found);
            notices.extend(told);
        }
        Ok(OpenedStore {
            store,
            journal,
            notices,
        })
    }

    /// The parts on the shelf; what stands is always among them.
    async fn on_shelf(&self) -> Result<Vec<Part>, KeepProblem> {
        let keys = self.cabinet.shelf().keys().await;
        let keys = keys.map_err(|problem| unread(None, problem))?;
        let mut parts = vec![Part::Standing];
        for key in keys {
            if let Some((document, _)) = read_slot_key(&key)
                && document.kind == Kind::Record
            {
                let part = part_of_name(&document.name);
                if !parts.contains(&part) {
                    parts.push(part);
                }
            }
        }
        Ok(parts)
    }

    /// Keeps what another journal has beside its entries, to be written with what stands.
    pub fn keep_beside(&self, other: &Journal) {
        let mut beside = Journal::default();
        for json in other.unread() {
            beside.keep_unread(json.to_owned());
        }
        for (name, json) in other.members() {
            beside.keep_member(name.to_owned(), json.to_owned());
        }
        let mut parts = self.parts.borrow_mut();
        parts.entry(Part::Standing).or_default().merge(&beside);
    }

    /// Loads a part again where another tab has saved it. Gives back all entries that it holds, and
    /// those of ours that neither it nor the archive has are saved again by the next
    /// [`put`](Self::put).
    pub async fn load(&self, part: &Part) -> (Journal, Vec<Notice>) {
        let loaded = self.load_all(part).await;
        self.forget_closed(part).await;
        loaded
    }

    /// Forgets what of a month is in the archive by now: another tab has closed it, and it is not
    /// to go back onto the shelf.
    async fn forget_closed(&self, part: &Part) {
        if matches!(part, Part::Standing) {
            return;
        }
        if let Ok(closed) = self.read_closed(part.name()).await
            && !closed.is_empty()
            && let Some(ours) = self.parts.borrow_mut().get_mut(part)
        {
            *ours = lacking(ours, &closed);
            if ours.is_empty() {
                self.unsaved.borrow_mut().remove(part);
            }
        }
    }

    async fn load_all(&self, part: &Part) -> (Journal, Vec<Notice>) {
        let loaded = self.cabinet.load::<PartDocument>(part.name()).await;
        let journal = loaded.document.journal;
        self.take_in(part, &journal);
        (journal, loaded.notices)
    }

    fn take_in(&self, part: &Part, journal: &Journal) {
        let mut parts = self.parts.borrow_mut();
        parts.entry(part.clone()).or_default().merge(journal);
    }

    /// Whether entries of ours are missing from what was last saved under this part.
    #[must_use]
    pub fn has_more(&self, part: &Part, saved: &Journal) -> bool {
        let parts = self.parts.borrow();
        let ours = parts.get(part);
        ours.is_some_and(|ours| !lacking(ours, saved).is_empty())
    }

    /// Puts entries into a part and saves it. Gives back what another tab had saved meanwhile, to
    /// be merged into the whole.
    ///
    /// # Errors
    /// A [`KeepProblem`] if the part is not stored; its entries are put in again by the next call.
    pub async fn put(&self, part: &Part, entries: &[Entry]) -> Result<Journal, KeepProblem> {
        {
            let mut parts = self.parts.borrow_mut();
            let journal = parts.entry(part.clone()).or_default();
            for entry in entries {
                journal.put(entry.clone());
            }
        }
        self.save(part).await
    }

    /// What has not been saved for want of room or another reason: the problem of each part, in the
    /// order of the parts. What of a part has gone into the archive meanwhile is stored too.
    #[must_use]
    pub fn unsaved(&self) -> Vec<KeepProblem> {
        self.unsaved.borrow().values().cloned().collect()
    }

    /// Saves what could not be saved before, now that there may be room. Gives back what another
    /// tab had saved meanwhile, to be merged into the whole; what still cannot be saved is told by
    /// [`unsaved`](Self::unsaved).
    pub async fn save_unsaved(&self) -> Journal {
        let parts: Vec<Part> = self.unsaved.borrow().keys().cloned().collect();
        let mut theirs = Journal::default();
        for part in parts {
            if let Ok(newer) = self.save(&part).await {
                theirs.merge(&newer);
            }
        }
        theirs
    }

    /// Saves a part, and remembers whether that is still to be done.
    async fn save(&self, part: &Part) -> Result<Journal, KeepProblem> {
        let outcome = self.save_now(part).await;
        let left = |ours: &Journal| !ours.is_empty();
        match &outcome {
            Err(problem) if self.parts.borrow().get(part).is_some_and(left) => {
                let mut unsaved = self.unsaved.borrow_mut();
                unsaved.insert(part.clone(), problem.clone());
            }
            _ => {
                self.unsaved.borrow_mut().remove(part);
            }
        }
        outcome
    }

    async fn save_now(&self, part: &Part) -> Result<Journal, KeepProblem> {
        let mut theirs = Journal::default();
        for _ in 0..TRIES {
            let journal = self.parts.borrow().get(part).cloned().unwrap_or_default();
            let document = PartDocument {
                part: part.clone(),
                journal,
            };
            match self.cabinet.save(part.name(), &document).await {
                Ok(Saved::Kept) => return Ok(theirs),
                Ok(Saved::ChangedElsewhere(newer)) => {
                    theirs.merge(&newer.journal);
                    self.take_in(part, &newer.journal);
                    self.forget_closed(part).await;
                }
                // Another tab has written into the same place at the same moment: look again.
                Err(problem) if problem.why == Why::CameBackDifferent => {
                    let (newer, _) = self.load(part).await;
                    theirs.merge(&newer);
                }
                Err(problem) => return Err(problem),
            }
        }
        Err(problem_of(part.name(), Why::CameBackDifferent))
    }

    /// The months in the archive, the latest first.
    ///
    /// # Errors
    /// A [`KeepProblem`] if the archive cannot be read.
    pub async fn closed(&self) -> Result<Vec<String>, KeepProblem> {
        let Some(archive) = &self.archive else {
            return Ok(Vec::new());
        };
        let mut names = archive
            .names()
            .await
            .map_err(|problem| unread(None, problem))?;
        names.sort_unstable_by(|one, other| other.cmp(one));
        Ok(names)
    }

    /// The entries of a closed month.
    ///
    /// # Errors
    /// A [`KeepProblem`] if it cannot be read, or is damaged; it then stays as it is. See
    /// [`set_aside_if_damaged`](Self::set_aside_if_damaged).
    pub async fn read_closed(&self, month: &str) -> Result<Journal, KeepProblem> {
        let Some(archive) = &self.archive else {
            return Ok(Journal::default());
        };
        match archive.read(month).await {
            Ok(text) => read_text(month, text.as_deref()),
            Err(problem) => Err(unread(Some(month), problem)),
        }
    }

    /// The texts of several closed months, for [`read_text`]: reading them out of the archive
    /// together is quicker, and making journals of them takes long enough to be done one by one.
    pub async fn closed_texts(
        &self,
        months: &[String],
    ) -> Vec<Result<Option<String>, KeepProblem>> {
        let Some(archive) = &self.archive else {
            return Vec::new();
        };
        let texts = archive.read_many(months).await;
        let told = |(text, month): (Result<_, _>, &String)| {
            text.map_err(|problem| unread(Some(month), problem))
        };
        texts.into_iter().zip(months).map(told).collect()
    }

    /// Where a closed month was found damaged, moves it aside, so that the month can be used again.
    /// Gives back what is to be told: what came of that, or the problem itself if it is another.
    pub async fn set_aside_if_damaged(&self, problem: KeepProblem) -> KeepProblem {
        let (Some(archive), Some(document)) = (&self.archive, &problem.document) else {
            return problem;
        };
        if problem.why != Why::Damaged {
            return problem;
        }
        let month = &document.name;
        let moved = match archive.look(month).await {
            Ok(Some(filed)) => match filed.text.map(|text| opened(month, &text)) {
                None | Some(Err(Why::Damaged)) => archive.set_aside(month, &filed.stamp).await,
                // Another tab has been here meanwhile.
                Some(_) => Ok(false),
            },
            Ok(None) => Ok(false),
            Err(problem) => Err(problem),
        };
        problem_of(
            month,
            match moved {
                Ok(_) => Why::SetAside,
                Err(problem) => Why::NotSetAside(problem),
            },
        )
    }

    /// Closes every month on the shelf before the one given, such as `2026-05`. Two tabs that do so
    /// at a time lose nothing; it only costs them more.
    ///
    /// # Errors
    /// A [`KeepProblem`] for the first that could not be closed; it then stays where it is. Or for
    /// the first that was damaged in the archive and has been set aside. The others are closed all
    /// the same.
    pub async fn close_before(&self, open_month: &str) -> Result<(), KeepProblem> {
        if self.archive.is_none() {
            return Ok(());
        }
        let closing: Vec<(Part, Journal)> = self
            .parts
            .borrow()
            .iter()
            .filter(|(part, journal)| {
                matches!(part, Part::Month(month) if month.as_str() < open_month)
                    && !journal.is_empty()
            })
            .map(|(part, journal)| (part.clone(), journal.clone()))
            .collect();
        let mut outcome = Ok(());
        for (part, journal) in closing {
            outcome = outcome.and(self.close(&part, &journal).await);
        }
        outcome
    }

    /// Puts many entries of a month that is over straight into the archive, with what lies of it on
    /// the shelf: a shelf has no room for years. Without an archive they go onto the shelf.
    ///
    /// # Errors
    /// A [`KeepProblem`] if they are not stored, or if the month was damaged in the archive: if it
    /// has been set aside, they are stored.
    pub async fn put_closed(&self, part: &Part, entries: &[Entry]) -> Result<(), KeepProblem> {
        if self.archive.is_none() {
            return self.put(part, entries).await.map(drop);
        }
        let mut journal = self.parts.borrow().get(part).cloned().unwrap_or_default();
        for entry in entries {
            journal.put(entry.clone());
        }
        self.close(part, &journal).await
    }

    async fn close(&self, part: &Part, journal: &Journal) -> Result<(), KeepProblem> {
        let mut told = Ok(());
        for _ in 0..TRIES {
            match self.file(part, journal).await {
                Ok(true) => {
                    self.forget_unsaved(part, journal);
                    let on_shelf = |ours: &Journal| !ours.is_empty();
                    if self.parts.borrow().get(part).is_some_and(on_shelf) {
                        self.leave_shelf(part, journal).await?;
                    }
                    return told;
                }
                // Another tab has closed something of it meanwhile: look again.
                Ok(false) => {}
                Err(problem) if problem.why == Why::Damaged => {
                    let problem = self.set_aside_if_damaged(problem).await;
                    if problem.why != Why::SetAside {
                        return Err(problem);
                    }
                    told = told.and(Err(problem));
                }
                Err(problem) => return Err(problem),
            }
        }
        Err(problem_of(part.name(), Why::CameBackDifferent))
    }

    /// What is in the archive now need not be saved on the shelf any more.
    fn forget_unsaved(&self, part: &Part, closed: &Journal) {
        let all_closed = |ours: &Journal| lacking(ours, closed).is_empty();
        if self.parts.borrow().get(part).is_none_or(all_closed) {
            self.unsaved.borrow_mut().remove(part);
        }
    }

    /// Puts a journal into the archive beside what it has of a part. False where another tab has
    /// put something else there meanwhile.
    async fn file(&self, part: &Part, journal: &Journal) -> Result<bool, KeepProblem> {
        let Some(archive) = &self.archive else {
            return Ok(true);
        };
        let name = part.name();
        let filed = archive.look(name).await;
        let filed = filed.map_err(|problem| unread(Some(name), problem))?;
        let text = filed.as_ref().map(Filed::whole).transpose();
        let text = text.map_err(|problem| unread(Some(name), problem))?;
        let before = read_text(name, text)?;
        let mut whole = before.clone();
        whole.merge(journal);
        if whole == before {
            return Ok(true);
        }
        let document = DocumentId::new(Kind::Record, name);
        let body = part_text(part, &whole);
        let text = envelope::seal(&document, PartDocument::SCHEMA, CLOSED_TURN, &body);
        // What could not be read again must not take the place of what can.
        if opened(name, &text).as_ref() != Ok(&whole) {
            return Err(problem_of(name, Why::NotWritable));
        }
        let seen = filed.as_ref().map(|filed| filed.stamp.as_str());
        let written = archive.replace(name, &text, seen).await;
        if written == Ok(false) {
            return Ok(false);
        }
        let back = self.read_closed(name).await;
        // Another tab may have added to it by now.
        let holds = |journal: &Journal| {
            let back = back.as_ref();
            back.is_ok_and(|back| lacking(journal, back).is_empty())
        };
        if !holds(&before) {
            // What was closed earlier may be nowhere else by now, so it goes back to the shelf. If
            // it cannot, the next save of this part takes it there.
            self.take_in(part, &before);
            let _ = self.save(part).await;
        }
        written.map_err(|problem| problem_of(name, Why::NotStored(problem)))?;
        if holds(&whole) {
            return Ok(true);
        }
        match back {
            Err(problem) if problem.why != Why::Damaged => Err(problem),
            _ => Err(problem_of(name, Why::CameBackDifferent)),
        }
    }

    /// Whether closed months have a place of their own.
    #[must_use]
    pub const fn has_archive(&self) -> bool {
        self.archive.is_some()
    }

    /// The months on the shelf.
    #[must_use]
    pub fn months_on_shelf(&self) -> Vec<String> {
        let parts = self.parts.borrow();
        let months = parts.iter().filter_map(|(part, journal)| match part {
            Part::Month(month) if !journal.is_empty() => Some(month.clone()),
            _ => None,
        });
        months.collect()
    }

    /// Takes months off the shelf to make room, as far as somebody has a copy of them: one that
    /// holds something which the copy lacks stays. What the shelf lacks is saved then.
    ///
    /// # Errors
    /// A [`KeepProblem`] for the first part that could not be taken off or saved; the others are
    /// all the same.
    pub async fn take_off(&self, months: &[String], copy: &Journal) -> Result<(), KeepProblem> {
        let mut outcome = Ok(());
        for name in months {
            let part = Part::Month(name.clone());
            let (_, told) = self.load_all(&part).await;
            let ours = self.parts.borrow().get(&part).cloned();
            let has_all = ours.is_some_and(|ours| lacking(&ours, copy).is_empty());
            if has_all && told.is_empty() {
                let document = DocumentId::new(Kind::Record, name);
                let gone = self.cabinet.take_away(document).await;
                if gone.is_ok() {
                    self.parts.borrow_mut().remove(&part);
                    self.unsaved.borrow_mut().remove(&part);
                }
                outcome = outcome.and(gone);
            }
        }
        let parts: Vec<Part> = self.parts.borrow().keys().cloned().collect();
        for part in parts {
            let (stored, _) = self.load_all(&part).await;
            if self.has_more(&part, &stored) {
                outcome = outcome.and(self.save(&part).await.map(drop));
            }
        }
        outcome
    }

    /// Takes what has been closed out of both copies on the shelf. What another tab has entered
    /// meanwhile stays there.
    async fn leave_shelf(&self, part: &Part, closed: &Journal) -> Result<(), KeepProblem> {
        for _ in 0..2 {
            {
                let mut parts = self.parts.borrow_mut();
                let ours = parts.entry(part.clone()).or_default();
                *ours = lacking(ours, closed);
            }
            self.save(part).await?;
        }
        Ok(())
    }
}

/// The part of a document's name.
#[must_use]
pub fn part_of_name(name: &str) -> Part {
    if name == Part::Standing.name() {
        Part::Standing
    } else {
        Part::Month(name.to_owned())
    }
}

/// The entries of a closed month, out of its text.
///
/// # Errors
/// A [`KeepProblem`] if it is damaged, or of a newer version.
pub fn read_text(month: &str, text: Option<&str>) -> Result<Journal, KeepProblem> {
    match text {
        None => Ok(Journal::default()),
        Some(text) => opened(month, text).map_err(|why| problem_of(month, why)),
    }
}

fn opened(month: &str, text: &str) -> Result<Journal, Why> {
    let damaged = || Why::Damaged;
    // Nearly all are as they were written here, and need not be looked at as closely.
    let document = DocumentId::new(Kind::Record, month);
    let plain = envelope::sealed(text, &document, PartDocument::SCHEMA, CLOSED_TURN)
        .filter(|_| text.len() <= format::MOST_BYTES)
        .and_then(format::open_plain);
    if let Some(opened) = plain {
        return Ok(opened.journal);
    }
    let envelope = envelope::open(text, format::MOST_BYTES).map_err(|_| damaged())?;
    if envelope.kind != Kind::Record.key() || envelope.name != month {
        return Err(damaged());
    }
    if envelope.schema > PartDocument::SCHEMA {
        return Err(Why::NewerVersion);
    }
    match format::read(envelope.body) {
        Ok(opened) => Ok(opened.journal),
        Err(Refused::Newer) => Err(Why::NewerVersion),
        Err(_) => Err(damaged()),
    }
}

fn problem_of(part: &str, why: Why) -> KeepProblem {
    KeepProblem {
        document: Some(DocumentId::new(Kind::Record, part)),
        why,
    }
}

fn unread(month: Option<&str>, problem: ShelfProblem) -> KeepProblem {
    KeepProblem {
        document: month.map(|month| DocumentId::new(Kind::Record, month)),
        why: match problem {
            ShelfProblem::Damaged => Why::Damaged,
            problem => Why::NotRead(problem),
        },
    }
}
