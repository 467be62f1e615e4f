//! The clerk with a clock that was set and a laptop that slept: it tells, and work goes on.

use crate::clerk::copy;
use crate::harness::good;
use chrono::{DateTime, TimeDelta};
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{Errand, Reply};
use hames::record::Mode;
use hames::store::Disk;
use hames::walk::{Act, Moment, Walk};
use hames::world::{Machine, NoRandomness, World};
use std::cell::Cell;
use std::rc::Rc;

/// This machine with another clock, and sleep as told.
#[derive(Clone, Debug)]
struct Odd {
    machine: Machine,
    ahead: TimeDelta,
    boot: &'static str,
    slept_ms: Rc<Cell<u64>>,
}

impl Odd {
    fn ahead(ahead: TimeDelta) -> Self {
        Self {
            machine: Machine::this(),
            ahead,
            boot: "another start",
            slept_ms: Rc::default(),
        }
    }
}

impl World for Odd {
    fn now(&self) -> Moment {
        let now = self.machine.now();
        Moment {
            wall: now.wall + self.ahead,
            boot: self.boot.to_owned(),
            ..now
        }
    }

    fn slept_ms(&self) -> u64 {
        self.slept_ms.get()
    }

    fn fill(&self, bytes: &mut [u8]) -> Result<(), NoRandomness> {
        self.machine.fill(bytes)
    }
}

fn clerk<D: Disk>(disk: D, world: Odd) -> Clerk<D> {
    let place = Place {
        root: "/demo".into(),
        mode: Mode::Demo,
    };
    Clerk::new(disk, world, place, Stock::demo())
}

fn notices<D: Disk>(clerk: &mut Clerk<D>) -> Vec<String> {
    match clerk.perform(Errand::LookAround) {
        Reply::Barn(barn) => barn.notices,
        other => panic!("{other:?}"),
    }
}

fn begin<D: Disk>(clerk: &mut Clerk<D>) -> Walk {
    let reply = clerk.perform(Errand::Begin {
        rig: "juniper".into(),
        checklist: "hitch-bumper".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: String::new(),
        walked: String::new(),
        answers: Vec::new(),
    });
    match reply {
        Reply::Walking { walk, .. } => *walk,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_clock_that_does_not_go_with_the_records_is_told_before_a_walk_and_the_walk_begins() {
    let about_clock = |ahead| {
        let mut clerk = clerk(copy(), Odd::ahead(ahead));
        let told = notices(&mut clerk);
        begin(&mut clerk);
        let mut told = told.into_iter().filter(|told| told.contains("clock"));
        told.next()
    };
    assert_eq!(about_clock(TimeDelta::zero()), None);
    let behind = about_clock(TimeDelta::days(-3)).unwrap();
    assert!(
        behind.contains("and the newest record here is of"),
        "{behind}"
    );
    let epoch = DateTime::UNIX_EPOCH.fixed_offset() - Machine::this().now().wall;
    assert!(
        about_clock(epoch)
            .unwrap()
            .contains("clock shows 1970-01-01")
    );
    let ahead = about_clock(TimeDelta::days(400)).unwrap();
    assert!(ahead.contains("its clock is wrong"), "{ahead}");
}

#[test]
fn a_laptop_that_slept_between_two_acts_is_told_and_no_line_is_written_for_it() {
    let world = Odd::ahead(TimeDelta::zero());
    let mut clerk = clerk(copy(), world.clone());
    let mut walk = begin(&mut clerk);
    let mut lines = 0;
    let mut record = |act: Act, walk: &mut Walk| match clerk.perform(Errand::Record(act)) {
        Reply::Recorded(entry) => {
            walk.apply(&entry);
            lines += 1;
        }
        other => panic!("{other:?}"),
    };
    record(Act::Open, &mut walk);
    world.slept_ms.set(20 * 60_000);
    let asked = walk.asked(0).unwrap().into_owned();
    let good = good::good(walk.plan(), &asked, "Odile Marsh");
    record(good.act().clone(), &mut walk);
    record(Act::Open, &mut walk);
    assert_eq!(lines, 3);
    let told = notices(&mut clerk);
    let slept: Vec<&String> = told.iter().filter(|told| told.contains("slept")).collect();
    assert_eq!(slept.len(), 1, "{told:?}");
    assert!(slept[0].starts_with("The laptop slept for 20 min in the midst of trip 000002-"));
    assert!(
        !notices(&mut clerk)
            .iter()
            .any(|told| told.contains("slept"))
    );
}
