//! What always holds, however a day goes. The laws look at the disk as another process would, so
//! that what is about to befall the laptop does not befall them.

use super::barn::ROOT;
use crate::store::pretend::Pretend;
use hames::cli::clerk::{Books, Plans, TripRead};
use hames::logbook::order::{Order, OrderFault};
pub(crate) use hames::record::Finding;
use hames::record::{Id, StatementFault};
use hames::store::TripFolder;
use hames::walk::Walk;
use std::cell::RefCell;
use std::path::Path;

/// As well as a logbook gets that no manager has read.
pub(crate) const WELL: Finding = Finding::NotCountersigned;

/// A law is broken: the run ends here.
#[track_caller]
pub(crate) fn broken(how: &str) -> ! {
    panic!("a law is broken: {how}")
}

thread_local! {
    /// By their hashes: the laws read each list and rig once.
    static PLANS: RefCell<Plans> = RefCell::default();
}

/// The walk that a trip's journal tells.
pub(crate) fn fold(disk: &Pretend, device: &str, folder: &TripFolder) -> Walk {
    let books = Books::open(&disk.after_death(), Path::new(ROOT)).unwrap();
    let device = Id::read(device).unwrap();
    let read = PLANS.with_borrow_mut(|plans| books.read(&device, folder, plans).unwrap());
    read.walk()
        .unwrap_or_else(|trouble| broken(&trouble.to_string()))
}

/// What verification finds in the logbook on a disk: the gravest finding, and every sentence.
pub(crate) fn verified(disk: &Pretend) -> (Finding, Vec<String>) {
    let books = Books::open(&disk.after_death(), Path::new(ROOT)).unwrap();
    let trips = books.trips().unwrap().into_iter();
    let read: Vec<TripRead> = trips
        .map(|(device, folder)| {
            PLANS.with_borrow_mut(|plans| books.read(&device, &folder, plans).unwrap())
        })
        .collect();
    let statements = books.statements().unwrap();
    let mut order = Order::new(&statements);
    read.iter()
        .filter_map(TripRead::trip)
        .for_each(|trip| order.take(trip));
    let order = order.judge().faults;
    let gravest = read.iter().map(TripRead::finding);
    let stated = statements.faults().iter();
    let gravest = gravest.chain(stated.clone().map(StatementFault::finding));
    let gravest = gravest.chain(order.iter().map(OrderFault::finding)).max();
    let mut told: Vec<String> = read.iter().flat_map(TripRead::faults).collect();
    told.extend(order.iter().map(ToString::to_string));
    told.extend(stated.map(ToString::to_string));
    (gravest.unwrap_or(Finding::Intact), told)
}
