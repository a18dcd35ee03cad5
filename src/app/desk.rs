//! One reckoning on one page: the question as it is typed, its answer, and its doubt as it arrives.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::errands::{Errands, News};
use super::route::{Page, Place, put_in_address};
use super::stored::{Stored, stored};
use super::words;
use crate::keep::{LastQuestion, address};
use crate::measure::DecimalMark;
use crate::reckon::answer::Answer;
use crate::reckon::{Problem, Reckoning};

/// What a page of a reckoning works with.
pub struct Desk<R: Reckoning> {
    /// The question, to the letter.
    pub question: RwSignal<R::Question>,
    /// What stands between it and an answer, each at its field.
    pub problems: RwSignal<Vec<Problem>>,
    /// The answer; while there are problems, the last good one.
    pub answer: RwSignal<Option<Answer<R::Detail>>>,
    /// How much of the doubt is found, from 0 to 1, while it is being found.
    pub finding: RwSignal<Option<f64>>,
    /// The grower's own question, where a link has taken its place.
    pub before_link: RwSignal<Option<R::Question>>,
    opened: RwSignal<bool>,
    errands: StoredValue<Errands, LocalStorage>,
}

impl<R: Reckoning> Clone for Desk<R> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<R: Reckoning> Copy for Desk<R> {}

impl<R: Reckoning> Desk<R> {
    /// Opens the desk of a page with the question of the address, or as it was left.
    #[must_use]
    pub fn open(page: Page) -> Self {
        let desk = Self {
            question: RwSignal::new(R::Question::default()),
            problems: RwSignal::new(Vec::new()),
            answer: RwSignal::new(None),
            finding: RwSignal::new(None),
            before_link: RwSignal::new(None),
            opened: RwSignal::new(false),
            errands: expect_context(),
        };
        let stored = stored();
        let place = expect_context::<ReadSignal<Place>>();
        let address = RwSignal::new(String::new());
        spawn_local(async move {
            let last = stored.last_question::<R::Question>(R::NAME).await;
            desk.settle(place.get_untracked().question, last, address, stored);
        });
        Effect::new(move |_| {
            if desk.opened.get() {
                desk.reckon(page, address, stored);
            }
        });
        // A link followed while the page is open.
        Effect::new(move |opening: Option<()>| {
            let linked = place.get().question;
            if opening.is_some()
                && desk.opened.get_untracked()
                && !linked.is_empty()
                && linked != address.get_untracked()
            {
                let last = LastQuestion {
                    address: address.get_untracked(),
                    question: desk.question.get_untracked(),
                };
                desk.settle(linked, Some(last), address, stored);
            }
        });
        on_cleanup(move || {
            desk.errands.with_value(Errands::stop);
            stored.save_now();
        });
        desk
    }

    /// Chooses between the question of a link and the last one. The link that the last question
    /// itself made gives the last question, which may hold what no link carries.
    fn settle(
        self,
        linked: String,
        last: Option<LastQuestion<R::Question>>,
        address: RwSignal<String>,
        stored: Stored,
    ) {
        let from_link =
            if linked.is_empty() || last.as_ref().is_some_and(|last| last.address == linked) {
                None
            } else {
                let read = address::read::<R::Question>(&linked);
                if read.is_none() {
                    stored.tell(words::link_not_read());
                }
                read
            };
        match (from_link, last) {
            (Some(question), last) => {
                self.before_link.set(
                    last.map(|last| last.question)
                        .filter(|own| *own != question),
                );
                self.question.set(question);
            }
            (None, Some(last)) => {
                address.set(last.address);
                self.question.set(last.question);
            }
            (None, None) => {}
        }
        self.opened.set(true);
    }

    /// Reads the question, answers it, and sends for the doubt.
    fn reckon(self, page: Page, address: RwSignal<String>, stored: Stored) {
        let question = self.question.get();
        let mark = stored.settings().decimal;
        let checked = R::check(&question, mark);
        match checked.and_then(|case| R::answer(&case, None).map_err(|problem| vec![problem])) {
            Ok(answer) => {
                self.problems.set(Vec::new());
                self.answer.set(Some(answer));
                self.finding.set(Some(0.0));
                let asked = question.clone();
                let hear = move |news| match news {
                    News::Under(share) => self.finding.set(Some(share)),
                    News::Refused(sentence) => {
                        self.finding.set(None);
                        stored.tell(sentence);
                    }
                    News::Found(doubt) => {
                        self.finding.set(None);
                        if let Ok(case) = R::check(&asked, mark)
                            && let Ok(answer) = R::answer(&case, Some(&doubt))
                        {
                            self.answer.set(Some(answer));
                        }
                    }
                };
                self.errands
                    .with_value(|errands| errands.find::<R>(&question, mark, hear));
                if let Some(written) = address::write(&R::portable(&question, mark)) {
                    put_in_address(page, &written);
                    address.set(written);
                }
            }
            Err(problems) => {
                self.errands.with_value(Errands::stop);
                self.finding.set(None);
                // On opening, the last good question is the one that the address was made of.
                if self.answer.with_untracked(Option::is_none) {
                    self.answer
                        .set(Self::answered(&address.get_untracked(), mark));
                }
                self.problems.set(problems);
            }
        }
        let last = LastQuestion {
            address: address.get_untracked(),
            question,
        };
        stored.save_question(R::NAME, last);
    }

    /// The answer to the question of an address, without its doubt.
    fn answered(linked: &str, mark: DecimalMark) -> Option<Answer<R::Detail>> {
        let case = R::check(&address::read(linked)?, mark).ok()?;
        R::answer(&case, None).ok()
    }

    /// Whether the answer shown is of an earlier question.
    #[must_use]
    pub fn stale(self) -> bool {
        self.problems.with(|problems| !problems.is_empty())
    }

    /// Gives up finding the doubt.
    pub fn stop(self) {
        self.errands.with_value(Errands::stop);
        self.finding.set(None);
    }
}
