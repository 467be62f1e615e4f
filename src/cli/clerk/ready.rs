//! Whether a walk may begin: what can be known of that is told before anybody is asked for more.

use crate::checklist::{Checklist, Plan};
use crate::cli::clerk::before::WithoutEnd;
use crate::cli::clerk::founding::is_founded;
use crate::cli::clerk::history::Looked;
use crate::cli::clerk::paper::walked;
use crate::cli::clerk::signed_off::{Begins, currency, notices};
use crate::cli::clerk::stock::Offer;
use crate::cli::clerk::{Books, Clerk, Trouble};
use crate::desk::Reply;
use crate::record::{Statements, Wall};
use crate::rig::Rig;
use crate::rules::Carried;
use crate::store::{Device, Disk};
use crate::units::Quantity;

/// How many people are named before a walk begins.
const BOTH: usize = 2;

/// What a walk begins with, where neither rig nor list keeps it from beginning.
pub(super) struct Ready {
    pub(super) rig: Offer<Rig>,
    pub(super) checklist: Offer<Checklist>,
    pub(super) plan: Plan,
    pub(super) looked: Looked,
    /// What is to be known of defects that have an owner.
    pub(super) owned: Vec<String>,
    /// When it was walked, where it is entered from paper.
    pub(super) paper: Option<Wall>,
}

impl<D: Disk> Clerk<D> {
    /// Whether a walk of this list may begin, with whoever is named so far.
    pub(super) fn may_begin(
        &mut self,
        rig: &str,
        checklist: &str,
        people: &[String],
    ) -> Result<Reply, Trouble> {
        let walked = self.from_paper.clone();
        let ready = self.ready((rig, checklist), &walked, None)?;
        if !is_founded(&self.disk, &self.place.root)? {
            let notices = Vec::new();
            let questions = Vec::new();
            return Ok(Reply::MayBegin { notices, questions });
        }
        let books = self.books_in_force()?;
        if let Some(reader) = people.first() {
            self.is_crew(reader)?;
        }
        let name = books.device()?;
        if self.open.is_none() {
            // Another window that has it is told now, and not after the last question.
            drop(Device::take(&books.logbook, &name)?);
        }
        let statements = books.statements()?;
        books.may_begin(&name, &statements)?;
        let people: Vec<&str> = people.iter().map(String::as_str).collect();
        let mut notices = self.good_to_know(&books, &statements, &ready, &people)?;
        let put = books.questions_for(&statements, &people, &mut self.history.plans)?;
        let older = put.told();
        let mut questions = put.newest;
        if people.len() < BOTH {
            // It is answered once it is known who reads and who does.
            notices.extend(questions.drain(..).map(|put| put.told()));
        }
        notices.extend(older);
        Ok(Reply::MayBegin { notices, questions })
    }

    /// The list laid on the rig, with what earlier walks left.
    pub(super) fn ready(
        &mut self,
        (rig, checklist): (&str, &str),
        on_paper: &str,
        odometer: Option<&Quantity>,
    ) -> Result<Ready, Trouble> {
        let missing = |what, id| Trouble::Said(format!("There is no {what} “{id}” here."));
        let (offered, list) = (self.stock.rig(rig), self.stock.checklist(checklist));
        let rig = offered.cloned().ok_or_else(|| missing("rig", rig))?;
        let checklist = list.ok_or_else(|| missing("checklist", checklist))?;
        let paper = walked(on_paper, &self.world.now())?;
        let looked = self.look_back(&rig.read.id, paper)?;
        let plan = lay(&checklist, &rig, looked.standing.carried())?;
        let mut owned = Vec::new();
        if paper.is_none() {
            self.is_not_barred(&plan, &looked, odometer)?;
            owned = self.owned(&plan, &looked, odometer);
        }
        Ok(Ready {
            rig,
            checklist,
            plan,
            looked,
            owned,
            paper,
        })
    }

    /// What bars nothing, and is good to know before a walk begins.
    pub(super) fn good_to_know(
        &mut self,
        books: &Books<D>,
        statements: &Statements,
        ready: &Ready,
        people: &[&str],
    ) -> Result<Vec<String>, Trouble> {
        let (rig, list) = (&ready.rig.read, &ready.checklist.read);
        let begins = Begins {
            rig: (&rig.id, &rig.name),
            kind: rig.hitch.kind(),
            checklist: (&list.id, &list.title),
            revision: list.revision,
        };
        let mut told = ready.owned.clone();
        told.extend(notices(books, statements.roster(), people, &begins));
        let today = self.world.now().wall.date_naive();
        let walked = &ready.looked.standing.walked;
        told.extend(currency(people, (walked, today), &begins));
        let left = books.left_without_end(&books.device()?, &mut self.history.plans)?;
        told.extend(left.iter().map(WithoutEnd::notice));
        if let [reader, doer] = people {
            told.extend(self.neither_can_sign([reader, doer]));
        }
        Ok(told)
    }
}

/// The checklist laid on the rig, with what earlier walks left open.
fn lay(
    checklist: &Offer<Checklist>,
    rig: &Offer<Rig>,
    carried: Vec<Carried>,
) -> Result<Plan, Trouble> {
    Plan::lay_for(checklist.read.clone(), rig.read.clone(), carried).map_err(|gaps| {
        let gaps: Vec<String> = gaps.iter().map(ToString::to_string).collect();
        Trouble::Said(format!(
            "This checklist does not fit this rig:\n{}",
            gaps.join("\n")
        ))
    })
}
