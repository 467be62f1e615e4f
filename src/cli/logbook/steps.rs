//! `hames logbook steps`: which steps of the checklists give trouble, so that lists get better.

use crate::cli::Status;
use crate::cli::args::StepsArgs;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::shelf::Failed;
use crate::cli::logbook::unknown;
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::cli::lot::lots;
use crate::plain;
use crate::record::Id;
use crate::review::{StepCounts, Steps};
use crate::store::TripFolder;
use serde::Serialize;
use std::collections::{BTreeSet, HashSet};
use std::io::{self, Write};

const SCHEMA: &str = "hames-steps-walked/1";

/// So many are told without being asked for all.
const MOST: usize = 12;

/// Nothing is told of a step that was answered less often; ours: one slip in three answers says
/// nothing.
const ANSWERED: u64 = 5;

pub(super) fn steps(
    asked: &StepsArgs,
    about: &AboutLogbook,
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let (mut plans, mut steps) = (Plans::default(), Steps::default());
    let mut seen: HashSet<Id> = HashSet::new();
    let mut rigs: BTreeSet<String> = BTreeSet::new();
    for lot in lots(&about.places, &[])? {
        let mut see = |_: &TripFolder, read: &TripRead| {
            let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) else {
                return;
            };
            let rig = &trip.begun().rig.id;
            if asked.rig.as_ref().is_none_or(|wanted| wanted == rig)
                && seen.insert(trip.begun().trip.clone())
            {
                steps.take(&walk, trip.entries());
            }
            rigs.insert(rig.clone());
        };
        lot.judge_seeing(&mut plans, None, &mut see)?;
    }
    if let Some(rig) = &asked.rig {
        unknown::rig(rig, rigs.iter().map(String::as_str))?;
    }
    let all = steps.by_trouble();
    let often = all.iter().filter(|one| one.answered >= ANSWERED).copied();
    let often: Vec<&StepCounts> = often.collect();
    if asked.json {
        for one in all {
            serde_json::to_writer(&mut *out, &Told::of(one)).map_err(io::Error::from)?;
            writeln!(out)?;
        }
        return Ok(Status::Fine);
    }
    let troubled = often
        .iter()
        .filter(|one| one.trouble() > 0)
        .take(MOST)
        .count();
    let shown = if asked.all { often.len() } else { troubled };
    let (told, rest) = often.split_at(shown);
    demo_line(about, out)?;
    write!(
        out,
        "{}",
        plain::steps_report(told, rest.len(), steps.trips())
    )?;
    Ok(Status::Fine)
}

/// A step as JSON.
#[derive(Serialize)]
struct Told<'s> {
    schema: &'static str,
    checklist: &'s str,
    step: &'s str,
    name: &'s str,
    answered: u64,
    trouble: u64,
    taken_back: u64,
    put_off: u64,
    typed_twice: u64,
    measured_again: u64,
    lived_with: u64,
    not_clear: u64,
    found: u64,
    usual_ms: Option<u64>,
}

impl<'s> Told<'s> {
    fn of(step: &'s StepCounts) -> Self {
        Self {
            schema: SCHEMA,
            checklist: &step.checklist,
            step: &step.step,
            name: &step.name,
            answered: step.answered,
            trouble: step.trouble(),
            taken_back: step.taken_back,
            put_off: step.put_off,
            typed_twice: step.typed_twice,
            measured_again: step.measured_again,
            lived_with: step.lived_with,
            not_clear: step.not_clear,
            found: step.found,
            usual_ms: step.usual_ms(),
        }
    }
}
