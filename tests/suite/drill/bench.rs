//! Learners that play a drill: one that looks and measures, and whatever a test wants otherwise.

use hames::barn::Policies;
use hames::checklist::{
    Checklist, PlannedAsk, PlannedStep, Shared, Shipped, Together, put_together,
};
use hames::document::Fault;
use hames::drill::{Doing, Drill, Line, Passage, Run, Scenario, Sights, Slip, Stage, There};
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::rules::{Outcome, Verdict, judge};
use hames::units::Typed;
use hames::walk::{Act, Ended, Moment, Now, Status, Words};
use std::collections::HashMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex};

/// More acts than any drill has.
const MOST: usize = 600;

pub(crate) fn rig(id: &str) -> &'static str {
    match id {
        "juniper" => JUNIPER,
        "mesquite" => MESQUITE,
        other => panic!("no rig {other}"),
    }
}

fn folder(name: &str) -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("checklists/drills");
    let files = fs::read_dir(root.join(name)).unwrap();
    let mut paths: Vec<PathBuf> = files.map(|file| file.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|kind| kind == "yaml"));
    paths.sort();
    let read = |path: &PathBuf| fs::read_to_string(path).unwrap();
    paths.iter().map(read).collect()
}

/// The files of scenarios as they lie on the disk, so that whoever writes one need not build.
pub(crate) fn scenario_files() -> Vec<String> {
    folder("")
}

/// The files of sights as they lie on the disk.
pub(crate) fn sight_files() -> Vec<String> {
    folder("sights")
}

/// The files of lists for drills alone as they lie on the disk.
pub(crate) fn list_files() -> Vec<String> {
    folder("lists")
}

/// Every scenario.
pub(crate) fn scenarios() -> &'static [Arc<Scenario>] {
    static ALL: LazyLock<Vec<Arc<Scenario>>> = LazyLock::new(|| {
        let read = scenario_files();
        let read = read
            .iter()
            .map(|text| Scenario::read_all(text).unwrap_or_else(|faults| told(&faults)));
        read.flatten().map(Arc::new).collect()
    });
    &ALL
}

/// Every sight.
pub(crate) fn sights() -> Arc<Sights> {
    static ALL: LazyLock<Arc<Sights>> = LazyLock::new(|| {
        let mut all = Sights::default();
        for text in sight_files() {
            all.extend(Sights::read(&text).unwrap_or_else(|faults| told(&faults)));
        }
        Arc::new(all)
    });
    Arc::clone(&ALL)
}

fn told<T>(faults: &[Fault]) -> T {
    let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
    panic!("{}", faults.join("\n"))
}

/// The list a scenario names; those for drills alone from the disk.
pub(crate) fn drill_list(id: &str) -> &'static Together {
    static OWN: LazyLock<Vec<Together>> = LazyLock::new(|| {
        let put = |text: &String| {
            let put = put_together(text, Shared::shipped(), &Policies::default());
            put.unwrap_or_else(|faults| told(&faults))
        };
        list_files().iter().map(put).collect()
    });
    let own = OWN.iter().find(|list| list.checklist.id == id);
    let shipped = || Shipped::named(id).and_then(Shipped::by_default);
    own.or_else(shipped)
        .unwrap_or_else(|| panic!("no list {id}"))
}

/// Every list there is for drills alone.
pub(crate) fn own_lists() -> impl Iterator<Item = &'static Together> {
    let texts = list_files();
    texts
        .into_iter()
        .map(|text| drill_list(Checklist::read(&text).unwrap().id.as_str()))
}

/// The passage of a scenario; each is laid once.
pub(crate) fn passage(scenario: &Scenario) -> Passage {
    static LAID: LazyLock<Mutex<HashMap<String, Passage>>> = LazyLock::new(Mutex::default);
    let Scenario {
        list,
        sections,
        rig: on,
        carries,
        ..
    } = scenario;
    let key = format!("{list} {sections:?} {on} {carries:?}");
    if let Some(laid) = LAID.lock().unwrap().get(&key) {
        return laid.clone();
    }
    let list = drill_list(list);
    let laid = Passage::lay(scenario, list, rig(&scenario.rig));
    let laid = laid.unwrap_or_else(|not| panic!("{}: {not:?}", scenario.id));
    LAID.lock().unwrap().insert(key, laid.clone());
    laid
}

pub(crate) fn drill(scenario: &Arc<Scenario>, fault: Option<usize>, seed: u64) -> Drill {
    let made = Drill::with(
        Arc::clone(scenario),
        passage(scenario),
        sights(),
        (seed, fault),
    );
    made.unwrap_or_else(|not| panic!("{}: {not:?}", scenario.id))
}

pub(crate) fn moment(ms: u64) -> Moment {
    Moment {
        wall: "2026-11-20T07:00:00-06:00".parse().unwrap(),
        boot: "first".to_owned(),
        mono_ms: ms,
    }
}

/// Plays a drill: looks everywhere, measures, answers what there is, unless it slips.
pub(crate) struct Learner {
    pub(crate) run: Run,
    /// What was done, in order.
    pub(crate) lines: Vec<Line>,
    slip: Option<Slip>,
    careless: bool,
    ms: u64,
}

impl Learner {
    pub(crate) fn new(drill: Drill, stage: Stage, slip: Option<Slip>) -> Self {
        let who = Words::read("Wren Ashdown").unwrap();
        let run = Run::begin(Arc::new(drill), stage, &who, moment(0));
        Self {
            run,
            lines: Vec::new(),
            slip,
            careless: false,
            ms: 0,
        }
    }

    /// One that looks from one place and takes what could be well for well, that calls every
    /// reading ok, and that comes back one step too far on.
    pub(crate) fn careless(drill: Drill) -> Self {
        Self {
            careless: true,
            ..Self::new(drill, Stage::Solo, None)
        }
    }

    pub(crate) fn does(&mut self, doing: &Doing) {
        self.ms += 20_000;
        let at = moment(self.ms);
        let did = self.run.decide(doing, &at);
        let did = did.unwrap_or_else(|not| panic!("{}: {doing:?}: {not}", self.name()));
        let line = Line { at, did };
        self.run.apply(&line);
        self.lines.push(line);
    }

    fn name(&self) -> String {
        let fault = self
            .run
            .drill()
            .fault()
            .map_or("good", |fault| fault.id.as_str());
        format!("{} {fault}", self.run.drill().scenario.id)
    }

    /// To the end, or to where the rig is not fit to go.
    pub(crate) fn plays(mut self) -> Run {
        for _ in 0..MOST {
            if self.run.walk().ended().is_some() {
                return self.run;
            }
            self.goes_on();
        }
        panic!("{}: no end", self.name());
    }

    pub(crate) fn goes_on(&mut self) {
        if self.run.calls().is_some() {
            let (why, next) = ("called away".to_owned(), String::new());
            return self.does(&Doing::Walk(Act::Hold { why, next }));
        }
        let back = self.run.may_return_to();
        if let Some(at) = self.run.drill().scenario.between.clone()
            && !back.is_empty()
        {
            let last = back.last().cloned().filter(|_| self.careless);
            return self.does(&Doing::Return(last.unwrap_or(at.at)));
        }
        match self.run.walk().now() {
            Now::Next(_) => self.does(&Doing::Walk(Act::Open)),
            Now::Open(index) => self.answers(index),
            Now::Branch(index) => self.mends(index),
            Now::Remark(_) => self.does(&Doing::Walk(Act::Remark {
                words: "known, and told to the manager".to_owned(),
            })),
            Now::SectionEnd(_) => self.does(&Doing::Walk(Act::CloseSection)),
            Now::Held => self.does(&Doing::Walk(Act::Resume)),
            Now::Unsure => self.does(&Doing::Walk(Act::Settle {
                words: "asked".to_owned(),
            })),
            Now::Finished => self.ends(Ended::Complete, ""),
            Now::Ended(_) => {}
        }
    }

    fn ends(&mut self, outcome: Ended, words: &str) {
        let words = words.to_owned();
        self.does(&Doing::Walk(Act::End { outcome, words }));
    }

    fn answers(&mut self, index: usize) {
        let planned = self.run.walk().asked(index).unwrap().into_owned();
        let first = self.run.walk().steps()[index].answers.is_empty();
        let there = self.run.drill().there(self.run.walk(), index).unwrap();
        let slip = self.slip.clone().filter(|_| first);
        match (&planned.ask, there) {
            (PlannedAsk::Reading { ask, limits, .. }, There::Value(value)) => {
                let tool = hames::shown::tool_for(
                    &planned,
                    self.run.walk().plan().rig(),
                    (value.value.to_f64().unwrap(), value.unit),
                );
                let tool =
                    tool.unwrap_or_else(|| panic!("{}: no tool at {}", self.name(), planned.key));
                let tool = tool.clone();
                self.does(&Doing::Use(tool.id.clone()));
                let showed = self.showed(index);
                let read = Typed::read(&showed, ask.dimension).unwrap();
                if !limits.is_empty() {
                    let right = match judge(read.quantity(), Some(&tool), limits).outcome {
                        Outcome::Judged(verdict) => verdict,
                        Outcome::Again => Verdict::Note,
                    };
                    let call = match slip {
                        Some(Slip::Called(step, verdict)) if step == planned.key => verdict,
                        _ if self.careless => Verdict::Ok,
                        _ => right,
                    };
                    self.does(&Doing::Call(call));
                }
                let (typed, instrument) = (showed, tool.id);
                self.does(&Doing::Walk(if ask.second {
                    let who = "Odile Marsh".to_owned();
                    Act::ReadAs {
                        who,
                        typed,
                        instrument,
                    }
                } else {
                    Act::Read { typed, instrument }
                }));
            }
            (PlannedAsk::Sighting(_), There::State(there)) => {
                let state = self.sees(&planned, slip, there);
                self.does(&Doing::Walk(Act::See { state }));
            }
            (PlannedAsk::Independent(_), There::State(there)) => {
                let state = self.sees(&planned, slip, there);
                let who = "Odile Marsh".to_owned();
                self.does(&Doing::Walk(Act::SeeAs { who, state }));
            }
            (ask, there) => panic!("{}: {ask:?} {there:?}", self.name()),
        }
    }

    fn sees(&mut self, planned: &PlannedStep, slip: Option<Slip>, there: String) -> String {
        let mut places = self.run.drill().vantages(planned);
        if self.careless {
            places.truncate(1);
            let first = places[0];
            self.does(&Doing::Look(first));
            let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
                panic!("{}", self.name());
            };
            let well = ask
                .states
                .iter()
                .find(|state| state.verdict == Verdict::Ok)
                .unwrap();
            let sights = sights();
            let sight = sights.of(&planned.step.id);
            let looks_well =
                sight.is_none_or(|sight| sight.sees(first, &well.id) == sight.sees(first, &there));
            return if looks_well { well.id.clone() } else { there };
        }
        for from in places {
            self.does(&Doing::Look(from));
        }
        match slip {
            Some(Slip::Seen(step, state)) if step == planned.key => state,
            _ => there,
        }
    }

    /// What the instrument showed last.
    fn showed(&self, index: usize) -> String {
        self.run.showed(index).unwrap().to_string()
    }

    fn mends(&mut self, index: usize) {
        let Status::Bad { branch, .. } = &self.run.walk().steps()[index].status else {
            panic!("{}", self.name());
        };
        let ends = self.run.walk().plan().branch(branch).unwrap().ends;
        if ends == hames::checklist::Ending::NotFitToGo {
            return self.ends(Ended::NotFitToGo, "it stays here");
        }
        self.does(&Doing::Walk(Act::PutRight {
            words: "put right, and looked at once more".to_owned(),
        }));
    }
}
