//! Signing: what is stated, by whom, and the receipt.

mod update;
mod view;

pub(super) use update::{act, found};
pub(super) use view::body;

use crate::barn::Call;
use crate::desk::{Approval, DRILL, KeyLies, Sealed};
use crate::drill::Run;
use crate::record::Mode;
use crate::tui::Context;
use crate::tui::field::Field;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::Walking;
use crate::walk::{Moment, Walk};

/// An ended walk being signed.
#[derive(Clone, Debug)]
pub(super) struct Sealing {
    pub(super) walk: Walk,
    pub(super) trip: String,
    pub(super) mode: Mode,
    pub(super) is_drill: bool,
    pub(super) standing: Approval,
    /// Whom the barn wants called when something is not clear.
    pub(super) call: Option<Call>,
    /// Who signs.
    pub(super) signer: Option<Signs>,
    /// The passphrase, or the yes to a key that the agent holds.
    pub(super) typed: Field,
    /// What was signed, and when.
    pub(super) sealed: Option<(Sealed, Moment)>,
    pub(super) scroll: usize,
    /// The check ride it is, which the examiner signs after whoever rode it.
    ride: Option<Box<Ride>>,
}

/// A check ride being signed.
#[derive(Clone, Debug)]
struct Ride {
    run: Run,
    /// Whether whoever rode it has signed.
    is_signed: bool,
}

/// Who signs, and where their key lies.
#[derive(Clone, Debug)]
pub(super) struct Signs {
    pub(super) id: String,
    pub(super) name: String,
    pub(super) lies: KeyLies,
}

impl Ride {
    fn of(walking: &Walking) -> Option<Self> {
        let drilling = walking.drill.as_deref()?;
        drilling.run.examiner()?;
        Some(Self {
            run: drilling.run.clone(),
            is_signed: drilling.is_signed,
        })
    }
}

impl Sealing {
    pub(super) fn new(walking: &Walking) -> Self {
        Self {
            walk: walking.walk.clone(),
            trip: walking.trip.clone(),
            mode: walking.mode,
            is_drill: walking.drill.is_some(),
            standing: walking.standing.clone(),
            call: walking.barn.call.clone(),
            signer: None,
            typed: Field::default(),
            sealed: None,
            scroll: 0,
            ride: Ride::of(walking).map(Box::new),
        }
    }

    /// What its record is opened by.
    fn named(&self) -> String {
        if self.is_drill {
            format!("{DRILL}{}", self.trip)
        } else {
            self.trip.clone()
        }
    }

    pub(super) fn context(&self) -> Context {
        match (&self.sealed, &self.signer) {
            (Some(_), _) => Context::Sealed,
            (None, Some(_)) => Context::Passphrase,
            (None, None) => Context::Signer,
        }
    }

    /// Takes in a signature. Of a check ride it may be the first of two, which is said.
    pub(super) fn sealed(&mut self, sealed: Sealed, now: Moment) -> Option<String> {
        self.scroll = 0;
        if let Some(ride) = self.ride.as_mut().filter(|ride| !ride.is_signed) {
            ride.is_signed = true;
            self.signer = None;
            let examiner = ride.run.examiner()?;
            return Some(format!(
                "Signed by {}. {examiner} signs next, who examined; then it is told how it went.",
                sealed.signed_by
            ));
        }
        self.sealed = Some((sealed, now));
        None
    }

    /// How a check ride went, once both have signed it.
    fn ridden(&self) -> Vec<String> {
        let Some(ride) = &self.ride else {
            return Vec::new();
        };
        let mut told = ride.run.debrief();
        let passed = ride.run.is_passed() == Some(true);
        told.push(if passed {
            format!(
                "Passed. A manager puts it into the roster by: hames crew sign-off ID --check-ride {}",
                self.trip
            )
        } else {
            format!("Not passed. {}", ride.run.grading().pass_rule())
        });
        told
    }

    pub(super) fn paste(&mut self, text: &str) {
        if self.context() == Context::Passphrase {
            self.typed.paste(text);
        }
    }

    /// Rig, checklist, and as what the walk ended.
    pub(super) fn heading(&self) -> Vec<(Ink, String)> {
        let plan = self.walk.plan();
        let mark = self.standing.before_a_line();
        let list = plan.checklist();
        let first = format!(
            "{mark}{}  {}, revision {}",
            plan.rig().name,
            list.title,
            list.revision
        );
        let ended = self
            .walk
            .ended()
            .map_or("", |outcome| outcome.word())
            .replace('-', " ");
        let sealed = if self.sealed.is_some() {
            "signed"
        } else {
            "not signed yet"
        };
        vec![
            (Ink::Strong, escaped(&first)),
            (Ink::Body, format!("Ended as {ended}, {sealed}")),
        ]
    }
}
