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

/// What is asked to be pruned, and why.
pub(super) struct Asked {
    which: Which,
    why: Words,
    even_so: bool,
}

impl Asked {
    /// As it was typed. A slip is told before it is asked who signs.
    pub(super) fn read(
        trips: Vec<(Id, TripFolder)>,
        (before, why): (Option<&str>, Option<&str>),
        even_so: bool,
        today: NaiveDate,
    ) -> Result<Self, Not> {
        let which = match before {
            None => Which::Named(trips),
            Some(day) => Which::Before(day_of(day, today)?),
        };
        let why = why.ok_or_else(|| {
            Not::usage("Say why they go, with --why \"…\". It stays in the logbook for good.")
        })?;
        let why = words(why)?;
        Ok(Self {
            which,
            why,
            even_so,
        })
    }
}

pub(super) fn prune(sitting: &mut Sitting<'_>, asked: &Asked) -> Result<Status, Not> {
    finish(&sitting.clerk, &mut sitting.talk)?;
    let pruning = sitting.clerk.to_prune(&asked.which, asked.even_so)?;
    list(sitting, &pruning)?;
    if pruning.goes.is_empty() {
        return Ok(if pruning.stays.is_empty() {
            Status::Fine
        } else {
            Status::Findings
        });
    }
    sign(sitting, &pruning, &asked.why)?;
    let removed = sitting.clerk.remove_pruned()?;
    sitting.talk.say(&format!("{} removed.", trips(removed)))?;
    Ok(Status::Fine)
}

/// The same, and nothing else: it takes nobody's key.
pub(super) fn finish_alone(clerk: &Clerk<Local>, talk: &mut Talk<'_>) -> Result<(), Not> {
    if finish(clerk, talk)? == 0 {
        talk.say(
            "Nothing is left here of trips that managers have pruned. To prune more, name trips, or \
             a day: hames logbook prune --before DAY --why …",
        )?;
    }
    Ok(())
}

/// Removes what an earlier run, or another laptop's statement, has left to remove.
fn finish(clerk: &Clerk<Local>, talk: &mut Talk<'_>) -> Result<usize, Not> {
    let removed = clerk.remove_pruned()?;
    if removed > 0 {
        let trips = trips(removed);
        let told = format!("{trips} that managers have pruned already lay here still; removed.");
        talk.say(&told)?;
    }
    Ok(removed)
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
