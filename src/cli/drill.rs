//! `hames drill`: a passage of a checklist on an invented rig, on the screens or line by line. Where
//! somebody learns it is recorded in the drills of the logbook, and nothing of it can be taken for a
//! trip.

use crate::cli::args::{DrillArgs, StageArg};
use crate::cli::clerk::choosing::{family, meant};
use crate::cli::clerk::{Clerk, Place, Stock};
use crate::cli::command::quoted;
use crate::cli::plan::{Barn, Look, Named, NotMeant, Way, named};
use crate::cli::sitting::{options, place};
use crate::cli::supply::all;
use crate::cli::whose::Whose;
use crate::cli::{Status, lint, screens};
use crate::desk::{DrillWanted, Errand, Reply, WhichDrill};
use crate::drill::{Offered, Scenario, Stage};
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
    /// The file of scenarios, where one is named.
    file: Option<PathBuf>,
    /// The scenario that is named by its id.
    id: Option<String>,
    /// The logbook it is recorded in; none where there is no folder for one.
    pub(in crate::cli) barn: Option<Barn>,
    /// The socket of the ssh-agent.
    agent: Option<PathBuf>,
    /// How it looks.
    look: Look,
}

impl AboutDrill {
    /// What the arguments mean.
    ///
    /// # Errors
    /// [`NotMeant`], where one scenario is named and several are asked for.
    pub(in crate::cli) fn meant(
        asked: &DrillArgs,
        barn: Option<Barn>,
        (agent, look): (Option<PathBuf>, Look),
    ) -> Result<Self, NotMeant> {
        let (file, id) = match asked.scenario.as_deref().map(named) {
            Some(Named::File(file)) => (Some(file), None),
            Some(Named::Id(id)) if asked.list || asked.about.is_some() => {
                return Err(NotMeant::OneScenario(id));
            }
            Some(Named::Id(id)) => (None, Some(id)),
            None => (None, None),
        };
        Ok(Self {
            asked: asked.clone(),
            file,
            id,
            barn,
            agent,
            look,
        })
    }

    /// How it is played again, behind `hames drill`, where its scenarios are in a file.
    fn again(&self) -> Option<String> {
        let file = quoted(self.file.as_ref()?);
        let about = self.asked.about.as_ref();
        Some(about.map_or(file.clone(), |about| format!("{file} --about {about}")))
    }
}

pub(super) fn drill(
    about: &AboutDrill,
    whose: &Whose,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Status> {
    let asked = &about.asked;
    let which = match which(about) {
        Ok(which) => which,
        Err(sentence) => {
            writeln!(err, "{sentence}")?;
            return Ok(Status::Usage);
        }
    };
    let offered = match &about.file {
        None => Offered::default(),
        Some(file) => match lint::scenarios(file, err)? {
            Ok(offered) => offered,
            Err(status) => return Ok(status),
        },
    };
    let scenarios = match meant(which.as_ref().unwrap_or(&WhichDrill::Any), &offered) {
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
    let clerk = Clerk::new(Local, machine.clone(), place, stock).with_agent(agent);
    let mut clerk = clerk.with_scenarios(offered);
    let wanted = DrillWanted {
        which,
        again: about.again(),
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
fn which(about: &AboutDrill) -> Result<Option<WhichDrill>, String> {
    let asked = &about.asked;
    if let Some(id) = &about.id {
        return Ok(Some(WhichDrill::Named(id.clone())));
    }
    if let (Some(list), Some(examiner)) = (&asked.check_ride, &asked.examiner) {
        let (list, examiner) = (list.clone(), examiner.clone());
        return Ok(Some(WhichDrill::CheckRide { list, examiner }));
    }
    let family = asked.about.as_deref().map(family).transpose()?;
    let of_file = about.file.as_ref().map(|_| WhichDrill::Any);
    Ok(family.map(WhichDrill::About).or(of_file))
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
