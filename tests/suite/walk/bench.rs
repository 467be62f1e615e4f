//! A small checklist on the demo rig, a clock that only moves when told, and a way to write a walk
//! down as lines of text.

use chrono::{DateTime, FixedOffset, TimeDelta};
use hames::checklist::{
    Ask, Branch, Checklist, Condition, Deferral, Ending, Haul, Plan, ReadingAsk, Section,
    SightingAsk, State, Step, StepKey, Style, Test,
};
use hames::figures::Figure;
use hames::rig::demo::JUNIPER;
use hames::rig::{HitchKind, InstrumentKind, Place, Rig};
use hames::rules::{Authority, Basis, Bound, Rung, Side, Verdict};
use hames::units::{Dimension, Exact, Unit, parse_quantity};
use hames::walk::{Act, Ended, Entry, Moment, Now, Refusal, Status, Walk, Words};
use std::sync::OnceLock;

/// A walk with its clock and its journal.
pub(crate) struct Bench {
    pub(crate) walk: Walk,
    pub(crate) journal: Vec<Entry>,
    /// The walk as whoever holds its journal against the rules walks it again.
    again: Walk,
    plan: Plan,
    now: Moment,
    paper: Option<DateTime<FixedOffset>>,
}

impl Bench {
    pub(crate) fn new() -> Self {
        Self::on(plan().clone())
    }

    /// A walk of another plan.
    pub(crate) fn on(plan: Plan) -> Self {
        let now = Moment {
            wall: DateTime::parse_from_rfc3339("2026-11-25T07:30:00-05:00").unwrap(),
            boot: "boot-1".to_owned(),
            mono_ms: 1_000_000,
        };
        Self {
            walk: fresh(&plan, &now),
            journal: Vec::new(),
            again: fresh(&plan, &now),
            plan,
            now,
            paper: None,
        }
    }

    /// A walk entered from paper.
    pub(crate) fn from_paper(walked: DateTime<FixedOffset>) -> Self {
        let mut bench = Self::new();
        bench.paper = Some(walked);
        bench.walk = bench.walk.from_paper(walked);
        bench.again = bench.again.from_paper(walked);
        bench
    }

    /// Lets time pass.
    pub(crate) fn wait(&mut self, seconds: u32) {
        self.now.mono_ms += u64::from(seconds) * 1000;
        self.now.wall += TimeDelta::seconds(i64::from(seconds));
    }

    /// The laptop is started anew.
    pub(crate) fn restart(&mut self) {
        self.now.boot = format!("{}+", self.now.boot);
        self.now.mono_ms = 5_000;
    }

    /// Does one act, and holds the machine to its promises: a refusal changes nothing, the walk
    /// rebuilt from its journal is the walk, and so is the walk that journal is walked again to.
    pub(crate) fn act(&mut self, act: &Act) -> Result<(), Refusal> {
        let before = self.walk.clone();
        let event = self.walk.decide(act, &self.now);
        assert_eq!(before, self.walk, "deciding changed the walk");
        let entry = Entry {
            at: self.now.clone(),
            actor: self.walk.reader().clone(),
            event: event?,
        };
        self.walk.apply(&entry);
        assert_eq!(self.again.repeat(&entry), Ok(()), "{entry:?}");
        assert_eq!(
            self.again, self.walk,
            "walked again it differs after {act:?}"
        );
        self.journal.push(entry);
        assert_eq!(
            self.rebuilt(),
            self.walk,
            "the fold of the journal differs after {act:?}"
        );
        Ok(())
    }

    /// The walk as its journal tells it.
    pub(crate) fn rebuilt(&self) -> Walk {
        let mut walk = fresh(&self.plan, self.walk.began());
        if let Some(walked) = self.paper {
            walk = walk.from_paper(walked);
        }
        self.journal.iter().for_each(|entry| walk.apply(entry));
        walk
    }

    /// Plays a script, one act a line, and returns what is next, or the refusal it met.
    pub(crate) fn play(&mut self, script: &str) -> String {
        for line in script
            .lines()
            .map(str::trim)
            .filter(|line| !line.is_empty())
        {
            let (verb, rest) = line.split_once(' ').unwrap_or((line, ""));
            match verb {
                "wait" => self.wait(rest.parse().unwrap()),
                "restart" => self.restart(),
                _ => {
                    if let Err(refusal) = self.act(&act(verb, rest)) {
                        return format!("refused: {refusal}");
                    }
                }
            }
        }
        self.stands()
    }

    /// What is next, in a few words.
    pub(crate) fn stands(&self) -> String {
        let key = |index: usize| self.walk.plan().steps()[index].key.as_str().to_owned();
        match self.walk.now() {
            Now::Next(index) => format!("next {}", key(index)),
            Now::Open(index) => format!("open {}", key(index)),
            Now::Branch(index) => match &self.walk.steps()[index].status {
                Status::Bad { verdict, branch } => {
                    format!("{} {} by {branch}", verdict.word(), key(index))
                }
                other => format!("branch without a bad answer: {other:?}"),
            },
            Now::Remark(index) => format!("remark {}", key(index)),
            Now::SectionEnd(at) => format!("end of {}", self.walk.plan().sections()[at].id),
            Now::Held => "held".to_owned(),
            Now::Unsure => "unsure".to_owned(),
            Now::Finished => "finished".to_owned(),
            Now::Ended(outcome) => format!("ended {}", outcome.word()),
        }
    }
}

/// One act from its line.
fn act(verb: &str, rest: &str) -> Act {
    let words = rest.to_owned();
    let two = |mark: &str| {
        let (left, right) = rest.split_once(mark).unwrap_or((rest, ""));
        (left.trim().to_owned(), right.trim().to_owned())
    };
    match verb {
        "open" => Act::Open,
        "see" => Act::See { state: words },
        "read" => {
            let (typed, instrument) = two(" by ");
            Act::Read { typed, instrument }
        }
        "see-as" => {
            let (who, state) = two(":");
            Act::SeeAs { who, state }
        }
        "remark" => Act::Remark { words },
        "put-right" => Act::PutRight { words },
        "close" => Act::CloseSection,
        "defer" => Act::Defer { words },
        "correct" => {
            let (step, words) = two(":");
            Act::Correct {
                step: StepKey::named(&step),
                words,
            }
        }
        "note" => Act::Note { words },
        "hold" => {
            let (why, next) = two("|");
            Act::Hold { why, next }
        }
        "resume" => Act::Resume,
        "take-up" => Act::TakeUp,
        "hand-over" => {
            let (reader, doer) = two("|");
            Act::HandOver { reader, doer }
        }
        "unsure" => Act::Unsure { words },
        "settle" => Act::Settle { words },
        "end" => {
            let (outcome, words) = two(":");
            let known = Ended::WORDS.iter().find(|(word, _)| *word == outcome);
            Act::End {
                outcome: known.unwrap_or_else(|| panic!("no outcome {outcome}")).1,
                words,
            }
        }
        other => panic!("no act {other}"),
    }
}

fn fresh(plan: &Plan, at: &Moment) -> Walk {
    let name = |text| Words::read(text).unwrap();
    Walk::begin(
        plan.clone(),
        name("Wren Ashdown"),
        name("Tobias Fenn"),
        at.clone(),
    )
}

/// The small checklist on the demo bumper pull, laid once for all tests.
fn plan() -> &'static Plan {
    static PLAN: OnceLock<Plan> = OnceLock::new();
    PLAN.get_or_init(|| Plan::lay(checklist(), Rig::read(JUNIPER).unwrap()).unwrap())
}

/// Two sections: the join, then tires and leaving.
///
/// `latch` is volatile; `gap` has every verdict; `tire` is a reading, by each wheel; `cord` can be
/// put off to the second section; `mirror` applies only when `gap` was seen in the dark.
fn checklist() -> Checklist {
    Checklist {
        id: "bench".to_owned(),
        title: "Bench".to_owned(),
        revision: 1,
        rigs: vec![HitchKind::BumperPull],
        haul: Haul::Apart,
        road: false,
        cautions: vec![],
        sections: vec![
            section(
                "join",
                vec![latch(), gap(), mirror(), cord(), second_look()],
            ),
            section("leave", vec![tire(), chocks()]),
        ],
        branches: vec![
            branch("close-it", Ending::AnswerAfresh),
            branch("shop", Ending::NotFitToGo),
            branch("air", Ending::AnswerAfresh),
        ],
    }
}

fn section(id: &str, steps: Vec<Step>) -> Section {
    Section {
        id: id.to_owned(),
        title: id.to_owned(),
        style: Style::ReadDo,
        pause: false,
        complete: format!("{id} is complete."),
        steps,
    }
}

fn step(id: &str, ask: Ask) -> Step {
    Step {
        id: id.to_owned(),
        name: id.to_owned(),
        act: format!("Look at the {id}."),
        why: "It can hurt.".to_owned(),
        skipped: "It can come loose.".to_owned(),
        warning: None,
        place: Place::Coupler,
        critical: false,
        volatile: false,
        least: None,
        blind: false,
        deferrable: None,
        each: None,
        when: None,
        serves: None,
        closes: vec![],
        ask,
    }
}

fn latch() -> Step {
    let states = [
        ("down", Verdict::Ok),
        ("proud", Verdict::Stop),
        ("cannot-see", Verdict::Fix),
    ];
    Step {
        critical: true,
        volatile: true,
        least: None,
        ..step("latch", Ask::Sighting(sighting(&states)))
    }
}

fn gap() -> Step {
    let states = [
        ("none", Verdict::Ok),
        ("hair", Verdict::Note),
        ("finger", Verdict::Stop),
        ("cannot-see", Verdict::Fix),
    ];
    step("gap", Ask::Sighting(sighting(&states)))
}

fn mirror() -> Step {
    let test = Test::Answered {
        step: "gap".to_owned(),
        state: "hair".to_owned(),
    };
    let when = Some(Condition {
        test,
        because: "the mirror shows how deep a hair goes".to_owned(),
    });
    let states = [
        ("flat", Verdict::Ok),
        ("deep", Verdict::Stop),
        ("cannot-see", Verdict::Fix),
    ];
    Step {
        when,
        ..step("mirror", Ask::Sighting(sighting(&states)))
    }
}

fn cord() -> Step {
    let states = [
        ("in", Verdict::Ok),
        ("loose", Verdict::Fix),
        ("cannot-see", Verdict::Fix),
    ];
    let deferrable = Some(Deferral {
        before: "leave".to_owned(),
    });
    Step {
        deferrable,
        ..step("cord", Ask::Sighting(sighting(&states)))
    }
}

fn second_look() -> Step {
    let states = [
        ("seated", Verdict::Ok),
        ("high", Verdict::Stop),
        ("cannot-see", Verdict::Fix),
    ];
    step("second-look", Ask::Independent(sighting(&states)))
}

fn chocks() -> Step {
    let states = [
        ("two", Verdict::Ok),
        ("one", Verdict::Fix),
        ("cannot-see", Verdict::Fix),
    ];
    step("chocks", Ask::Sighting(sighting(&states)))
}

fn sighting(states: &[(&str, Verdict)]) -> SightingAsk {
    let states = states.iter().map(|(id, verdict)| State {
        id: (*id).to_owned(),
        seen: (*id).to_owned(),
        leaves: None,
        verdict: *verdict,
        cannot_see: *id == "cannot-see",
        branch: match (*verdict, *id) {
            (Verdict::Stop, "deep") => Some("shop".to_owned()),
            (Verdict::Fix | Verdict::Stop, _) => Some("close-it".to_owned()),
            _ => None,
        },
    });
    SightingAsk {
        states: states.collect(),
        basis: basis(),
    }
}

/// The tires of each wheel: fix below 95 % of the target, stop at 80 % or less, note above 70 psi.
fn tire() -> Step {
    let share = |percent: i128| Bound::Of {
        figure: Figure::TireCold,
        share: Exact::ratio(percent, 100).unwrap(),
        plus: None,
        or: None,
    };
    let rung = |verdict, side, bound, branch: Option<&str>| Rung {
        verdict,
        side,
        bound,
        basis: basis(),
        branch: branch.map(str::to_owned),
        leaves: None,
    };
    let psi = |text| parse_quantity(text, Dimension::Pressure).unwrap();
    let ask = ReadingAsk {
        dimension: Dimension::Pressure,
        unit: Unit::Psi,
        instrument: InstrumentKind::PressureGauge,
        target: Some(share(100)),
        tells: None,
        plausible: (psi("20 psi"), psi("110 psi")),
        second: false,
        limits: vec![
            rung(Verdict::Fix, Side::Below, share(95), Some("air")),
            rung(Verdict::Stop, Side::AtOrBelow, share(80), Some("air")),
            rung(
                Verdict::Note,
                Side::Above,
                Bound::Fixed(psi("70 psi")),
                None,
            ),
        ],
    };
    Step {
        each: Some(hames::figures::Each::TrailerWheel),
        ..step("tire", Ask::Reading(ask))
    }
}

fn branch(id: &str, ends: Ending) -> Branch {
    Branch {
        id: id.to_owned(),
        found: "Not as it should be.".to_owned(),
        now: vec!["Put it right.".to_owned()],
        ends,
        leaves: None,
    }
}

fn basis() -> Basis {
    Basis {
        authority: Authority::Default,
        source: "common practice, no source".to_owned(),
    }
}

/// The wall clock of a moment, for reading tests.
pub(crate) fn clock(moment: &Moment) -> DateTime<FixedOffset> {
    moment.wall
}
