//! Services by date and distance.

use crate::due::history::{Known, Last, known};
use crate::due::interval::Every;
use crate::due::soon::SOON;
use crate::due::text::{every_words, last_words};
use crate::due::{Done, Due, Now, Odometer, When};
use crate::rig::{InstrumentKind, Rig, ServiceKind};
use crate::rules::Verdict;
use crate::text::capital;
use crate::units::Quantity;

/// Every service of the rig. Gauges and wrenches that the file lists are told one by one
/// elsewhere.
pub(super) fn all(rig: &Rig, now: &Now, done: &[Done]) -> Vec<Due> {
    let kinds = ServiceKind::WORDS.into_iter().map(|(_, what)| what);
    kinds
        .filter(|what| {
            let tool = calibrated(*what);
            tool.is_none_or(|tool| rig.instruments.iter().all(|one| one.kind != tool))
        })
        .map(|what| {
            let Known { last, part } = known(rig, what, done);
            let every = Every::of(rig, what);
            of(what.name(), part, late(what), &every, last.as_ref(), now)
        })
        .collect()
}

/// The instrument a service calibrates.
pub(super) fn calibrated(what: ServiceKind) -> Option<InstrumentKind> {
    match what {
        ServiceKind::TorqueWrench => Some(InstrumentKind::TorqueWrench),
        ServiceKind::PressureGauge => Some(InstrumentKind::PressureGauge),
        _ => None,
    }
}

/// What being late means. A tool out of its date makes readings doubtful and a rig not weighed
/// makes limits so; all else is worn by then, unseen.
fn late(what: ServiceKind) -> Verdict {
    match what {
        ServiceKind::TorqueWrench | ServiceKind::PressureGauge | ServiceKind::Weighing => {
            Verdict::Note
        }
        _ => Verdict::Fix,
    }
}

/// One service, with what is known of its last time.
pub(super) fn of(
    what: String,
    of: Option<String>,
    late: Verdict,
    every: &Every,
    last: Option<&Last>,
    now: &Now,
) -> Due {
    let mut found = Found {
        when: When::default(),
        verdict: Verdict::Ok,
        late,
        why: vec![capital(&format!(
            "{}; {}",
            last_words(last, now.day),
            every_words(every)
        ))],
    };
    match last {
        None => found.at_least(Verdict::Note),
        Some(last) => {
            if last.on > now.day.date() {
                found.doubt("that day lies after today, so look at the entry and at the clock");
            }
            found.by_time(every, last, now);
            found.by_distance(every, last, now);
        }
    }
    Due {
        what,
        of,
        verdict: found.verdict,
        when: found.when,
        why: found.why.join(" "),
        basis: every.basis.clone(),
        way_out: None,
    }
}

/// What is being found of one service.
struct Found {
    when: When,
    verdict: Verdict,
    late: Verdict,
    why: Vec<String>,
}

impl Found {
    fn at_least(&mut self, verdict: Verdict) {
        self.verdict = self.verdict.max(verdict);
    }

    fn say(&mut self, what: &str) {
        self.why.push(format!("{}.", capital(what)));
    }

    fn doubt(&mut self, what: &str) {
        self.say(what);
        self.at_least(Verdict::Note);
    }

    fn by_time(&mut self, every: &Every, last: &Last, now: &Now) {
        let Some(date) = every.time.and_then(|span| span.after(last.on)) else {
            return;
        };
        let when = When::by(date, now.day);
        let left = when.days.unwrap_or_default();
        if left < 0 {
            self.at_least(self.late);
        } else if SOON.is_near(left, last.on, date) {
            self.at_least(Verdict::Note);
        }
        self.when = when;
    }

    fn by_distance(&mut self, every: &Every, last: &Last, now: &Now) {
        let Some(distance) = &every.distance else {
            return;
        };
        let at = last.odometer.as_ref().and_then(|then| then.plus(distance));
        let Some(at) = at else {
            return self.unmeasured("nothing says at what odometer, so its distance is not known");
        };
        self.when.odometer = Some(at.clone());
        match &now.odometer {
            None => self.unmeasured("the odometer is not known, so its distance is not looked at"),
            Some(Odometer::Today(read)) => {
                if last
                    .odometer
                    .as_ref()
                    .is_some_and(|then| is_less(read, then))
                {
                    return self.doubt(&format!(
                        "the odometer was read as {read}, less than then, so its distance is not \
                         looked at"
                    ));
                }
                self.held(&at, read, distance);
            }
            Some(furthest) => {
                self.held(&at, furthest.shown(), distance);
                self.say(&if now.day.is_past() {
                    format!("the furthest odometer written down by then is {furthest}")
                } else {
                    format!(
                        "the odometer was not told today, and the furthest written down is \
                         {furthest}"
                    )
                });
            }
        }
    }

    fn held(&mut self, at: &Quantity, odometer: &Quantity, distance: &Quantity) {
        let Some(left) = at.minus(odometer) else {
            return;
        };
        if left.value.is_negative() {
            self.at_least(self.late);
        } else if SOON.is_close(&left, distance) {
            self.at_least(Verdict::Note);
        }
        self.when.left = Some(left);
    }

    /// The distance cannot be looked at. Where no date stands beside it, nothing says when.
    fn unmeasured(&mut self, what: &str) {
        self.say(what);
        if self.when.date.is_none() {
            self.at_least(Verdict::Note);
        }
    }
}

fn is_less(one: &Quantity, other: &Quantity) -> bool {
    one.compare(other) == Some(std::cmp::Ordering::Less)
}
