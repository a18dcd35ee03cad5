//! Loading and saving documents so that nothing stored is lost.
//!
//! Each document has two places. A save goes into the place that does not hold the newest good
//! copy, is read back, and only then counts as done; a write that fails or tears harms nothing but
//! the copy before the last. What is in a place and cannot be read in full is set aside, exactly
//! as it is, before anything is written over it.
//!
//! Two tabs share the places. Before each save the cabinet looks whether the newest copy is the one
//! it knows; if it is not, nothing is written, and the caller gets what the other tab has saved.

use litemap::LiteMap;
use std::cell::{Cell, RefCell};
use std::fmt;
use std::future::Future;
use std::rc::Rc;

use serde_json::Value;

use super::document::{Document, Unreadable};
use super::envelope::{self, Damage};
use super::keys::{self, DocumentId, PREFIX, Slot, aside_key, read_aside_key, slot_key};
use super::shelf::{Shelf, ShelfProblem};
use super::turnstile::Turnstile;
use super::words;
use crate::measure::letters::capitalised;

/// What came of loading a document.
#[derive(Clone, Debug, PartialEq)]
pub struct Loaded<D> {
    /// The newest good copy, or the usual values if there is none.
    pub document: D,
    /// Whether there was a copy.
    pub stored: bool,
    /// Whether saving it is refused, because a newer version of this program has saved it.
    pub read_only: bool,
    /// What the grower should be told.
    pub notices: Vec<Notice>,
}

/// What the grower should be told after loading; [`words::notice`] has the sentences.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// A copy could not be read, in full or at all, and was set aside under this key.
    SetAside {
        /// Whose copy.
        document: DocumentId,
        /// Where it is now.
        key: String,
        /// Whether another copy, or the rest of this one, is in use; otherwise the usual values are.
        others: bool,
    },
    /// A copy could not be read and there is no room to set it aside. It stays where it is, and
    /// nothing is written over it.
    NotSetAside {
        /// Whose copy.
        document: DocumentId,
        /// Why not.
        problem: ShelfProblem,
    },
    /// One field could not be understood and has its usual value.
    FieldReset {
        /// Of which document.
        document: DocumentId,
        /// The field's name in the stored text.
        field: String,
    },
    /// A newer version of this program has saved this document, which is therefore left alone.
    NewerVersion {
        /// Which document.
        document: DocumentId,
    },
    /// What is stored could not be reached.
    NotRead {
        /// Which document.
        document: DocumentId,
        /// Why not.
        problem: ShelfProblem,
    },
    /// The browser does not let this page store anything; see [`super::shelf::MemoryShelf`].
    OnlyThisVisit {
        /// Why not.
        problem: ShelfProblem,
    },
}

/// What came of a save that met no problem.
#[derive(Clone, Debug, PartialEq)]
#[must_use]
pub enum Saved<D> {
    /// It is stored, and has been read back.
    Kept,
    /// Nothing was written: another tab has saved this document since the caller got it. This is
    /// what is stored; bring all changes that were not kept over to it, and save again.
    ChangedElsewhere(D),
}

/// What was not done, and why; its `Display` is the sentence with the way out. The document the
/// caller holds is still the right one: save it again at the next change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeepProblem {
    /// The document, if it is about one.
    pub document: Option<DocumentId>,
    /// Why.
    pub why: Why,
}

/// Why something was not done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// What is stored could not be read, and nothing is written over what was not read.
    NotRead(ShelfProblem),
    /// It could not be written.
    NotStored(ShelfProblem),
    /// What is stored is damaged. It is left as it is, and nothing is written over it.
    Damaged,
    /// What was stored was damaged, and has been set aside exactly as it was.
    SetAside,
    /// What was stored is damaged and could not be set aside: it stays where it is, and nothing is
    /// written over it.
    NotSetAside(ShelfProblem),
    /// It was written, but did not come back as it was written.
    CameBackDifferent,
    /// There is a copy that cannot be read, and no room to set it aside first.
    NoRoomToSetAside(ShelfProblem),
    /// A newer version of this program has saved this document.
    NewerVersion,
    /// Longer than a document of this kind may be.
    TooLong {
        /// How long it would be, in bytes.
        bytes: usize,
        /// How long it may be.
        most: usize,
    },
    /// It holds something that could not be read again.
    NotWritable,
    /// The key is not that of a text set aside.
    NotAside,
    /// The text set aside could not be taken away.
    NotRemoved(ShelfProblem),
    /// The browser has no way to do this.
    NotOffered(String),
}

impl fmt::Display for KeepProblem {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&words::problem(self))
    }
}

impl std::error::Error for KeepProblem {}

/// A text that is offered for download because this version cannot read it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aside {
    /// The key to ask for the text with.
    pub key: String,
    /// Whose copy it is, if this version knows the kind.
    pub document: Option<DocumentId>,
    /// Its length in bytes.
    pub bytes: usize,
    /// Whether it is still in its own place, saved there by a newer version of this program; it
    /// then cannot be discarded.
    pub in_place: bool,
}

impl Aside {
    /// What it is, as one would speak of it: the key says that to nobody.
    #[must_use]
    pub fn told(&self) -> String {
        self.document.as_ref().map_or_else(
            || words::of_unknown_kind().to_owned(),
            |document| capitalised(&words::the(document)),
        )
    }
}

/// Loads and saves documents. Clones share one shelf and what is known about it.
///
/// ```
/// use longtom::keep::keys::ONLY;
/// use longtom::keep::{Cabinet, KeepProblem, MemoryShelf, Saved, Settings, TextSize};
///
/// # fn main() -> Result<(), KeepProblem> {
/// # pollster::block_on(async {
/// let cabinet = Cabinet::new(MemoryShelf::new());
/// let mut base: Settings = cabinet.load(ONLY).await.document;
/// let mut settings = base.clone();
/// settings.text_size = TextSize::Large;
/// while let Saved::ChangedElsewhere(theirs) = cabinet.save(ONLY, &settings).await? {
///     settings = Settings::merged(&base, &settings, &theirs);
///     base = theirs;
/// }
/// # Ok(())
/// # })
/// # }
/// ```
pub struct Cabinet<S> {
    inner: Rc<Inner<S>>,
}

impl<S> Clone for Cabinet<S> {
    fn clone(&self) -> Self {
        Cabinet {
            inner: Rc::clone(&self.inner),
        }
    }
}

impl<S: Shelf> Cabinet<S> {
    /// A cabinet over a shelf.
    pub fn new(shelf: S) -> Self {
        Cabinet {
            inner: Rc::new(Inner {
                shelf,
                drawers: RefCell::default(),
            }),
        }
    }

    /// The shelf, for [`super::parcel::pack`].
    pub fn shelf(&self) -> &S {
        &self.inner.shelf
    }

    /// Loads the newest good copy of a document. Damage is set aside and told in the notices.
    pub async fn load<D: Document>(&self, name: &str) -> Loaded<D> {
        let drawer = self.inner.drawer(DocumentId::new(D::KIND, name));
        let ticket = drawer.turnstile.ticket();
        ticket.front().await;
        let mut found = self.inner.load(&drawer, &shape::<D>()).await;
        let stored = found.body.is_some();
        let mut reset = Vec::new();
        let document = found
            .body
            .and_then(|body| D::repair(body, &mut reset).ok())
            .unwrap_or_default();
        found
            .notices
            .extend(reset.into_iter().map(|field| Notice::FieldReset {
                document: drawer.id.clone(),
                field,
            }));
        Loaded {
            document,
            stored,
            read_only: drawer.known.get().newer.is_some(),
            notices: found.notices,
        }
    }

    /// Saves a document. The order of the calls is the order of the saves, whenever the futures
    /// are run; dropping the future before it has run gives the save up.
    ///
    /// # Errors
    /// A [`KeepProblem`] if it is not stored; what was stored before still is.
    pub fn save<D: Document>(
        &self,
        name: &str,
        document: &D,
    ) -> impl Future<Output = Result<Saved<D>, KeepProblem>> + use<S, D> {
        let inner = Rc::clone(&self.inner);
        let drawer = inner.drawer(DocumentId::new(D::KIND, name));
        let ticket = drawer.turnstile.ticket();
        let body = document.body();
        let made_from = drawer.known.get().handed_out;
        async move {
            ticket.front().await;
            let outcome = match body {
                Ok(body) => inner.save(&drawer, &shape::<D>(), made_from, &body).await,
                Err(_) => Err(Why::NotWritable),
            };
            match outcome {
                Ok(None) => Ok(Saved::Kept),
                Ok(Some(newer)) => Ok(Saved::ChangedElsewhere(
                    D::repair(newer, &mut Vec::new()).unwrap_or_default(),
                )),
                Err(why) => Err(KeepProblem {
                    document: Some(drawer.id.clone()),
                    why,
                }),
            }
        }
    }

    /// Takes away both copies of a document for good: whoever calls this has all of it elsewhere.
    ///
    /// # Errors
    /// A [`KeepProblem`] if one could not be taken away.
    pub async fn take_away(&self, document: DocumentId) -> Result<(), KeepProblem> {
        let drawer = self.inner.drawer(document);
        let ticket = drawer.turnstile.ticket();
        ticket.front().await;
        for slot in Slot::BOTH {
            let removed = self.inner.shelf.remove(&slot_key(&drawer.id, slot)).await;
            removed.map_err(|problem| KeepProblem {
                document: Some(drawer.id.clone()),
                why: Why::NotRemoved(problem),
            })?;
        }
        Ok(())
    }

    /// Everything that is offered for download because this version cannot read it.
    ///
    /// # Errors
    /// A [`KeepProblem`] if the shelf cannot be read.
    pub async fn asides(&self) -> Result<Vec<Aside>, KeepProblem> {
        self.inner.asides().await.map_err(|problem| KeepProblem {
            document: None,
            why: Why::NotRead(problem),
        })
    }

    /// The text under a key, exactly as it was found.
    ///
    /// # Errors
    /// A [`KeepProblem`] if it cannot be read or is not there.
    pub async fn aside_text(&self, key: &str) -> Result<String, KeepProblem> {
        let problem = |why| KeepProblem {
            document: None,
            why,
        };
        if !key.starts_with(PREFIX) {
            return Err(problem(Why::NotAside));
        }
        match self.inner.shelf.read(key).await {
            Ok(Some(text)) => Ok(text),
            Ok(None) => Err(problem(Why::NotAside)),
            Err(error) => Err(problem(Why::NotRead(error))),
        }
    }

    /// Takes away a text that was set aside, and the damaged copy it was made of if that is still
    /// in its place. This cannot be undone: offer the download first.
    ///
    /// # Errors
    /// A [`KeepProblem`] if the key is not that of a text set aside, or it cannot be taken away.
    pub async fn discard_aside(&self, key: &str) -> Result<(), KeepProblem> {
        let Some(aside) = read_aside_key(key) else {
            return Err(KeepProblem {
                document: None,
                why: Why::NotAside,
            });
        };
        let document = aside.origin.as_ref().map(|(document, _)| document.clone());
        self.inner
            .discard(key, aside.origin)
            .await
            .map_err(|problem| KeepProblem {
                document,
                why: Why::NotRemoved(problem),
            })
    }
}

/// What the cabinet needs to know of a type of document, without being compiled again for each.
struct Shape {
    schema: u32,
    most_bytes: usize,
    judge: Judge,
}

/// Brings a body to the present schema, and tells whether a field had to be reset.
type Judge = fn(schema: u32, body: Value) -> Result<(Value, bool), Unreadable>;

fn shape<D: Document>() -> Shape {
    Shape {
        schema: D::SCHEMA,
        most_bytes: D::MOST_BYTES,
        judge: |schema, body| {
            let body = if schema == D::SCHEMA {
                body
            } else {
                D::migrate(schema, body)?
            };
            let mut reset = Vec::new();
            D::repair(body.clone(), &mut reset)?;
            Ok((body, !reset.is_empty()))
        },
    }
}

/// Tells one copy from another.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Stamp {
    turn: u64,
    check: u32,
}

/// What the cabinet knows of one document.
#[derive(Clone, Copy, Default)]
struct Known {
    /// The copy the caller has, and the one before it.
    newest: Option<Stamp>,
    previous: Option<Stamp>,
    /// Counts how often the newest has become another by somebody else's doing. A save that was
    /// asked for before that was made from what the caller had until then.
    handed_out: u64,
    /// Where a newer version's copy is.
    newer: Option<Slot>,
    /// Places in which our own write has torn. The document is still in the caller's hands, so
    /// what is there needs no setting aside.
    torn: [bool; 2],
}

impl Known {
    /// The caller is given this copy.
    fn hand_out(&mut self, newest: Option<Stamp>, previous: Option<Stamp>) {
        if self.newest != newest {
            self.handed_out += 1;
        }
        self.newest = newest;
        self.previous = previous;
    }
}

struct Drawer {
    id: DocumentId,
    turnstile: Turnstile,
    known: Cell<Known>,
}

/// What is in one place.
struct Held {
    text: Option<String>,
    finding: Finding,
}

enum Finding {
    Empty,
    Good {
        stamp: Stamp,
        body: Value,
        /// Whether a field could not be understood.
        reset: bool,
    },
    Newer {
        turn: u64,
    },
    Damaged,
    NotRead(ShelfProblem),
}

impl Held {
    fn turn(&self) -> Option<u64> {
        match self.finding {
            Finding::Good { stamp, .. } => Some(stamp.turn),
            Finding::Newer { turn } => Some(turn),
            _ => None,
        }
    }

    fn good(&self) -> Option<(Stamp, &Value)> {
        match &self.finding {
            Finding::Good { stamp, body, .. } => Some((*stamp, body)),
            _ => None,
        }
    }

    /// The text, if something in it would be lost by writing over it.
    fn precious(&self) -> Option<&str> {
        match self.finding {
            Finding::Damaged | Finding::Newer { .. } | Finding::Good { reset: true, .. } => {
                self.text.as_deref()
            }
            _ => None,
        }
    }
}

/// The place with the highest turn among those that `turn` gives one for.
fn highest(held: &[Held; 2], turn: impl Fn(&Held) -> Option<u64>) -> Option<Slot> {
    Slot::BOTH
        .into_iter()
        .filter_map(|slot| Some((turn(&held[slot.index()])?, slot)))
        .max_by_key(|(turn, _)| *turn)
        .map(|(_, slot)| slot)
}

struct Inner<S> {
    shelf: S,
    drawers: RefCell<LiteMap<DocumentId, Rc<Drawer>>>,
}

struct Found {
    body: Option<Value>,
    notices: Vec<Notice>,
}

impl<S: Shelf> Inner<S> {
    fn drawer(&self, id: DocumentId) -> Rc<Drawer> {
        let mut drawers = self.drawers.borrow_mut();
        let drawer = drawers.entry(id.clone()).or_insert_with(|| {
            Rc::new(Drawer {
                id,
                turnstile: Turnstile::default(),
                known: Cell::default(),
            })
        });
        Rc::clone(drawer)
    }

    async fn look(&self, id: &DocumentId, shape: &Shape) -> [Held; 2] {
        [
            self.look_at(id, Slot::A, shape).await,
            self.look_at(id, Slot::B, shape).await,
        ]
    }

    async fn look_at(&self, id: &DocumentId, slot: Slot, shape: &Shape) -> Held {
        match self.shelf.read(&slot_key(id, slot)).await {
            Ok(None) => Held {
                text: None,
                finding: Finding::Empty,
            },
            Ok(Some(text)) => Held {
                finding: examine(id, &text, shape),
                text: Some(text),
            },
            Err(problem) => Held {
                text: None,
                finding: Finding::NotRead(problem),
            },
        }
    }

    async fn load(&self, drawer: &Drawer, shape: &Shape) -> Found {
        let id = &drawer.id;
        let held = self.look(id, shape).await;
        let mut known = drawer.known.get();
        let mut notices = Vec::new();

        let newest = highest(&held, Held::turn);
        let shown = highest(&held, |held| held.good().map(|(stamp, _)| stamp.turn));
        if newest != shown {
            known.newer = newest;
            notices.push(Notice::NewerVersion {
                document: id.clone(),
            });
        }
        for slot in Slot::BOTH {
            let place = &held[slot.index()];
            if let Finding::NotRead(problem) = &place.finding {
                notices.push(Notice::NotRead {
                    document: id.clone(),
                    problem: problem.clone(),
                });
            }
            // A newer version's newest copy is left where that version will look for it, and a
            // place torn by our own write holds nothing that the caller does not have.
            if known.newer == Some(slot) || known.torn[slot.index()] {
                continue;
            }
            let Some(text) = place.precious() else {
                continue;
            };
            match self.set_aside(id, slot, text).await {
                Ok(Some(key)) => notices.push(Notice::SetAside {
                    document: id.clone(),
                    key,
                    others: shown.is_some(),
                }),
                // It was set aside, and told, on an earlier visit.
                Ok(None) => {}
                Err(problem) => notices.push(Notice::NotSetAside {
                    document: id.clone(),
                    problem,
                }),
            }
        }

        let stamp = |slot: Slot| held[slot.index()].good().map(|(stamp, _)| stamp);
        known.hand_out(
            shown.and_then(stamp),
            shown.and_then(|slot| stamp(slot.other())),
        );
        drawer.known.set(known);
        let body = shown.and_then(|slot| held[slot.index()].good().map(|(_, body)| body.clone()));
        Found { body, notices }
    }

    /// Saves a body; gives back the body of a copy that another tab has saved, if there is one,
    /// and has then written nothing.
    async fn save(
        &self,
        drawer: &Drawer,
        shape: &Shape,
        made_from: u64,
        body: &str,
    ) -> Result<Option<Value>, Why> {
        let id = &drawer.id;
        let mut known = drawer.known.get();
        if known.newer.is_some() {
            return Err(Why::NewerVersion);
        }
        let held = self.look(id, shape).await;
        for place in &held {
            if let Finding::NotRead(problem) = &place.finding {
                return Err(Why::NotRead(problem.clone()));
            }
        }
        let newest = highest(&held, Held::turn);
        let mut stored = None;
        if let Some(slot) = newest {
            let place = &held[slot.index()];
            let Some((stamp, body)) = place.good() else {
                known.newer = newest;
                drawer.known.set(known);
                return Err(Why::NewerVersion);
            };
            // The previous one is met if the newest has been damaged or taken away since.
            let met = known.newest == Some(stamp) || known.previous == Some(stamp);
            if !met {
                let previous = held[slot.other().index()].good().map(|(stamp, _)| stamp);
                known.hand_out(Some(stamp), previous);
                drawer.known.set(known);
            }
            if !met || known.handed_out != made_from {
                return Ok(Some(body.clone()));
            }
            stored = Some(stamp);
        }

        let last = [stored, known.newest]
            .into_iter()
            .flatten()
            .map(|stamp| stamp.turn)
            .max()
            .unwrap_or_default();
        let turn = last + 1;
        let text = envelope::seal(id, shape.schema, turn, body);
        let check = match envelope::open(&text, shape.most_bytes) {
            Ok(envelope) => envelope.check,
            Err(Damage::TooLong) => {
                return Err(Why::TooLong {
                    bytes: text.len(),
                    most: shape.most_bytes,
                });
            }
            Err(_) => return Err(Why::NotWritable),
        };

        let target = match newest {
            Some(slot) => slot.other(),
            // With no good copy at all, rather the place where nothing needs setting aside.
            None if held[Slot::A.index()].precious().is_some() => Slot::B,
            None => Slot::A,
        };
        let before = &held[target.index()];
        if let Some(precious) = before.precious()
            && !known.torn[target.index()]
        {
            self.set_aside(id, target, precious)
                .await
                .map_err(Why::NoRoomToSetAside)?;
        }

        let key = slot_key(id, target);
        let written = self.shelf.write(&key, &text).await;
        let back = self.shelf.read(&key).await;
        let whole = matches!(&back, Ok(Some(back)) if *back == text);
        if whole {
            known.newest = Some(Stamp { turn, check });
            known.previous = stored;
            known.torn[target.index()] = false;
        } else if back.as_ref() != Ok(&before.text) {
            known.torn[target.index()] = true;
        }
        drawer.known.set(known);
        match written {
            Ok(()) if whole => Ok(None),
            Ok(()) => Err(Why::CameBackDifferent),
            Err(problem) => Err(Why::NotStored(problem)),
        }
    }

    /// Copies a text to a key of its own and reads it back. Gives the key, or `None` if this very
    /// text had been set aside before.
    async fn set_aside(
        &self,
        id: &DocumentId,
        slot: Slot,
        text: &str,
    ) -> Result<Option<String>, ShelfProblem> {
        let mut highest = 0;
        for key in self.shelf.keys().await? {
            let Some(aside) = read_aside_key(&key) else {
                continue;
            };
            highest = highest.max(aside.number);
            let same_document = aside.origin.is_some_and(|(document, _)| document == *id);
            if same_document && self.shelf.read(&key).await?.as_deref() == Some(text) {
                return Ok(None);
            }
        }
        let key = aside_key(highest.saturating_add(1), id, slot);
        if self.shelf.read(&key).await?.is_some() {
            // Only if the numbers have run out.
            return Err(ShelfProblem::Full);
        }
        let written = self.shelf.write(&key, text).await;
        let whole = self.shelf.read(&key).await?.as_deref() == Some(text);
        match written {
            Ok(()) if whole => Ok(Some(key)),
            written => {
                // Half a copy is of no use, and takes room.
                self.shelf.remove(&key).await?;
                Err(written.err().unwrap_or(ShelfProblem::Full))
            }
        }
    }

    async fn asides(&self) -> Result<Vec<Aside>, ShelfProblem> {
        let newer: Vec<String> = self
            .drawers
            .borrow()
            .values()
            .filter_map(|drawer| Some(slot_key(&drawer.id, drawer.known.get().newer?)))
            .collect();
        let mut asides = Vec::new();
        for key in self.shelf.keys().await? {
            let in_place = newer.contains(&key);
            let document = match (read_aside_key(&key), in_place) {
                (Some(aside), _) => aside.origin.map(|(document, _)| document),
                (None, true) => keys::read_slot_key(&key).map(|(document, _)| document),
                (None, false) => continue,
            };
            if let Some(text) = self.shelf.read(&key).await? {
                asides.push(Aside {
                    key,
                    document,
                    bytes: text.len(),
                    in_place,
                });
            }
        }
        Ok(asides)
    }

    async fn discard(
        &self,
        key: &str,
        origin: Option<(DocumentId, Slot)>,
    ) -> Result<(), ShelfProblem> {
        if let Some((id, _)) = origin {
            let drawer = self.drawer(id);
            let ticket = drawer.turnstile.ticket();
            ticket.front().await;
            let text = self.shelf.read(key).await?;
            for slot in Slot::BOTH {
                // Left in its place it would be set aside again at the next start.
                let place = slot_key(&drawer.id, slot);
                if let Some(text) = &text
                    && envelope::open(text, usize::MAX).is_err()
                    && self.shelf.read(&place).await?.as_ref() == Some(text)
                {
                    self.shelf.remove(&place).await?;
                }
            }
            return self.shelf.remove(key).await;
        }
        self.shelf.remove(key).await
    }
}

fn examine(id: &DocumentId, text: &str, shape: &Shape) -> Finding {
    let Ok(envelope) = envelope::open(text, shape.most_bytes) else {
        return Finding::Damaged;
    };
    if envelope.kind != id.kind.key() || envelope.name != id.name {
        return Finding::Damaged;
    }
    if envelope.schema > shape.schema {
        return Finding::Newer {
            turn: envelope.turn,
        };
    }
    let stamp = Stamp {
        turn: envelope.turn,
        check: envelope.check,
    };
    match (shape.judge)(envelope.schema, envelope.body) {
        Ok((body, reset)) => Finding::Good { stamp, body, reset },
        Err(Unreadable) => Finding::Damaged,
    }
}
