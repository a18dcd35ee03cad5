//! The other thread that finds the doubt of an answer, and how to do without it.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use js_sys::Uint8Array;
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::measure::DecimalMark;
use crate::reckon::doubt::{DRAWS, Doubt, SEED};
use crate::reckon::errand::{Errand, Reply, pack, unpack};
use crate::reckon::form::Texts;
use crate::reckon::register::{self, UnderWay};
use crate::reckon::{Problem, Reckoning};

/// News of an errand.
#[derive(Clone, Debug)]
pub enum News {
    /// So much of it is done, from 0 to 1.
    Under(f64),
    /// It is done.
    Found(Doubt),
    /// It cannot be done, for this reason.
    Refused(String),
}

/// Begins the work on a question of one reckoning on this thread.
type Begin = fn(&Texts, DecimalMark, u32, u64) -> Result<Box<dyn UnderWay>, Problem>;

/// An errand that is out.
#[derive(Clone)]
struct Out {
    id: u32,
    listener: Rc<dyn Fn(News)>,
    /// What to do here, should the other thread fail.
    begin: Begin,
    question: Texts,
    mark: DecimalMark,
}

enum Helper {
    /// Not started yet.
    Asleep,
    /// Started, and not yet heard from; what is sent to it meanwhile.
    Starting(Vec<Errand>),
    /// Listening.
    Ready,
    /// Not to be had in this browser: the page does the work itself, a little at a time.
    None,
}

struct Inner {
    worker: Option<Worker>,
    helper: Helper,
    last_id: u32,
    /// The errand that is out, if any; a new one replaces it.
    out: Option<Out>,
}

/// The way to the other thread; copies share it.
#[derive(Clone)]
pub struct Errands(Rc<RefCell<Inner>>);

impl Errands {
    /// The other thread is started by [`wake`](Self::wake), or else by the first errand.
    #[must_use]
    pub fn asleep() -> Self {
        Self(Rc::new(RefCell::new(Inner {
            worker: None,
            helper: Helper::Asleep,
            last_id: 0,
            out: None,
        })))
    }

    /// Starts the other thread, if it is not started yet.
    pub fn wake(&self) {
        if !matches!(self.0.borrow().helper, Helper::Asleep) {
            return;
        }
        let worker = start_worker();
        let helper = if worker.is_some() {
            Helper::Starting(Vec::new())
        } else {
            Helper::None
        };
        {
            let mut inner = self.0.borrow_mut();
            inner.worker = worker;
            inner.helper = helper;
        }
        self.listen();
    }

    fn listen(&self) {
        let inner = self.0.borrow();
        let Some(worker) = &inner.worker else { return };
        let heard = {
            let errands = self.clone();
            Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
                match event.data().dyn_into::<Uint8Array>() {
                    Ok(bytes) => {
                        if let Some(reply) = unpack::<Reply>(&bytes.to_vec()) {
                            errands.hear(reply);
                        }
                    }
                    // Its starter says in words that it could not start.
                    Err(_) => errands.do_without(),
                }
            })
        };
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        let failed = {
            let errands = self.clone();
            Closure::<dyn FnMut(web_sys::Event)>::new(move |_| errands.do_without())
        };
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        // Both live as long as the page.
        heard.forget();
        failed.forget();
    }

    /// Sends for the doubt of a question; the last errand, if still out, is given up.
    pub fn find<R: Reckoning>(
        &self,
        question: Texts,
        mark: DecimalMark,
        listener: Rc<dyn Fn(News)>,
    ) {
        self.send_for(R::NAME, register::begin_as::<R>, question, mark, listener);
    }

    fn send_for(
        &self,
        reckoning: &'static str,
        begin: Begin,
        question: Texts,
        mark: DecimalMark,
        listener: Rc<dyn Fn(News)>,
    ) {
        self.stop();
        let id = {
            let mut inner = self.0.borrow_mut();
            inner.last_id = inner.last_id.wrapping_add(1);
            inner.out = Some(Out {
                id: inner.last_id,
                listener,
                begin,
                question: question.clone(),
                mark,
            });
            inner.last_id
        };
        self.send(Errand::Find {
            id,
            reckoning: reckoning.to_owned(),
            question,
            mark,
            draws: DRAWS,
            seed: SEED,
        });
    }

    /// Gives up the errand that is out.
    pub fn stop(&self) {
        let out = self.0.borrow_mut().out.take();
        if let Some(out) = out {
            self.send(Errand::Stop { id: out.id });
        }
    }

    fn send(&self, errand: Errand) {
        self.wake();
        let mut inner = self.0.borrow_mut();
        match &mut inner.helper {
            Helper::Starting(waiting) => waiting.push(errand),
            Helper::Ready => {
                if let Some(worker) = &inner.worker {
                    post(worker, &errand);
                }
            }
            Helper::Asleep | Helper::None => {
                drop(inner);
                self.do_here();
            }
        }
    }

    fn hear(&self, reply: Reply) {
        match reply {
            Reply::Ready => {
                let mut inner = self.0.borrow_mut();
                if let Helper::Starting(waiting) =
                    std::mem::replace(&mut inner.helper, Helper::Ready)
                    && let Some(worker) = &inner.worker
                {
                    waiting.iter().for_each(|errand| post(worker, errand));
                }
            }
            Reply::Under { id, done, wanted } => {
                self.tell(id, News::Under(f64::from(done) / f64::from(wanted.max(1))))
            }
            Reply::Found { id, doubt } => self.tell(id, News::Found(doubt)),
            Reply::Refused { id, sentence } => self.tell(id, News::Refused(sentence)),
        }
    }

    /// Tells whoever sent the errand, unless it has been given up.
    fn tell(&self, id: u32, news: News) {
        let out = self.0.borrow().out.clone().filter(|out| out.id == id);
        if let Some(out) = out {
            if !matches!(news, News::Under(_)) {
                self.0.borrow_mut().out = None;
            }
            (out.listener)(news);
        }
    }

    /// The other thread has failed: the errand that is out is done here.
    fn do_without(&self) {
        let worker = {
            let mut inner = self.0.borrow_mut();
            inner.helper = Helper::None;
            inner.worker.take()
        };
        if let Some(worker) = worker {
            worker.terminate();
            self.do_here();
        }
    }

    fn do_here(&self) {
        let Some(out) = self.0.borrow().out.clone() else {
            return;
        };
        match (out.begin)(&out.question, out.mark, DRAWS, SEED) {
            Ok(under_way) => self.turn_here(out.id, under_way),
            Err(problem) => self.tell(out.id, News::Refused(problem.sentence)),
        }
    }

    /// A few draws, then a turn for the page, until done or given up.
    fn turn_here(&self, id: u32, mut under_way: Box<dyn UnderWay>) {
        const AT_A_TIME: u32 = 20;
        let errands = self.clone();
        set_timeout(
            move || {
                if errands
                    .0
                    .borrow()
                    .out
                    .as_ref()
                    .is_none_or(|out| out.id != id)
                {
                    return;
                }
                match under_way.advance(AT_A_TIME) {
                    Ok(true) => errands.tell(id, News::Found(under_way.finish())),
                    Ok(false) => errands.turn_here(id, under_way),
                    Err(problem) => errands.tell(id, News::Refused(problem.sentence)),
                }
            },
            Duration::ZERO,
        );
    }
}

/// The address of the worker stands in the page, since its name carries its content.
fn start_worker() -> Option<Worker> {
    let address = document()
        .document_element()?
        .get_attribute("data-worker")?;
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    Worker::new_with_options(&address, &options).ok()
}

fn post(worker: &Worker, errand: &Errand) {
    let bytes = Uint8Array::from(pack(errand).as_slice());
    // A worker that cannot be reached says so by its error event.
    let _ = worker.post_message(&bytes);
}
