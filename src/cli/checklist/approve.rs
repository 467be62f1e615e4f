//! `hames checklist approve`: the manager reads what changed, then signs the list as it is.

use crate::checklist::{Severity, changes, lint};
use crate::cli::Status;
use crate::cli::checklist::{Desk, Not, compare};
use crate::cli::clerk::one_manager;
use crate::cli::plan::{Look, Named};
use crate::cli::sitting::options;
use crate::desk::Approval;
use crate::plain::{Stop, Talk};
use crate::record::{Approved, Mode};
use std::io::{self, Write};

const NO_FOLDER: &str = "There is no logbook to keep the approval in. Name one with --logbook DIR.";

pub(super) fn approve(
    desk: &Desk,
    wanted: &Named,
    by: Option<&str>,
    look: Look,
    out: &mut dyn Write,
) -> Result<Status, Not> {
    let offer = desk.found(wanted)?;
    let list = &offer.read;
    let name = format!("{}, revision {}", list.title, list.revision);
    match desk.standing(&offer) {
        Approval::Unapproved => {}
        stands => {
            writeln!(out, "{name}, needs no approval: it stands {stands}.")?;
            return Ok(Status::Fine);
        }
    }
    let found = lint(&offer.text);
    let unfit = found.iter().filter(|one| one.severity() == Severity::Error);
    if unfit.clone().count() > 0 {
        writeln!(
            out,
            "Not approved: the linter finds it unfit for use. Put together, it says:"
        )?;
        for finding in unfit {
            writeln!(out, "  {finding}")?;
        }
        return Ok(Status::Findings);
    }
    let clerk = desk
        .clerk
        .as_ref()
        .ok_or_else(|| Not::Meant(NO_FOLDER.to_owned()))?;
    let manager = one_manager(&clerk.managers()?, by).map_err(Not::Meant)?;
    if let Some(before) = desk.before(&list.id) {
        let against = compare::against(&before.checklist, &before.standing);
        writeln!(out, "{against}")?;
        compare::report(&changes(&before.checklist, list), out)?;
    } else {
        let steps = list.steps().count();
        writeln!(
            out,
            "{name}, is new here: {steps} steps. Read it whole before you sign it."
        )?;
    }
    let input = io::stdin();
    let mut input = input.lock();
    let mut talk = Talk::new(&mut input, out, options(look, false));
    let mode = clerk.mode();
    if mode == Mode::Demo {
        "DEMO".clone_into(&mut talk.mark);
    }
    talk.head(&format!(
        "Whoever signs states this: {}",
        Approved::meaning()
    ))?;
    let what = format!(", to approve {name}");
    let who = (manager.name.as_str(), what.as_str());
    let asked = talk.consent(clerk.key_lies(&manager)?, who, mode);
    let consent = match asked {
        Ok(Ok(consent)) => consent,
        Ok(Err(sentence)) => return Err(not(&sentence)),
        Err(Stop::Broken(error)) => return Err(error.into()),
        Err(Stop::Left | Stop::InputEnded | Stop::DiskFailed) => {
            return Err(not("The input has ended."));
        }
    };
    clerk
        .opens(&manager, &consent)
        .map_err(|trouble| not(&trouble.to_string()))?;
    let (approval, folder) = clerk.approve(&offer, &manager, &consent)?;
    talk.head(&format!("{name}: {approval}."))?;
    talk.say(&format!("Kept in {}", folder.path.display()))?;
    Ok(Status::Fine)
}

fn not(why: &str) -> Not {
    Not::Meant(format!("{why} Not approved."))
}
