//! `hames drill`: a passage of a checklist on an invented rig, on the screens or line by line. Where
//! somebody learns it is recorded in the drills of the logbook, and nothing of it can be taken for a
//! trip.

use crate::cli::args::{DrillArgs, StageArg};
use crate::cli::clerk::choosing::{family, meant};
use crate::cli::clerk::{Clerk, Place, Stock};
use crate::cli::plan::{Barn, Look, Way};
use crate::cli::sitting::{options, place};
use crate::cli::supply::all;
use crate::cli::whose::Whose;
use crate::cli::{Status, screens};
use crate::desk::{DrillWanted, Errand, Reply, WhichDrill};
use crate::drill::{Scenario, Stage};
use crate::plain::{self, Left};
use crate::record::Mode;
use crate::store::Local;
use crate::world::{Agent, Machine};
use serde_json::json;
use std::io::{self, Write};
use std::path::PathBuf;
use std::sync::Arc;

/// A drill asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AboutDrill {
    /// What stood behind the command.
    pub(in crate::cli) asked: DrillArgs,
    /// The logbook it is recorded in; none where there is no folder for one.
    pub(in crate::cli) barn: Option<Barn>,
    /// The socket of the ssh-agent.
    pub(in crate::cli) agent: Option<PathBuf>,
    /// How it looks.
    pub(in crate::cli) look: Look,
}

pub(super) fn drill(
    about: &AboutDrill,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let asked = &about.asked;
    let which = match which(asked) {
        Ok(which) => which,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Usage);
        }
    };
    let scenarios = match meant(which.as_ref().unwrap_or(&WhichDrill::Any)) {
        Ok(scenarios) => scenarios,
        Err(trouble) => {
            writeln!(err, "{trouble}")?;
            return Ok(trouble.status());
        }
    };
    if asked.list {
        return told(&scenarios, asked.json, out);
    }
    let place = match about.barn.as_ref().map(place) {
        Some(Ok(place)) => place,
        Some(Err(sentence)) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Store);
        }
        // Nowhere to write is nowhere to record.
        None => Place {
            root: PathBuf::new(),
            mode: Mode::Real,
        },
    };
    let stock = match about.barn {
        Some(_) => all(&place),
        None => Stock::default(),
    };
    let agent = about.agent.clone().map(Agent::at);
    let machine = Machine::this();
    let mut clerk = Clerk::new(Local, machine.clone(), place, stock).with_agent(agent);
    let wanted = DrillWanted {
        which,
        learner: asked.learner.clone(),
        stage: asked.stage.map(StageArg::stage),
        seed: asked.seed,
    };
    if about.look.way == Way::Screens {
        if let Err(why) = knows(&mut clerk, wanted.learner.as_deref()) {
            writeln!(err, "{}", whose.told(&why))?;
            return Ok(Status::Findings);
        }
        let shown = (about.look, whose);
        return Ok(screens::drills(&mut clerk, &machine, wanted, shown, err));
    }
    let mut perform = |errand: Errand| -> Reply { whose.reply(clerk.perform(errand)) };
    let options = options(about.look, false);
    let input = &mut io::stdin().lock();
    let left = plain::drill(input, out, wanted, &mut perform, options)?;
    Ok(match left {
        Left::DiskFailed | Left::NoLogbook => Status::Store,
        Left::Refused => Status::Findings,
        Left::ByChoice | Left::InputEnded => Status::Fine,
    })
}

/// Whether a learner who is named is one whose drills are recorded here.
///
/// # Errors
/// A sentence, where they are not. What else is wrong is told on the screens.
fn knows(clerk: &mut Clerk<Local>, named: Option<&str>) -> Result<(), String> {
    let Some(named) = named else { return Ok(()) };
    match clerk.perform(Errand::LookAtDrills) {
        Reply::DrillRoom(room) => room.named(named).map(|_| ()),
        _ => Ok(()),
    }
}

/// Which drill is named, if any.
fn which(asked: &DrillArgs) -> Result<Option<WhichDrill>, String> {
    if let Some(id) = &asked.scenario {
        return Ok(Some(WhichDrill::Named(id.clone())));
    }
    if let (Some(list), Some(examiner)) = (&asked.check_ride, &asked.examiner) {
        let (list, examiner) = (list.clone(), examiner.clone());
        return Ok(Some(WhichDrill::CheckRide { list, examiner }));
    }
    let about = asked.about.as_deref().map(family).transpose()?;
    Ok(about.map(WhichDrill::About))
}

impl StageArg {
    const fn stage(self) -> Stage {
        match self {
            Self::Watch => Stage::Watch,
            Self::Guided => Stage::Guided,
            Self::Faded => Stage::Faded,
            Self::Solo => Stage::Solo,
            Self::Faults => Stage::Faults,
        }
    }
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
