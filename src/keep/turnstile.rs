//! Lets one through at a time, in the order of asking.
//!
//! Two saves of one document that overlap would each look at what is stored, and both would then
//! write over the same copy. The second therefore waits until the first has gone through.

use std::cell::RefCell;
use std::collections::VecDeque;
use std::future::poll_fn;
use std::rc::Rc;
use std::task::{Poll, Waker};

/// The queue; the one at its front is let through.
#[derive(Clone, Default)]
pub struct Turnstile {
    queue: Rc<RefCell<Queue>>,
}

#[derive(Default)]
struct Queue {
    next: u64,
    waiting: VecDeque<(u64, Option<Waker>)>,
}

/// A place in the queue, taken when it is asked for and given up when it is dropped.
pub struct Ticket {
    queue: Rc<RefCell<Queue>>,
    number: u64,
}

impl Turnstile {
    /// Takes the place behind everybody who has asked before.
    pub fn ticket(&self) -> Ticket {
        let mut queue = self.queue.borrow_mut();
        let number = queue.next;
        queue.next += 1;
        queue.waiting.push_back((number, None));
        Ticket {
            queue: Rc::clone(&self.queue),
            number,
        }
    }
}

impl Ticket {
    /// Waits until this is the front of the queue. Everybody behind waits until the ticket is
    /// dropped.
    pub async fn front(&self) {
        poll_fn(|context| {
            let mut queue = self.queue.borrow_mut();
            let front = queue.waiting.front().map(|(number, _)| *number);
            let mine = queue
                .waiting
                .iter_mut()
                .find(|(number, _)| *number == self.number);
            match mine {
                Some((number, waker)) if front != Some(*number) => {
                    *waker = Some(context.waker().clone());
                    Poll::Pending
                }
                _ => Poll::Ready(()),
            }
        })
        .await;
    }
}

impl Drop for Ticket {
    fn drop(&mut self) {
        let next = {
            let mut queue = self.queue.borrow_mut();
            queue.waiting.retain(|(number, _)| *number != self.number);
            queue
                .waiting
                .front_mut()
                .and_then(|(_, waker)| waker.take())
        };
        // The queue is no longer borrowed: whoever is woken may look at it at once.
        if let Some(waker) = next {
            waker.wake();
        }
    }
}
