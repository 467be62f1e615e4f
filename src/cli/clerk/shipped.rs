//! The checklists that come with the program, put together by what a barn chose.

use crate::barn::Policies;
use crate::checklist::{SHIPPED, Shipped, Together};
use std::thread::{self, ScopedJoinHandle};

/// All of them, in their order. They take most of the time until the first screen, so each is put
/// together on a thread of its own.
pub(in crate::cli) fn shipped_for(policies: &Policies) -> Vec<Together> {
    let put = |shipped: Shipped| {
        if policies.are_default() {
            shipped.by_default().cloned()
        } else {
            shipped.together(policies)
        }
    };
    thread::scope(|scope| {
        let put = SHIPPED.map(|shipped| scope.spawn(move || put(shipped)));
        let put = put.into_iter().map(ScopedJoinHandle::join);
        put.filter_map(|put| put.ok().flatten()).collect()
    })
}
