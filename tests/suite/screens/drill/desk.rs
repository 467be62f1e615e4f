//! A desk that plays drills of the shipped scenarios, as the program's own does: the dice thrown by
//! a seed, and nothing more known than a run tells.

use crate::plain::bench::words;
use hames::barn::ForWalk;
use hames::checklist::StepKey;
use hames::desk::{
    AskedDrill, CrewCard, Difference, DrillRoom, Errand, Learner, Reply, ScenarioCard, TripCard,
    WhichDrill,
};
use hames::drill::{
    Did, Doing, Drill, Family, Line, Passage, Played, Progress, Run, Scenario, Score, Sights,
    Stage, StepScore, list, scenarios,
};
use hames::record::Role;
use hames::rig::demo;
use hames::rules::Verdict;
use hames::walk::{Act, Entry, Moment};
use std::sync::Arc;

/// The desk, its room and the drill under way.
#[derive(Clone)]
pub(crate) struct DrillDesk {
    pub(crate) room: DrillRoom,
    pub(crate) run: Option<Run>,
    /// What was asked for, the newest last.
    pub(crate) begun: Vec<AskedDrill>,
    /// The seed of a drill for which none is asked.
    pub(crate) seed: u64,
    /// The stage of a drill for which none is asked.
    pub(crate) stage: Stage,
}

impl DrillDesk {
    /// A room in which nothing is recorded.
    pub(crate) fn unrecorded() -> Self {
        Self {
            room: room(Vec::new()),
            run: None,
            begun: Vec::new(),
            seed: 1,
            stage: Stage::Guided,
        }
    }

    /// A room of two who learn, with drills behind them.
    pub(crate) fn of_a_barn() -> Self {
        let mut desk = Self::unrecorded();
        desk.room = room(vec![
            Learner {
                examiners: Ok(["Odile Marsh", "Tobias Fenn"].map(str::to_owned).to_vec()),
                ..learner("ines.calder", "Ines Calder", &played())
            },
            learner("tobias.fenn", "Tobias Fenn", &[]),
        ]);
        desk
    }

    /// The same, after a check ride of the first that an older revision was ridden for.
    pub(crate) fn of_changed_lists() -> Self {
        let mut desk = Self::of_a_barn();
        desk.room.learners[0].differences = ["receiver-pin", "seat"]
            .map(|step| Difference {
                list: "hitch-bumper".to_owned(),
                revision: 6,
                step: step.to_owned(),
            })
            .to_vec();
        desk
    }

    /// What is answered to an errand of drills; nothing of any other.
    pub(crate) fn perform(&mut self, errand: &Errand, now: &Moment) -> Option<Reply> {
        match errand {
            Errand::LookAtDrills => Some(Reply::DrillRoom(Box::new(self.room.clone()))),
            Errand::BeginDrill(asked) => Some(self.begin(asked, now)),
            Errand::TakeUp { .. } => Some(self.take_up(now)),
            Errand::Drill(doing) => Some(self.does(doing, now)),
            Errand::Record(act) => Some(self.does(&Doing::Walk(act.clone()), now)),
            _ => None,
        }
    }

    fn begin(&mut self, asked: &AskedDrill, now: &Moment) -> Reply {
        self.begun.push(asked.clone());
        let found = match &asked.which {
            WhichDrill::Any => scenarios().first(),
            WhichDrill::Named(id) => scenarios().iter().find(|one| one.id == *id),
            WhichDrill::About(family) => scenarios().iter().find(|one| one.family == *family),
            WhichDrill::OfStep { list, .. } | WhichDrill::CheckRide { list, .. } => {
                scenarios().iter().find(|one| one.list == *list)
            }
        };
        let drill = thrown(found.unwrap(), asked.seed.unwrap_or(self.seed));
        let learner = if asked.learner.is_empty() {
            "Learner"
        } else {
            &asked.learner
        };
        let (stage, examiner) = match &asked.which {
            WhichDrill::CheckRide { examiner, .. } => (Stage::CheckRide, examiner.as_str()),
            _ => (asked.stage.unwrap_or(self.stage), "Tobias Fenn"),
        };
        let run = Run::begin(Arc::new(drill), stage, &words(learner), now.clone());
        let examiner = (stage == Stage::CheckRide).then(|| words(examiner));
        let list = run.walk().plan().checklist().id.clone();
        let learners = self.room.learners.iter();
        let mut progress = learners.filter(|one| one.who.name == learner);
        let unhinted = progress.next().map(|one| one.progress.unhinted(&list));
        let run = run
            .examined_by(examiner)
            .without_hints(unhinted.unwrap_or_default());
        self.run = Some(run.clone());
        Self::drilling(run, !asked.learner.is_empty(), now)
    }

    fn take_up(&mut self, now: &Moment) -> Reply {
        if self.run.is_none() {
            let asked = AskedDrill {
                which: WhichDrill::Any,
                learner: "Ines Calder".to_owned(),
                stage: None,
                seed: None,
            };
            return self.begin(&asked, now);
        }
        let Reply::Recorded(_) = self.does(&Doing::Walk(Act::TakeUp), now) else {
            panic!("not taken up");
        };
        Self::drilling(self.run.clone().unwrap(), true, now)
    }

    fn drilling(run: Run, recorded: bool, now: &Moment) -> Reply {
        Reply::Drilling {
            run: Box::new(run),
            trip: recorded.then(|| "9f3c01ab77de4410".to_owned()),
            is_signed: false,
            notices: Vec::new(),
            barn: ForWalk::default(),
            now: now.clone(),
        }
    }

    fn does(&mut self, doing: &Doing, now: &Moment) -> Reply {
        let run = self.run.as_mut().expect("a drill under way");
        let line = match run.decide(doing, now) {
            Ok(did) => Line {
                at: now.clone(),
                did,
            },
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
}

/// The drill of a scenario by this seed.
pub(crate) fn thrown(scenario: &Arc<Scenario>, seed: u64) -> Drill {
    let list = list(&scenario.list).unwrap();
    let rig = demo::named(&scenario.rig).unwrap();
    let passage = Passage::lay(scenario, list, rig).unwrap();
    Drill::throw(Arc::clone(scenario), passage, Sights::shipped(), seed).unwrap()
}

/// The first seed by which the dice of a scenario put this fault in, or none.
pub(crate) fn seed_of(scenario: &str, fault: Option<&str>) -> u64 {
    let scenario = scenarios().iter().find(|one| one.id == scenario).unwrap();
    let fault = fault.map(|id| {
        let mut faults = scenario.faults.iter();
        faults.position(|fault| fault.id == id).unwrap()
    });
    (1..10_000)
        .find(|seed| scenario.thrown(*seed) == fault)
        .unwrap()
}

fn room(mut learners: Vec<Learner>) -> DrillRoom {
    let unrecorded = learners.is_empty().then(|| {
        "Nothing is recorded here: this laptop has no barn. Make one with: hames barn begin"
            .to_owned()
    });
    let unfinished = TripCard {
        trip: "9f3c01ab77de4410".to_owned(),
        rig: "Juniper, two-horse bumper pull".to_owned(),
        checklist: "Hitch up a bumper pull".to_owned(),
        last: "2026-11-24 17:05".to_owned(),
        stands: "step 3 of 9".to_owned(),
        goes_on: true,
    };
    if let Some(first) = learners.first_mut() {
        first.unfinished.push(unfinished);
    }
    let card = |scenario: &Arc<Scenario>| ScenarioCard {
        id: scenario.id.clone(),
        title: scenario.title.clone(),
        family: scenario.family,
        list: scenario.list.clone(),
        sections: scenario.sections.clone(),
        rig: scenario.rig.clone(),
    };
    DrillRoom {
        rides: if learners.is_empty() {
            Vec::new()
        } else {
            ["hitch-bumper", "hitch-gooseneck"]
                .map(str::to_owned)
                .to_vec()
        },
        learners,
        unrecorded,
        scenarios: scenarios().iter().map(card).collect(),
        today: "2026-11-25".parse().unwrap(),
        is_demo: false,
    }
}

fn learner(id: &str, name: &str, played: &[Played]) -> Learner {
    Learner {
        who: CrewCard {
            id: id.to_owned(),
            name: name.to_owned(),
            roles: vec![Role::Groom],
        },
        progress: Progress::of(played),
        walked: None,
        unfinished: Vec::new(),
        differences: Vec::new(),
        examiners: Err(format!(
            "Nobody of the crew may examine {name}. Say who may: hames crew roles"
        )),
    }
}

/// Two drills of last week, with answers right and wrong.
fn played() -> Vec<Played> {
    let drill = |family, section: &str, stage, steps: &[(&str, bool)]| {
        let step = |(name, right): &(&str, bool)| StepScore {
            step: StepKey::named(name),
            truly: Some(Verdict::Stop),
            said: Some(if *right { Verdict::Stop } else { Verdict::Ok }),
            known: true,
            critical: true,
        };
        Played {
            at: "2026-11-18T07:00:00-06:00".parse().unwrap(),
            list: "hitch-bumper".to_owned(),
            revision: 5,
            sections: vec![section.to_owned()],
            family,
            stage,
            score: Score {
                steps: steps.iter().map(step).collect(),
                again: Vec::new(),
                resumed: Some(true),
            },
            ride: None,
        }
    };
    vec![
        drill(
            Family::Seat,
            "join",
            Stage::Guided,
            &[("seat", false), ("latch", false), ("latch-pin", true)],
        ),
        drill(
            Family::Seat,
            "join",
            Stage::Guided,
            &[("seat", false), ("latch", true), ("latch-pin", true)],
        ),
        drill(
            Family::Mount,
            "match",
            Stage::Guided,
            &[("receiver-pin", true), ("ball-stamp", false)],
        ),
    ]
}
