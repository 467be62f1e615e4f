//! One row: walks made of a few steps each, by the real machine, and what stands after them.

use crate::harness::good::step;
use chrono::{DateTime, FixedOffset, TimeDelta};
use hames::checklist::StepKey;
use hames::checklist::{Checklist, Haul, Plan, PlannedAsk};
use hames::haul::{Owned, Past, Standing, Today, Told, fold};
use hames::rig::Rig;
use hames::rig::demo::{JUNIPER, MESQUITE};
use hames::units::{Dimension, Quantity, Typed, Unit, parse_quantity};
use hames::walk::{Act, Ended, Moment, Now, Walk, Words};

const STEPS: &str = include_str!("../../vectors/carry.yaml");

/// A row under way.
#[derive(Default)]
pub(crate) struct Row {
    walks: Vec<Past>,
    /// What managers said.
    said: Vec<Owned>,
}

/// The head of a line of a walk.
struct Head {
    haul: Haul,
    odometer: Option<Quantity>,
    signed: bool,
    rig: &'static str,
    day: Option<i64>,
    paper: Option<i64>,
}

impl Row {
    /// Plays a row; where it comes to something else, what it says and what it came to.
    pub(crate) fn play(row: &str) -> Result<(), String> {
        let (about, lines) = row.split_once('\n').unwrap();
        let mut played = Self::default();
        for line in lines.lines().filter(|line| !line.is_empty()) {
            let (head, rest) = line.split_once(": ").unwrap_or_else(|| panic!("{line}"));
            if let Some(manager) = head.strip_prefix("manager ") {
                played.say(manager, rest);
                continue;
            }
            let Some(stands) = played.check(head) else {
                played.walk(head, rest);
                continue;
            };
            if stands != rest {
                return Err(format!("== {about}\n{line}\nbut it came to\n{stands}"));
            }
        }
        Ok(())
    }

    fn standing(&self) -> Standing {
        fold("juniper", &self.walks).with_words(&self.said)
    }

    /// A manager's word: `manager [unaware]: TRIP STEP, OWNER[, by DAY][, at ODOMETER]`.
    fn say(&mut self, head: &str, rest: &str) {
        let mut parts = rest.split(", ");
        let (trip, step) = parts.next().unwrap().rsplit_once(' ').unwrap();
        let whose = parts.next().unwrap().to_owned();
        let place = self.said.len();
        let mut owned = Owned {
            trip: trip.to_owned(),
            step: StepKey::named(step),
            owner: whose,
            by_day: None,
            by_odometer: None,
            words: None,
            manager: head.split(' ').next().unwrap().to_owned(),
            number: 1,
            at: day(1).wall,
            place,
            knew: if head.ends_with(" unaware") {
                Vec::new()
            } else {
                (0..place).collect()
            },
        };
        for part in parts {
            match part.split_once(' ').unwrap() {
                ("by", number) => {
                    owned.by_day = Some(day(number.parse().unwrap()).wall.date_naive());
                }
                (_, odometer) => owned.by_odometer = Typed::read(odometer, Dimension::Length).ok(),
            }
        }
        self.said.push(owned);
    }

    /// What a line of a check asks about; nothing for a line of a walk.
    fn check(&self, head: &str) -> Option<String> {
        let standing = self.standing();
        let (head, today) = head.split_once(" today ").unwrap_or((head, "1"));
        let (number, odometer) = today.split_once(' ').unwrap_or((today, ""));
        let odometer = parse_quantity(odometer, Dimension::Length).ok();
        let today = Today {
            day: day(number.parse().unwrap()).wall.date_naive(),
            odometer: odometer.as_ref(),
        };
        let lines: Vec<String> = match head.split(' ').next().unwrap() {
            "owners" => standing
                .defects
                .iter()
                .flat_map(|defect| {
                    defect.owners().map(move |one| {
                        let when = one.when(today, defect.furthest.as_ref());
                        let verdict = defect.verdict(today).word();
                        format!("{verdict} {}, {}, {when}", defect.found.step, one.owner)
                    })
                })
                .collect(),
            "open" => standing.open.iter().map(open).collect(),
            "defects" => standing
                .defects
                .iter()
                .map(|defect| {
                    let found = &defect.found;
                    let limit = found.limit.as_ref();
                    let limit =
                        limit.map(|limit| format!(", {} {}", limit.side.word(), limit.bound));
                    let remark = found.remark.as_ref().map(|remark| format!(", {remark}"));
                    // Why it was too dark is not what the rows are about.
                    let remark = remark.filter(|_| !found.found.starts_with("Too dark"));
                    format!(
                        "{} {}, {}{}, {}, {}{}",
                        found.verdict.word(),
                        found.step,
                        found.found,
                        limit.unwrap_or_default(),
                        found.who,
                        defect.trip,
                        remark.unwrap_or_default()
                    )
                })
                .collect(),
            "closed" => standing
                .closed
                .iter()
                .map(|closed| {
                    let was = &closed.defect.found;
                    let (by, trip) = (&closed.by, &closed.trip);
                    format!(
                        "{}, {} by {}, {}, {trip}",
                        was.step, was.found, by.found, by.who
                    )
                })
                .collect(),
            "served" => standing
                .served
                .iter()
                .map(|served| {
                    let part = served.item.as_ref().map(|part| format!(" {part}"));
                    let at = served.odometer.as_ref().map(|at| format!(" at {at}"));
                    format!(
                        "{}{} on {}{} by {}, {}",
                        served.what.word(),
                        part.unwrap_or_default(),
                        served.on,
                        at.unwrap_or_default(),
                        served.by,
                        served.trip
                    )
                })
                .collect(),
            "haul" => standing.haul.into_iter().map(|haul| haul.trip).collect(),
            "odometer" => standing
                .odometer
                .iter()
                .map(|read| read.shown.to_string())
                .collect(),
            "bars" => {
                let (_, head) = head.split_once(' ').unwrap();
                let (haul, steps) = head.split_once(' ').unwrap();
                let steps: Vec<&str> = steps.split(", ").collect();
                let list = list(haul_named(haul), &steps);
                let plan = Plan::lay_for(list, rig("juniper"), standing.carried()).unwrap();
                let bars = standing.bars(&plan, today).into_iter();
                bars.map(|defect| defect.found.step.to_string()).collect()
            }
            _ => return None,
        };
        Some(if lines.is_empty() {
            "nothing".to_owned()
        } else {
            lines.join("; ")
        })
    }

    /// Walks a line.
    fn walk(&mut self, head: &str, rest: &str) {
        let head = Head::read(head);
        let (answers, ends) = rest.split_once(" -> ").unwrap_or((rest, "complete"));
        let answers: Vec<(&str, &str)> = answers
            .split("; ")
            .map(|answer| answer.split_once('=').unwrap())
            .collect();
        let steps: Vec<&str> = answers
            .iter()
            .map(|(key, _)| key.split('/').next().unwrap())
            .collect();
        let number = i64::try_from(self.walks.len()).unwrap() + 1;
        let carried = fold(head.rig, &self.walks).carried();
        let plan = Plan::lay_for(list(head.haul, &steps), rig(head.rig), carried).unwrap();
        let words = |text| Words::read(text).unwrap();
        let at = day(head.day.unwrap_or(number));
        let mut walk = Walk::begin(
            plan,
            words("Wren Ashdown"),
            words("Tobias Fenn"),
            at.clone(),
        );
        if let Some(paper) = head.paper {
            walk = walk.from_paper(day(paper).wall);
        }
        let mut entries = Vec::new();
        let mut act = |walk: &mut Walk, act: Act| entries.push(step(walk, &act, &at).unwrap());
        answer_all(&mut walk, &answers, &mut act);
        if ends != "on" {
            let (_, outcome) = *Ended::WORDS.iter().find(|(word, _)| *word == ends).unwrap();
            let words = if ends == "complete" { "" } else { "rain" }.to_owned();
            act(&mut walk, Act::End { outcome, words });
        }
        self.walks.push(Past::of(
            &walk,
            &entries,
            Told {
                trip: format!("walk {number}"),
                odometer: head.odometer,
                signed: head.signed && ends != "on",
                began_with: [words("Wren Ashdown"), words("Tobias Fenn")],
            },
        ));
    }
}

/// Answers every step as the line says, until none is left or one stays bad.
fn answer_all(walk: &mut Walk, answers: &[(&str, &str)], act: &mut dyn FnMut(&mut Walk, Act)) {
    let mut given: Vec<usize> = vec![0; walk.plan().steps().len()];
    loop {
        match walk.now() {
            Now::Next(index) => {
                // An answer taken back with none in its place stays open.
                if said(walk, index, answers, given[index]) == Some("") {
                    return;
                }
                act(walk, Act::Open);
            }
            Now::Open(index) => {
                let answer = said(walk, index, answers, given[index]).unwrap();
                let answer = answering(walk, index, answer);
                act(walk, answer);
                given[index] += 1;
                taken_back(walk, index, answers, given[index], act);
            }
            Now::Remark(index) => {
                let words = "lived with".to_owned();
                act(walk, Act::Remark { words });
                taken_back(walk, index, answers, given[index], act);
            }
            Now::Branch(index) => {
                if said(walk, index, answers, given[index]).is_none() {
                    return;
                }
                let words = "mended".to_owned();
                act(walk, Act::PutRight { words });
            }
            Now::SectionEnd(_) => act(walk, Act::CloseSection),
            _ => return,
        }
    }
}

/// Takes an answer back where the line says so.
fn taken_back(
    walk: &mut Walk,
    index: usize,
    answers: &[(&str, &str)],
    given: usize,
    act: &mut dyn FnMut(&mut Walk, Act),
) {
    let planned = &walk.plan().steps()[index];
    let key = planned.key.clone();
    let (_, whole) = named(planned.key.as_str(), answers).unwrap_or(("", ""));
    let mark = whole.matches(['~', '>']).nth(given - 1);
    let done = matches!(walk.steps()[index].status, hames::walk::Status::Done(_));
    if mark == Some("~") && done {
        let words = "the wrong key".to_owned();
        act(walk, Act::Correct { step: key, words });
    }
}

/// The answer given to a step for the time after `given` others; nothing when the line has no more.
fn said<'a>(
    walk: &Walk,
    index: usize,
    answers: &[(&'a str, &'a str)],
    given: usize,
) -> Option<&'a str> {
    let key = walk.plan().steps()[index].key.as_str();
    match named(key, answers) {
        Some((_, whole)) => whole.split(['~', '>']).nth(given),
        None => Some("dark"),
    }
}

fn named<'a>(key: &str, answers: &[(&'a str, &'a str)]) -> Option<(&'a str, &'a str)> {
    let step = key.split('/').next().unwrap();
    let own = answers.iter().find(|(named, _)| *named == key);
    own.or_else(|| answers.iter().find(|(named, _)| *named == step))
        .copied()
}

fn answering(walk: &Walk, index: usize, answer: &str) -> Act {
    let planned = walk.asked(index).unwrap();
    match &planned.ask {
        PlannedAsk::Reading { .. } => {
            let tools = planned.tools(walk.plan().rig());
            let tool = tools.iter().find(|tool| tool.unfit.is_none()).unwrap();
            Act::Read {
                typed: answer.to_owned(),
                instrument: tool.instrument.id.clone(),
            }
        }
        _ => Act::See {
            state: answer.to_owned(),
        },
    }
}

impl Head {
    fn read(text: &str) -> Self {
        let mut words = text.split(' ').peekable();
        let mut head = Self {
            haul: haul_named(words.next().unwrap()),
            odometer: None,
            signed: true,
            rig: "juniper",
            day: None,
            paper: None,
        };
        while let Some(word) = words.next() {
            match word {
                "unsigned" => head.signed = false,
                "on" if words.peek() == Some(&"mesquite") => {
                    words.next();
                    head.rig = "mesquite";
                }
                "on" => head.day = words.nth(1).map(|day| day.parse().unwrap()),
                "from" => head.paper = words.nth(3).map(|day| day.parse().unwrap()),
                number => {
                    let odometer = format!("{number} {}", words.next().unwrap());
                    head.odometer = Some(parse_quantity(&odometer, Dimension::Length).unwrap());
                }
            }
        }
        head
    }
}

fn haul_named(word: &str) -> Haul {
    let known = Haul::WORDS.iter().find(|(known, _)| *known == word);
    known.unwrap_or_else(|| panic!("no haul {word}")).1
}

/// A list of these steps.
fn list(haul: Haul, steps: &[&str]) -> Checklist {
    let mut list = Checklist::read(STEPS).unwrap();
    list.haul = haul;
    list.road = matches!(haul, Haul::Begins | Haul::During);
    list.sections[0]
        .steps
        .retain(|step| steps.contains(&step.id.as_str()));
    list
}

fn rig(id: &str) -> Rig {
    Rig::read(if id == "mesquite" { MESQUITE } else { JUNIPER }).unwrap()
}

fn day(number: i64) -> Moment {
    let first: DateTime<FixedOffset> =
        DateTime::parse_from_rfc3339("2026-11-01T07:30:00-05:00").unwrap();
    Moment {
        wall: first + TimeDelta::days(number - 1),
        boot: "boot-1".to_owned(),
        mono_ms: 1_000_000,
    }
}

/// What stands open, in the words of a row.
fn open(open: &hames::haul::Open) -> String {
    let part = open.carried.part.as_ref().map(|part| format!(" {part}"));
    let at = open
        .since
        .odometer
        .as_ref()
        .filter(|_| !open.marks_left.is_empty());
    let at = at.map(|at| format!(" at {at}"));
    let dues = open.dues();
    let unit = dues.first().map_or(Unit::Mile, |due| due.unit);
    let due: Vec<String> = dues.iter().map(|due| due.value.rounded(3)).collect();
    let due = match (due.is_empty(), open.marks_left.len()) {
        (false, _) => format!(" due {} {}", due.join(", "), unit.symbol()),
        (true, 0) => String::new(),
        (true, left) => format!(", {left} to go"),
    };
    format!(
        "{}{} by {}{}{due}",
        open.carried.what.word(),
        part.unwrap_or_default(),
        open.since.trip,
        at.unwrap_or_default()
    )
}
