//! `hames logbook assign`: a manager states who sees to a defect, and by when. One defect, one
//! signature.

use crate::cli::Status;
use crate::cli::args::AssignArgs;
use crate::cli::clerk::GivenOwner;
use crate::cli::logbook::closing::{id, words};
use crate::cli::logbook::manager::{Not, Sitting};
use crate::desk::earlier::owners;
use crate::record::{Owner, Says};
use crate::rules::Verdict;
use crate::text::ended;
use crate::walk::Words;
use std::slice;

/// What is given, as it was typed.
fn given(asked: &AssignArgs) -> Result<GivenOwner, Not> {
    // The arguments have one of them.
    let owner = match (&asked.owner, &asked.outside) {
        (_, Some(typed)) => Owner::Outside(short("--outside", typed)?),
        (typed, None) => Owner::Crew(id(typed.as_deref().unwrap_or_default())?),
    };
    Ok(GivenOwner {
        step: short("STEP", &asked.step)?,
        owner,
        by_day: asked.due,
        by_odometer: asked.due_at.clone(),
        words: asked.why.as_deref().map(words).transpose()?,
    })
}

/// A slip in what was typed is told before a passphrase is asked for.
pub(super) fn assign(sitting: &mut Sitting<'_>, asked: &AssignArgs) -> Result<Status, Not> {
    let given = given(asked)?;
    let trip = sitting.books.trip(&asked.trip)?;
    sitting.books.are_not_pruned(slice::from_ref(&trip))?;
    let meant = sitting.clerk.to_assign(&trip, &given)?;
    let (standing, today) = (&meant.standing, sitting.clerk.by(None));
    let (name, step) = (&standing.defect.found.name, &standing.defect.found.step);
    let talk = &mut sitting.talk;
    talk.head(&format!("{}: {name} ({step})", meant.rig))?;
    for line in standing.told() {
        talk.say(&format!("  {line}"))?;
    }
    for line in owners(&standing.defect, today) {
        let line = ended(&line);
        talk.say(&format!("  {line} What is signed now takes its place."))?;
    }
    let day = given.by_day.map(|day| format!("by {day}"));
    let at = given.by_odometer.as_ref().map(|at| format!("at {at}"));
    let due: Vec<String> = day.into_iter().chain(at).collect();
    talk.head(&match due.join(" or ") {
        due if due.is_empty() => format!("{} sees to it.", meant.owner),
        due => format!("{} sees to it, due {due}.", meant.owner),
    })?;
    talk.say(match standing.defect.found.verdict {
        Verdict::Note if due.is_empty() && standing.defect.is_overdue(today) => {
            "Until now it was overdue and kept the rig off the road. From now on it is a note without \
             a day: it warns and keeps no list back."
        }
        Verdict::Note if due.is_empty() => {
            "It is a note and has no day, so it warns and keeps no list back."
        }
        Verdict::Note => {
            "Once that is past, it keeps the rig off the road until it is read again and found well."
        }
        _ => "It keeps the rig off the road until it is read again and found well, whatever is signed.",
    })?;
    let what = format!(
        "to give {step} of trip {} of {} an owner",
        trip.1.seq, trip.0
    );
    let folder = sitting.sign((&what, Says::DEFECT_OWNED), |clerk, who| {
        clerk.assign(&meant, who)
    })?;
    sitting.signed(&format!("{} sees to it.", meant.owner), &folder)?;
    sitting.talk.say(
        "Other laptops know of it once they have merged this logbook: hames logbook merge FOLDER",
    )?;
    Ok(Status::Fine)
}

fn short(flag: &str, typed: &str) -> Result<Words, Not> {
    Words::read(typed).map_err(|fault| Not::usage(&format!("{flag}: {fault}.")))
}
