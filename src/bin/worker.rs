//! The reckonings off the main thread: listens for errands and answers them.
//!
//! Draws are taken a few at a time, with a turn of the event loop between, so that
//! an errand that has been overtaken or stopped is dropped at once.

use std::cell::RefCell;
use std::collections::VecDeque;
use std::rc::Rc;

use js_sys::Uint8Array;
use longtom::reckon::errand::{Errand, Reply, pack, unpack};
use longtom::reckon::register::{self, UnderWay};
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// How long draws are taken before listening again, ms.
const TURN_MS: f64 = 12.0;

struct Job {
    id: u32,
    reckoning: String,
    under_way: Box<dyn UnderWay>,
}

type Jobs = Rc<RefCell<VecDeque<Job>>>;

fn main() {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let jobs = Jobs::default();
    let listener = {
        let (scope, jobs) = (scope.clone(), Rc::clone(&jobs));
        Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let bytes = Uint8Array::new(&event.data()).to_vec();
            if let Some(errand) = unpack::<Errand>(&bytes) {
                take(&scope, &jobs, errand);
            }
        })
    };
    scope.set_onmessage(Some(listener.as_ref().unchecked_ref()));
    listener.forget();
    reply(&scope, &Reply::Ready);
}

fn reply(scope: &DedicatedWorkerGlobalScope, reply: &Reply) {
    let bytes = Uint8Array::from(pack(reply).as_slice());
    // A page that has gone away needs no reply.
    let _ = scope.post_message(&bytes);
}

fn take(scope: &DedicatedWorkerGlobalScope, jobs: &Jobs, errand: Errand) {
    match errand {
        Errand::Stop { id } => jobs.borrow_mut().retain(|job| job.id != id),
        Errand::Find {
            id,
            reckoning,
            question,
            mark,
            draws,
            seed,
        } => match register::begin(&reckoning, &question, mark, draws, seed) {
            Err(problem) => reply(
                scope,
                &Reply::Refused {
                    id,
                    sentence: problem.sentence,
                },
            ),
            Ok(under_way) => {
                let idle = {
                    let mut jobs = jobs.borrow_mut();
                    let idle = jobs.is_empty();
                    jobs.retain(|job| job.reckoning != reckoning);
                    jobs.push_back(Job {
                        id,
                        reckoning,
                        under_way,
                    });
                    idle
                };
                if idle {
                    next_turn(scope, jobs);
                }
            }
        },
    }
}

/// Takes draws for the foremost job after a turn of the event loop.
fn next_turn(scope: &DedicatedWorkerGlobalScope, jobs: &Jobs) {
    let turn = {
        let (scope, jobs) = (scope.clone(), Rc::clone(jobs));
        Closure::once_into_js(move || {
            let Some(mut job) = jobs.borrow_mut().pop_front() else {
                return;
            };
            match work(&scope, &mut job) {
                Ok(true) => reply(
                    &scope,
                    &Reply::Found {
                        id: job.id,
                        doubt: job.under_way.finish(),
                    },
                ),
                Ok(false) => {
                    let (done, wanted) = job.under_way.progress();
                    reply(
                        &scope,
                        &Reply::Under {
                            id: job.id,
                            done,
                            wanted,
                        },
                    );
                    jobs.borrow_mut().push_front(job);
                }
                Err(sentence) => reply(
                    &scope,
                    &Reply::Refused {
                        id: job.id,
                        sentence,
                    },
                ),
            }
            if !jobs.borrow().is_empty() {
                next_turn(&scope, &jobs);
            }
        })
    };
    // Without timers there are no turns to wait for, and nothing better to do.
    let _ = scope.set_timeout_with_callback(turn.unchecked_ref());
}

/// Takes draws until the turn is over; true when the job is done.
fn work(scope: &DedicatedWorkerGlobalScope, job: &mut Job) -> Result<bool, String> {
    const AT_A_TIME: u32 = 8;
    let now = || {
        scope
            .performance()
            .map_or(f64::INFINITY, |clock| clock.now())
    };
    let end = now() + TURN_MS;
    loop {
        if job
            .under_way
            .advance(AT_A_TIME)
            .map_err(|problem| problem.sentence)?
        {
            return Ok(true);
        }
        if now() >= end {
            return Ok(false);
        }
    }
}
