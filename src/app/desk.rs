//! One reckoning on one page: the question as it is typed, its answer, and its doubt as it arrives.

use std::cell::Cell;
use std::rc::Rc;

use leptos::prelude::*;

use super::calendar::by_the_calendar;
use super::errands::{Errands, News};
use super::live::{a_moment_after, keep, meanwhile};
use super::route::{Page, Place, put_in_address};
use super::stored::{Stored, stored};
use super::words;
use crate::keep::{LastQuestion, address};
use crate::measure::DecimalMark;
use crate::reckon::answer::Answer;
use crate::reckon::doubt::Doubt;
use crate::reckon::form::{make_portable, put, texts};
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
    /// The question as the address is to have it.
    to_address: RwSignal<Option<String>>,
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
            question: RwSignal::new(R::not_yet_asked(by_the_calendar())),
            problems: RwSignal::new(Vec::new()),
            answer: RwSignal::new(None),
            finding: RwSignal::new(None),
            before_link: RwSignal::new(None),
            to_address: RwSignal::new(None),
            opened: RwSignal::new(false),
            errands: expect_context(),
        };
        let stored = stored();
        let place = expect_context::<ReadSignal<Place>>();
        let address = RwSignal::new(String::new());
        meanwhile(async move {
            let last = stored.last_question(R::NAME).await;
            desk.settle(place.get_untracked().question, last, address, stored);
        });
        keep(move || {
            if desk.opened.get() {
                desk.reckon(address, stored);
            }
        });
        // A browser takes its time over the address, and the answer should not wait for it.
        let answered = a_moment_after(move || desk.to_address.track());
        keep(move || {
            answered.over.track();
            if let Some(written) = desk.to_address.get_untracked()
                && put_in_address(page, &written)
            {
                address.set(written.clone());
                desk.save(written, stored);
            }
        });
        // A link followed while the page is open; the one it was opened with is settled above.
        let opening = Cell::new(true);
        keep(move || {
            let linked = place.get().question;
            if !opening.replace(false)
                && desk.opened.get_untracked()
                && !linked.is_empty()
                && linked != address.get_untracked()
            {
                let last = LastQuestion {
                    address: address.get_untracked(),
                    question: texts(&mut desk.question.get_untracked()),
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
        last: Option<LastQuestion>,
        address: RwSignal<String>,
        stored: Stored,
    ) {
        let from_link =
            if linked.is_empty() || last.as_ref().is_some_and(|last| last.address == linked) {
                None
            } else {
                let read = Self::read(&linked);
                if read.is_none() {
                    stored.tell(words::link_not_read());
                }
                read
            };
        let own = last.map(|last| {
            let mut question = R::Question::default();
            put(&mut question, &last.question);
            (last.address, question)
        });
        match (from_link, own) {
            (Some(question), own) => {
                self.before_link
                    .set(own.map(|(_, own)| own).filter(|own| *own != question));
                self.question.set(question);
            }
            (None, Some((own_address, question))) => {
                address.set(own_address);
                self.question.set(question);
            }
            (None, None) => {}
        }
        self.opened.set(true);
    }

    /// The question of an address.
    fn read(linked: &str) -> Option<R::Question> {
        let mut question = R::Question::default();
        put(&mut question, &address::read(linked)?).then_some(question)
    }

    /// Reads the question, answers it, and sends for the doubt.
    fn reckon(self, address: RwSignal<String>, stored: Stored) {
        let mut question = self.question.get();
        let mark = stored.settings().decimal;
        let as_typed = texts(&mut question);
        match Self::answered(&question, mark, None) {
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
                        if let Ok(answer) = Self::answered(&asked, mark, Some(&doubt)) {
                            self.answer.set(Some(answer));
                        }
                    }
                };
                self.errands.with_value(|errands| {
                    errands.find::<R>(as_typed, mark, Rc::new(hear));
                });
                make_portable(&mut question, mark);
                self.to_address
                    .set(Some(address::write(&texts(&mut question))));
            }
            Err(problems) => {
                self.errands.with_value(Errands::stop);
                self.finding.set(None);
                // On opening, the last good question is the one that the address was made of.
                if self.answer.with_untracked(Option::is_none) {
                    let last_good = Self::read(&address.get_untracked());
                    self.answer
                        .set(last_good.and_then(|good| Self::answered(&good, mark, None).ok()));
                }
                self.problems.set(problems);
            }
        }
        self.save(address.get_untracked(), stored);
    }

    /// Keeps the question with the address that was made of it, or of the one before it.
    fn save(self, address: String, stored: Stored) {
        let question = texts(&mut self.question.get_untracked());
        stored.save_question(R::NAME, LastQuestion { address, question });
    }

    /// The answer to a question, with its doubt where that is known.
    fn answered(
        question: &R::Question,
        mark: DecimalMark,
        doubt: Option<&Doubt>,
    ) -> Result<Answer<R::Detail>, Vec<Problem>> {
        let case = R::check(question, mark)?;
        R::answer(&case, doubt).map_err(|problem| vec![problem])
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
