//! `hames logbook prune`: what goes is listed first; then a word, a signature, and only then are
//! files removed.

use crate::cli::Status;
use crate::cli::clerk::{Clerk, Pruning, Which};
use crate::cli::logbook::closing::words;
use crate::cli::logbook::manager::{Not, Sitting};
use crate::plain::Talk;
use crate::record::{Id, Says};
use crate::store::{Local, TripFolder};
use crate::walk::Words;
use chrono::NaiveDate;

/// What is asked to be pruned, as typed.
pub(super) struct Asked<'a> {
    pub(super) trips: Vec<(Id, TripFolder)>,
    pub(super) before: Option<&'a str>,
    pub(super) why: Option<&'a str>,
    pub(super) even_so: bool,
}

pub(super) fn prune(sitting: &mut Sitting<'_>, asked: Asked<'_>) -> Result<Status, Not> {
    let which = match asked.before {
        None => Which::Named(asked.trips),
        Some(day) => Which::Before(day_of(day, sitting.clerk.today())?),
    };
    let why = asked.why.ok_or_else(|| {
        Not::usage("Say why they go, with --why \"…\". It stays in the logbook for good.")
    })?;
    let why = words(why)?;
    finish(&sitting.clerk, &mut sitting.talk)?;
    let pruning = sitting.clerk.to_prune(&which, asked.even_so)?;
    list(sitting, &pruning)?;
    if pruning.goes.is_empty() {
        return Ok(if pruning.stays.is_empty() {
            Status::Fine
        } else {
            Status::Findings
        });
    }
    sign(sitting, &pruning, &why)?;
    let removed = sitting.clerk.remove_pruned()?;
    sitting.talk.say(&format!("{} removed.", trips(removed)))?;
    Ok(Status::Fine)
}

/// Removes what an earlier run, or another laptop's statement, has left to remove.
pub(super) fn finish(clerk: &Clerk<Local>, talk: &mut Talk<'_>) -> Result<(), Not> {
    let removed = clerk.remove_pruned()?;
    if removed > 0 {
        let trips = trips(removed);
        let told = format!("{trips} that managers have pruned already lay here still; removed.");
        talk.say(&told)?;
    }
    Ok(())
}

fn list(sitting: &mut Sitting<'_>, pruning: &Pruning) -> Result<(), Not> {
    let talk = &mut sitting.talk;
    if !pruning.stays.is_empty() {
        talk.head("Stays:")?;
        for (name, why) in &pruning.stays {
            talk.say(&format!("  {name}: {why}"))?;
        }
    }
    if pruning.goes.is_empty() {
        talk.head("Nothing is to be pruned.")?;
        return Ok(());
    }
    talk.head("Goes for good:")?;
    for going in &pruning.goes {
        talk.say(&format!("  {}", going.told))?;
    }
    if pruning.more > 0 {
        let more = trips(pruning.more);
        talk.say(&format!("  and {more} more by another run"))?;
    }
    talk.say(
        "What was read, seen and written in them, and by whom, cannot be had back; services done \
         on them are not known to have been done any more. Copies on other \
         laptops, on sticks and in backups are not reached from here: merge this logbook there, \
         then run hames logbook prune there.",
    )?;
    Ok(())
}

fn sign(sitting: &mut Sitting<'_>, pruning: &Pruning, why: &Words) -> Result<(), Not> {
    let count = pruning.goes.len();
    let word = format!("prune {count}");
    let question = format!("Type {word} to go on, or leave.");
    sitting.word(&question, &[&word])?;
    let what = format!("to prune {}", trips(count));
    let folder = sitting.sign((&what, Says::PRUNED), |clerk, who| {
        clerk.state_pruned(&pruning.goes, why, who)
    })?;
    sitting.signed(&format!("Stated: {} pruned.", trips(count)), &folder)
}

/// A day that has come: before one to come lies every trip there is, and a slip in the year would
/// take them all.
fn day_of(typed: &str, today: NaiveDate) -> Result<NaiveDate, Not> {
    let day = NaiveDate::parse_from_str(typed, "%Y-%m-%d").map_err(|_| {
        Not::usage(&format!(
            "“{}” is no day. Type one such as 2026-01-31.",
            typed.escape_debug()
        ))
    })?;
    if day > today {
        return Err(Not::usage(&format!(
            "{day} has not come yet, and before it lies every trip there is. Type a day that has \
             passed; today is {today}."
        )));
    }
    Ok(day)
}

fn trips(count: usize) -> String {
    match count {
        1 => "1 trip".to_owned(),
        _ => format!("{count} trips"),
    }
}
