//! Every storage key, in one place.
//!
//! | key | holds |
//! |---|---|
//! | `longtom.<kind>.a`, `longtom.<kind>.b` | the two copies of a document there is one of |
//! | `longtom.<kind>.<name>.a`, `….b` | the two copies of a named document |
//! | `longtom.aside.<number>.<kind>.<name>.<a or b>` | a text set aside, exactly as it was found |
//!
//! In the archive a closed month lies under its own name, such as `2026-05`, and one that was set
//! aside under `aside.<moment>.<name>`.
//!
//! A kind's key is never used again for something else, even after the kind has gone: an older
//! copy may still be stored under it on some device.

/// What every key of this program begins with; the origin may be shared with other pages.
pub const PREFIX: &str = "longtom.";

/// The name of a document of which there is only one.
pub const ONLY: &str = "";

/// What the keys of texts set aside begin with.
const ASIDE: &str = "longtom.aside.";

/// What the names of what was set aside in the archive begin with; see `public/archive.js`.
pub const ARCHIVE_ASIDE: &str = "aside.";

/// Digits of the number in the key of a text set aside, so that the keys sort by age.
const ASIDE_DIGITS: usize = 4;

/// The kinds of document that are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// How this device shows things.
    Settings,
    /// The last question of one page, named after the page.
    Question,
    /// A part of the record: `standing`, or a month such as `2026-05`.
    Record,
}

impl Kind {
    /// All kinds, in the order in which they came to be.
    pub const ALL: [Kind; 3] = [Kind::Settings, Kind::Question, Kind::Record];

    /// The kind's part of a key. `aside` is taken.
    pub const fn key(self) -> &'static str {
        match self {
            Kind::Settings => "settings",
            Kind::Question => "question",
            Kind::Record => "record",
        }
    }

    fn from_key(key: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

/// One document: its kind, and its name where there are several of a kind (empty where not).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct DocumentId {
    /// The kind.
    pub kind: Kind,
    /// The name, which may be empty and may hold any character.
    pub name: String,
}

impl DocumentId {
    /// The document of this kind and name.
    pub fn new(kind: Kind, name: &str) -> Self {
        DocumentId {
            kind,
            name: name.to_owned(),
        }
    }

    /// `settings`, `question.mix`.
    fn stem(&self) -> String {
        let mut stem = self.kind.key().to_owned();
        if !self.name.is_empty() {
            stem.push('.');
            stem.push_str(&self.name);
        }
        stem
    }

    fn from_stem(stem: &str) -> Option<Self> {
        let (kind, name) = stem.split_once('.').unwrap_or((stem, ""));
        Some(DocumentId::new(Kind::from_key(kind)?, name))
    }
}

/// The two places of a document. The newest good copy is in one of them, the one before it in
/// the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// The place whose key ends in `.a`.
    A,
    /// The place whose key ends in `.b`.
    B,
}

impl Slot {
    /// Both, in order.
    pub const BOTH: [Slot; 2] = [Slot::A, Slot::B];

    /// 0 or 1.
    pub const fn index(self) -> usize {
        match self {
            Slot::A => 0,
            Slot::B => 1,
        }
    }

    /// The other place.
    pub const fn other(self) -> Slot {
        match self {
            Slot::A => Slot::B,
            Slot::B => Slot::A,
        }
    }

    const fn key(self) -> &'static str {
        match self {
            Slot::A => "a",
            Slot::B => "b",
        }
    }

    fn from_key(key: &str) -> Option<Slot> {
        Slot::BOTH.into_iter().find(|slot| slot.key() == key)
    }
}

/// The key of one of a document's two places.
pub fn slot_key(document: &DocumentId, slot: Slot) -> String {
    [PREFIX, &document.stem(), ".", slot.key()].concat()
}

/// Whose place a key is; `None` for texts set aside, for kinds this version does not know, and
/// for keys of other pages.
pub fn read_slot_key(key: &str) -> Option<(DocumentId, Slot)> {
    let (stem, slot) = key.strip_prefix(PREFIX)?.rsplit_once('.')?;
    Some((DocumentId::from_stem(stem)?, Slot::from_key(slot)?))
}

/// The key under which a text is set aside.
pub fn aside_key(number: u32, document: &DocumentId, slot: Slot) -> String {
    let digits = number.to_string();
    let zeros = "0".repeat(ASIDE_DIGITS.saturating_sub(digits.len()));
    [
        ASIDE,
        &zeros,
        &digits,
        ".",
        &document.stem(),
        ".",
        slot.key(),
    ]
    .concat()
}

/// What was set aside under a name of the archive; nothing where it is not such a name.
pub fn read_archive_aside(name: &str) -> Option<DocumentId> {
    let (moment, month) = name.strip_prefix(ARCHIVE_ASIDE)?.split_once('.')?;
    let counts = !moment.is_empty() && moment.bytes().all(|byte| byte.is_ascii_digit());
    counts.then(|| DocumentId::new(Kind::Record, month))
}

/// What the key of a text set aside says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsideKey {
    /// Counts up over everything set aside on this device.
    pub number: u32,
    /// Whose copy it was; `None` if this version does not know the kind.
    pub origin: Option<(DocumentId, Slot)>,
}

/// Reads the key of a text set aside; `None` if it is not one.
pub fn read_aside_key(key: &str) -> Option<AsideKey> {
    let (number, origin) = key.strip_prefix(ASIDE)?.split_once('.')?;
    let origin = origin
        .rsplit_once('.')
        .and_then(|(stem, slot)| Some((DocumentId::from_stem(stem)?, Slot::from_key(slot)?)));
    Some(AsideKey {
        number: number.parse().ok()?,
        origin,
    })
}
