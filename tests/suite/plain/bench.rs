//! A desk in memory with the real machine behind it, and a script typed at it.

use crate::harness::good;
use chrono::{DateTime, FixedOffset, TimeDelta};
use hames::barn::{Call, ForWalk};
use hames::checklist::{Checklist, Haul, Plan};
use hames::desk::{
    Barn, ChecklistCard, Countersigning, CrewCard, DefectCard, DueCard, Errand, HaulCard, KeyLies,
    Lookout, OpenedTrip, PutQuestion, Reply, RigCard, Sealed, Tale, TaleLine, TripCard, told,
};
use hames::plain::{Left, Options, run};
use hames::record::{Answered, Digest, Mode, Opinion, Receipt, Role};
use hames::review::trend::RigTrends;
use hames::rig::{Rig, demo::JUNIPER};
use hames::walk::{Entry, Event, Moment, Walk, Words};

/// The desk and its journal.
#[derive(Clone)]
pub(crate) struct Bench {
    pub(crate) plan: Plan,
    pub(crate) walk: Option<Walk>,
    pub(crate) journal: Vec<Entry>,
    pub(crate) sealed_by: Option<String>,
    /// The disk refuses every line after so many.
    pub(crate) disk_takes: usize,
    /// Where the key of whoever signs lies.
    pub(crate) key_lies: KeyLies,
    /// The system clock jumps so far with every errand.
    pub(crate) seconds_a_turn: u32,
    pub(crate) now: Moment,
    /// What earlier walks of the rig left open.
    pub(crate) earlier: (Vec<String>, Vec<DefectCard>),
    /// What is due for the rig.
    pub(crate) due: Vec<DueCard>,
    /// The haul it is on.
    pub(crate) haul: Option<HaulCard>,
    /// The rigs and lists of a whole barn, where it has more than this one.
    pub(crate) more: Option<(Vec<RigCard>, Vec<ChecklistCard>)>,
    /// When the next walk was walked on paper.
    pub(crate) paper: Option<DateTime<FixedOffset>>,
    /// What the barn has set for its walks.
    pub(crate) barn_settings: ForWalk,
    /// Things to know before starting.
    pub(crate) notices: Vec<String>,
    /// Why no walk begins here.
    pub(crate) no_walk: Option<String>,
    /// A whole logbook to look over, and the trip that is opened, whichever is asked for.
    pub(crate) over: Option<Box<(Lookout, OpenedTrip)>>,
    /// How readings move over the trips of that logbook.
    pub(crate) trends: Vec<RigTrends>,
    /// Why this list may not be begun.
    pub(crate) refuses: Option<String>,
    /// What to know once so many people are named.
    pub(crate) foretold: [Vec<String>; 3],
    pub(crate) questions: Vec<PutQuestion>,
    pub(crate) answers: Vec<Answered>,
    /// Who can countersign the trip that is opened, and what was signed so.
    pub(crate) managers: Vec<CrewCard>,
    pub(crate) said_already: Option<Opinion>,
    pub(crate) not_signed: Option<String>,
    pub(crate) countersigned: Vec<Countersigning>,
}

/// What a script came to.
pub(crate) struct Told {
    pub(crate) left: Left,
    pub(crate) text: String,
}

/// What is typed before the first step: begin, reader, doer, odometer.
pub(crate) const BEGIN: &str = "1\n1\n2\n48210 mi\n";

impl Bench {
    pub(crate) fn new() -> Self {
        Self::with(plan())
    }

    pub(crate) fn with(plan: Plan) -> Self {
        Self {
            plan,
            walk: None,
            journal: Vec::new(),
            sealed_by: None,
            disk_takes: usize::MAX,
            key_lies: KeyLies::InAFile,
            seconds_a_turn: 1,
            now: Moment {
                wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
                boot: "boot-1".to_owned(),
                mono_ms: 1_000_000,
            },
            earlier: (vec![], vec![]),
            due: vec![],
            haul: None,
            more: None,
            paper: None,
            barn_settings: ForWalk {
                call: Call::new("Odile Marsh", "555 0142"),
                ..ForWalk::default()
            },
            notices: vec![],
            no_walk: None,
            over: None,
            trends: Vec::new(),
            refuses: None,
            foretold: Default::default(),
            questions: Vec::new(),
            answers: Vec::new(),
            managers: vec![CrewCard {
                id: "odile.marsh".to_owned(),
                name: "Odile Marsh".to_owned(),
                roles: vec![Role::Manager],
            }],
            said_already: None,
            not_signed: None,
            countersigned: Vec::new(),
        }
    }

    /// Types a script, and gives back what was written.
    pub(crate) fn type_in(&mut self, script: &str) -> Told {
        self.type_with(script, Options::default())
    }

    pub(crate) fn type_with(&mut self, script: &str, options: Options) -> Told {
        let (mut input, mut output) = (script.as_bytes(), Vec::new());
        let mut perform = |errand: Errand| self.perform(errand);
        let left = run(&mut input, &mut output, &mut perform, options).unwrap();
        let text = String::from_utf8(output).unwrap();
        Told { left, text }
    }

    /// Events by their name, without those of steps begun.
    pub(crate) fn happened(&self) -> Vec<&'static str> {
        let names = self.journal.iter().map(|entry| name(&entry.event));
        names.filter(|name| *name != "opened").collect()
    }

    pub(crate) fn perform(&mut self, errand: Errand) -> Reply {
        self.now.mono_ms += u64::from(self.seconds_a_turn) * 1000;
        self.now.wall += TimeDelta::seconds(i64::from(self.seconds_a_turn));
        match errand {
            Errand::LookAround => Reply::Barn(self.barn()),
            Errand::MayBegin { people, .. } => match &self.refuses {
                Some(why) => Reply::Cannot(why.clone()),
                None => Reply::MayBegin {
                    notices: self.foretold[people.len()].clone(),
                    questions: match people.len() {
                        2 => self.questions.clone(),
                        _ => Vec::new(),
                    },
                },
            },
            Errand::Begin {
                reader,
                doer,
                answers,
                ..
            } => {
                self.answers = answers;
                self.begin(&reader, &doer);
                self.walking()
            }
            Errand::TakeUp { .. } => {
                self.do_act(&hames::walk::Act::TakeUp);
                self.walking()
            }
            Errand::Record(act) => self.do_act(&act),
            Errand::FindKey { signer } => Reply::Key {
                signer,
                lies: self.key_lies,
            },
            Errand::Seal { signer, .. } => {
                self.sealed_by = Some(signer.clone());
                Reply::Sealed(Sealed {
                    receipt: Receipt::of(&Digest::of(b"seal")),
                    outcome: "complete".to_owned(),
                    signed_by: signer,
                    folder: "/barn/dev/laptop/t/000001-9f3c01ab".to_owned(),
                    typed: "/barn/dev/laptop/t/000001-9f3c01ab".to_owned(),
                })
            }
            Errand::LookAtRig { .. } => Reply::Rig {
                rig: Box::new(self.plan.rig().clone()),
                facts: hames::figures::Facts::default(),
                mode: Mode::Demo,
            },
            Errand::Show { .. } => Reply::Record(Box::new(self.tale())),
            Errand::LookOver => {
                let (lookout, _) = *self.over.clone().expect("a logbook to look over");
                Reply::Lookout(Box::new(lookout))
            }
            Errand::Drill(_) | Errand::LookAtDrills | Errand::BeginDrill(_) => {
                Reply::Cannot("no drill".to_owned())
            }
            Errand::ReadOn => Reply::StillToRead(0),
            Errand::LookAtTrends => Reply::Trends(self.trends.clone()),
            Errand::OpenTrip { trip } => {
                let (_, opened) = *self.over.clone().expect("a logbook to look over");
                Reply::Opened {
                    trip: Box::new(opened),
                    next: format!("s agrees to {trip}, once everything here has been opened."),
                    managers: self.managers.clone(),
                }
            }
            Errand::MayCountersign {
                manager, opinion, ..
            } => match self.said_already {
                Some(said) if said == opinion => {
                    Reply::Cannot("This manager has said so already.".to_owned())
                }
                _ => Reply::MayCountersign {
                    manager,
                    lies: self.key_lies,
                    first: None,
                },
            },
            Errand::Countersign { what, .. } => {
                if let Some(why) = self.not_signed.take() {
                    return Reply::Cannot(why);
                }
                let (lookout, _) = *self.over.clone().expect("a logbook to look over");
                let mut trips = lookout.trips.into_iter();
                let mut seen = trips.find(|one| one.folder == what.trip).unwrap();
                seen.glance.said = Some(what.opinion);
                self.countersigned.push(*what);
                Reply::Countersigned {
                    seen: Box::new(seen),
                    folder: "/barn/mgr/odile.marsh/000006-5b1c77aa".to_owned(),
                }
            }
        }
    }

    fn begin(&mut self, reader: &str, doer: &str) {
        let walk = Walk::begin(
            self.plan.clone(),
            words(reader),
            words(doer),
            self.now.clone(),
        );
        self.walk = Some(match self.paper {
            Some(walked) => walk.from_paper(walked),
            None => walk,
        });
    }

    fn do_act(&mut self, act: &hames::walk::Act) -> Reply {
        let walk = self.walk.as_mut().unwrap();
        if self.journal.len() >= self.disk_takes {
            return Reply::ReadOnly("The disk refused a line: it is full.".to_owned());
        }
        match good::step(walk, act, &self.now) {
            Ok(entry) => {
                self.journal.push(entry.clone());
                Reply::Recorded(Box::new(entry))
            }
            Err(refusal) => Reply::Refused(refusal),
        }
    }

    fn walking(&self) -> Reply {
        Reply::Walking {
            walk: Box::new(self.walk.clone().unwrap()),
            trip: "9f3c01ab77de4410".to_owned(),
            mode: Mode::Demo,
            standing: hames::desk::Approval::Shipped,
            notices: Vec::new(),
            barn: self.barn_settings.clone(),
            now: self.now.clone(),
        }
    }

    fn tale(&self) -> Tale {
        let plan = &self.plan;
        let line = |entry: &Entry| {
            let (what, weight) = told::happened(&entry.event, plan);
            let time = entry.at.wall.format("%H:%M").to_string();
            TaleLine { time, what, weight }
        };
        Tale {
            heading: vec!["Juniper".to_owned()],
            findings: vec!["intact".to_owned()],
            lines: self.journal.iter().map(line).collect(),
            signatures: vec![],
        }
    }

    fn barn(&self) -> Barn {
        let plan = &self.plan;
        let (rig, list) = (plan.rig(), plan.checklist());
        let crew = [
            ("wren.ashdown", "Wren Ashdown", Role::Driver),
            ("tobias.fenn", "Tobias Fenn", Role::Groom),
            ("odile.marsh", "Odile Marsh", Role::Manager),
        ];
        let trip = self.walk.as_ref().map(|walk| TripCard {
            trip: "9f3c01ab77de4410".to_owned(),
            rig: rig.name.clone(),
            checklist: list.title.clone(),
            last: "2026-11-25 07:30".to_owned(),
            stands: walk.ended().map_or_else(
                || "begun".to_owned(),
                |outcome| format!("ended as {}, not signed", outcome.word()),
            ),
            goes_on: walk.ended().is_none(),
        });
        let (more_rigs, more_lists) = self.more.clone().unwrap_or_default();
        // As the desk has it: what is not signed is not finished.
        let sealed = self.sealed_by.is_some();
        Barn {
            name: "Quillwater Stables".to_owned(),
            mode: Mode::Demo,
            folder: "/barn".to_owned(),
            rigs: vec![RigCard {
                id: rig.id.clone(),
                name: rig.name.clone(),
                kind: rig.kind(),
                open: self.earlier.0.clone(),
                defects: self.earlier.1.clone(),
                due: self.due.clone(),
                haul: self.haul.clone(),
            }]
            .into_iter()
            .chain(more_rigs)
            .collect(),
            checklists: vec![ChecklistCard {
                id: list.id.clone(),
                title: list.title.clone(),
                revision: list.revision,
                rigs: list.rigs.clone(),
                haul: if self.more.is_some() {
                    Haul::Begins
                } else {
                    list.haul
                },
                standing: hames::desk::Approval::Shipped,
            }]
            .into_iter()
            .chain(more_lists)
            .collect(),
            crew: crew
                .into_iter()
                .map(|(id, name, role)| CrewCard {
                    id: id.into(),
                    name: name.into(),
                    roles: vec![role],
                })
                .collect(),
            unfinished: trip.clone().filter(|_| !sealed).into_iter().collect(),
            finished: trip.filter(|_| sealed).into_iter().collect(),
            notices: self.notices.clone(),
            no_walk: self.no_walk.clone(),
        }
    }
}

pub(crate) fn plan() -> Plan {
    Plan::lay(
        Checklist::read(&crate::harness::hitch_up_text()).unwrap(),
        Rig::read(JUNIPER).unwrap(),
    )
    .unwrap()
}

/// The lines of a whole walk on which all is well, to the question who signs.
pub(crate) fn whole_walk() -> String {
    let at = Bench::new().now;
    let walk = Walk::begin(plan(), words("Wren Ashdown"), words("Tobias Fenn"), at);
    good::lines(&good::whole_walk(walk, "Odile Marsh"))
}

pub(crate) fn words(text: &str) -> Words {
    Words::read(text).unwrap()
}

fn name(event: &Event) -> &'static str {
    match event {
        Event::Opened { .. } => "opened",
        Event::Doubted { .. } => "doubted",
        Event::Answered { .. } => "answered",
        Event::Remarked { .. } => "remarked",
        Event::PutRight { .. } => "put right",
        Event::SectionClosed { .. } => "section closed",
        Event::Deferred { .. } => "deferred",
        Event::Corrected { .. } => "corrected",
        Event::Noted { .. } => "noted",
        Event::Held { .. } => "held",
        Event::Resumed { .. } => "resumed",
        Event::HandedOver { .. } => "handed over",
        Event::Unsure { .. } => "unsure",
        Event::Settled { .. } => "settled",
        Event::Ended { .. } => "ended",
    }
}
