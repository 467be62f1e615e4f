//! `hames drill`: a passage of a checklist on an invented rig, line by line. Nothing of it is
//! recorded, and nothing of it can be taken for a trip.

use crate::cli::Status;
use crate::cli::args::{DrillArgs, StageArg};
use crate::cli::plan::Look;
use crate::cli::sitting::options;
use crate::desk::{Errand, Reply};
use crate::document::nearest;
use crate::drill::{
    Did, Doing, Drill, Family, Line, Passage, Run, Scenario, Sights, Stage, list, scenarios,
};
use crate::plain::{self, Left};
use crate::rig::demo;
use crate::walk::{Entry, Words};
use crate::world::{Machine, World};
use serde_json::json;
use std::io::{self, BufRead, Write};
use std::sync::Arc;

/// As whom somebody plays who signs nothing.
const LEARNER: &str = "Learner";

/// Seeds are short enough to be typed again.
const SEEDS: u64 = 100_000;

pub(super) fn drill(
    asked: &DrillArgs,
    look: Look,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let meant = match meant(asked) {
        Ok(meant) => meant,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Usage);
        }
    };
    if asked.list {
        return told(&meant, asked.json, out);
    }
    let machine = Machine::this();
    let mut bytes = [0; 8];
    if machine.fill(&mut bytes).is_err() {
        writeln!(
            err,
            "This machine has no random numbers to give. Name one: --seed 1"
        )?;
        return Ok(Status::Store);
    }
    let thrown = u64::from_le_bytes(bytes);
    let seed = asked.seed.unwrap_or(thrown % SEEDS);
    let place = usize::try_from(thrown / SEEDS).unwrap_or(0) % meant.len().max(1);
    let Some(scenario) = meant.get(place).copied() else {
        return Ok(Status::Usage);
    };
    let Some(drill) = thrown_by(scenario, seed) else {
        writeln!(
            err,
            "The scenario {} cannot be played by this program.",
            scenario.id
        )?;
        return Ok(Status::Store);
    };
    let stage = match asked.stage {
        StageArg::Guided => Stage::Guided,
        StageArg::Solo => Stage::Solo,
    };
    let Ok(learner) = Words::read(LEARNER) else {
        return Ok(Status::Store);
    };
    writeln!(out, "DRILL. Nothing of it is recorded.")?;
    let mut run = Run::begin(Arc::new(drill), stage, &learner, machine.now());
    let shown = run.clone();
    let mut perform = |errand| match errand {
        Errand::Record(act) => does(&mut run, &machine, &Doing::Walk(act)),
        Errand::Drill(doing) => does(&mut run, &machine, &doing),
        _ => Reply::Cannot("Of a drill nothing is kept that could be shown.".to_owned()),
    };
    let left = plain::drill(input, out, shown, &mut perform, options(look, false))?;
    Ok(match left {
        Left::DiskFailed | Left::NoLogbook => Status::Store,
        Left::ByChoice | Left::Refused | Left::InputEnded => Status::Fine,
    })
}

fn does(run: &mut Run, machine: &Machine, doing: &Doing) -> Reply {
    let at = machine.now();
    let line = match run.decide(doing, &at) {
        Ok(did) => Line { at, did },
        Err(not) => return Reply::Cannot(format!("{not}.")),
    };
    run.apply(&line);
    match line.did {
        Did::Walked(event) => Reply::Recorded(Box::new(Entry {
            at: line.at,
            actor: run.walk().reader().clone(),
            event: *event,
        })),
        Did::Drilled(_) => Reply::Drilled(Box::new(line)),
    }
}

/// The drill of a scenario that comes with the program, on the invented rig it names.
fn thrown_by(scenario: &Arc<Scenario>, seed: u64) -> Option<Drill> {
    let list = list(&scenario.list)?;
    let rig = demo::named(&scenario.rig)?;
    let passage = Passage::lay(scenario, list, rig).ok()?;
    Drill::throw(Arc::clone(scenario), passage, Sights::shipped(), seed).ok()
}

/// The scenarios that are meant: the one that is named, those of a family, or every one.
fn meant(asked: &DrillArgs) -> Result<Vec<&'static Arc<Scenario>>, String> {
    if let Some(id) = &asked.scenario {
        let found = scenarios().iter().find(|known| known.id == *id);
        return found.map(|one| vec![one]).ok_or_else(|| no_such(id));
    }
    let Some(word) = &asked.about else {
        return Ok(scenarios().iter().collect());
    };
    let known = Family::WORDS.into_iter().find(|(known, _)| known == word);
    let (_, family) = known.ok_or_else(|| no_family(word))?;
    let all = scenarios().iter();
    Ok(all.filter(|one| one.family == family).collect())
}

fn told(meant: &[&Arc<Scenario>], json: bool, out: &mut dyn Write) -> io::Result<Status> {
    for scenario in meant {
        if json {
            let line = json!({
                "schema": "hames-scenario/1",
                "id": scenario.id,
                "title": scenario.title,
                "family": scenario.family.word(),
                "list": scenario.list,
                "sections": scenario.sections,
                "rig": scenario.rig,
                "source": scenario.source,
            });
            writeln!(out, "{line}")?;
        } else {
            let (id, title) = (&scenario.id, &scenario.title);
            writeln!(out, "{id}: {title}. About {}.", scenario.family.label())?;
        }
    }
    Ok(Status::Fine)
}

fn no_such(id: &str) -> String {
    let known = scenarios().iter().map(|known| known.id.as_str());
    let meant =
        nearest(id, known).map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    format!(
        "There is no scenario “{}”.{meant} Every one: hames drill --list",
        id.escape_debug()
    )
}

fn no_family(word: &str) -> String {
    let known = Family::WORDS.map(|(known, _)| known);
    let meant =
        nearest(word, known).map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    format!(
        "No scenario is about “{}”.{meant} They are about {}.",
        word.escape_debug(),
        known.join(", ")
    )
}
