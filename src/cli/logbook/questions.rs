//! `hames logbook questions`: what does not fit together, asked and never charged.

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::known::device_of;
use crate::cli::logbook::shelf::{Failed, kept, statements};
use crate::cli::logbook::{AboutLogbook, demo_line};
use crate::desk::earlier;
use crate::logbook::order::{Countersign, Order};
use crate::logbook::table;
use crate::logbook::{Answer, Answers, ClockMark, Question, Spot, has_left, unanswered};
use crate::record::{Finding, counted};
use crate::review::{Asking, attention};
use crate::text::put;
use crate::units::{Quantity, Unit};
use crate::world::{Machine, World};
use serde::Serialize;
use std::io::{self, Write};

const SCHEMA: &str = "hames-questions/1";

/// One line of JSON.
#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum Told<'a> {
    Question {
        schema: &'static str,
        about: &'static str,
        truck: &'a str,
        earlier: SpotTold<'a>,
        later: SpotTold<'a>,
        question: String,
    },
    Clock {
        schema: &'static str,
        about: &'static str,
        doubtful: bool,
        device: &'a str,
        number: u64,
        trip: &'a str,
        line: usize,
        at: String,
        told: String,
    },
    Asked {
        schema: &'static str,
        device: &'a str,
        number: u64,
        trip: &'a str,
        by: &'a str,
        name: &'a str,
        statement: u64,
        at: String,
        question: &'a str,
        answers: Vec<AnswerTold>,
    },
    Answer {
        schema: &'static str,
        #[serde(flatten)]
        answer: AnswerTold,
    },
    HowItCameAbout {
        schema: &'static str,
        about: &'static str,
        device: &'a str,
        number: u64,
        trip: &'a str,
        at: String,
        who: &'a str,
        of_many: bool,
        question: String,
    },
    NotCounted {
        schema: &'static str,
        path: &'a str,
        why: &'a str,
    },
}

/// An answer; whether it counts, and what verification finds of the trip it is in.
#[derive(Serialize)]
struct AnswerTold {
    statement_hash: String,
    by: String,
    had_a_hand: bool,
    at: Option<String>,
    in_device: String,
    in_number: u64,
    counts: bool,
    finding: &'static str,
    answer: String,
}

/// A reading.
#[derive(Serialize)]
struct SpotTold<'a> {
    device: &'a str,
    number: u64,
    trip: &'a str,
    at: String,
    who: &'a str,
    read: &'a str,
    metres: String,
}

/// What there is to ask.
struct Asked<'s> {
    questions: Vec<Question>,
    /// What managers asked when they countersigned, and what still stands.
    open: Vec<Countersign<'s>>,
    /// The same of managers who have left the crew.
    left_open: Vec<Countersign<'s>>,
    answers: Answers,
    marks: Vec<ClockMark>,
    came_about: Vec<Asking>,
    left_out: Vec<(String, String)>,
    trips: usize,
}

/// Asks.
pub(super) fn ask(about: &AboutLogbook, json: bool, out: &mut dyn Write) -> Result<Status, Failed> {
    let places = about.places.as_slice();
    let (statements, mut plans) = (statements(places), Plans::default());
    let (mut gathered, mut order) = (Gathered::default(), Order::new(&statements));
    let mut answers = Answers::of(&statements);
    for kept in kept(places)? {
        let read = kept.read(&mut plans);
        let finding = match &read {
            Ok(read) => read.finding(),
            Err(_) => Finding::Unreadable,
        };
        gathered.take(&kept.folder, (read.as_ref(), finding), &statements);
        if let (Ok(read), Some(device)) = (&read, device_of(&kept.folder)) {
            answers.take((&device, kept.folder.seq), &read.examined, finding);
        }
        if let Some(trip) = read.as_ref().ok().and_then(TripRead::trip) {
            order.take(trip);
        }
    }
    let judged = order.judge();
    answers.settle(&judged.faults);
    gathered.leave_ended(&judged);
    let left_out = std::mem::take(&mut gathered.left_out);
    let trips = gathered.trips;
    let came_about = attention(std::mem::take(&mut gathered.briefs));
    let now = Machine::this().now().wall;
    let table::Asked {
        questions, marks, ..
    } = gathered.asked(Some(now));
    let (left_open, open) = unanswered(&statements)
        .into_iter()
        .partition(|one| has_left(&statements, &one.by.manager));
    let asked = Asked {
        questions,
        open,
        left_open,
        answers,
        marks,
        came_about,
        left_out,
        trips,
    };
    if json {
        asked.as_json(out)?;
    } else {
        demo_line(about, out)?;
        out.write_all(asked.as_text().as_bytes())?;
    }
    Ok(asked.status())
}

impl Asked<'_> {
    fn status(&self) -> Status {
        let none = self.questions.is_empty()
            && self.all_open().next().is_none()
            && self.came_about.is_empty();
        if none && !self.marks.iter().any(ClockMark::is_doubtful) {
            Status::Fine
        } else {
            Status::Findings
        }
    }

    /// What managers asked, whether they are still there or not.
    fn all_open(&self) -> impl Iterator<Item = &Countersign<'_>> {
        self.open.iter().chain(&self.left_open)
    }

    /// As text, no line of it longer than 80 columns.
    fn as_text(&self) -> String {
        let mut text = String::new();
        let trips = counted(self.trips, "trip");
        let heading = if self.questions.is_empty() {
            format!("Nothing to ask about the ways of the trucks, from {trips}.")
        } else {
            format!(
                "{} for the manager, from {trips}. A question is no charge: it says what does not \
                 fit together, and both sides of it may be right.",
                counted(self.questions.len(), "question")
            )
        };
        put(&mut text, 0, &heading);
        for (number, question) in (1..).zip(&self.questions) {
            put(&mut text, 0, &format!("{number}. {question}"));
        }
        self.put_asked(&mut text);
        let unknown = self.answers.to_unknown();
        if !unknown.is_empty() {
            let heading = format!(
                "{} to questions that are not known here. Merge the logbook of the manager who asked:",
                counted(unknown.len(), "answer")
            );
            put(&mut text, 0, &heading);
            put(&mut text, 2, "hames logbook merge FOLDER");
        }
        for answer in unknown {
            put(&mut text, 2, &answer.to_string());
        }
        if !self.came_about.is_empty() {
            let heading = format!(
                "{} about how a record came about. None of them says that anybody did wrong; ask \
                 with the trip in hand, and thank whoever tells how it was:",
                counted(self.came_about.len(), "question")
            );
            put(&mut text, 0, &heading);
        }
        for asking in &self.came_about {
            put(&mut text, 2, &asking.to_string());
        }
        self.put_marks(&mut text);
        for (trip, why) in &self.left_out {
            put(&mut text, 0, &format!("not counted: {trip}, {why}"));
        }
        text
    }

    /// What managers asked, each with what was answered below.
    fn put_asked(&self, text: &mut String) {
        for (open, heading) in [
            (
                &self.open,
                "asked when a manager looked at a trip. Each is put to whoever had a hand in the trip \
                 when they next begin a walk, and stands until the manager who asked agrees to the \
                 trip:",
            ),
            (
                &self.left_open,
                "asked by who is no manager of the crew any more. Any manager of the crew can agree \
                 to the trip in their place:",
            ),
        ] {
            if open.is_empty() {
                continue;
            }
            let many = counted(open.len(), "question");
            put(text, 0, &format!("{many} {heading}"));
            // On a line of its own, to be typed.
            put(text, 2, "hames logbook countersign TRIP");
            for one in open {
                told(text, one, &self.answers);
            }
        }
    }

    fn put_marks(&self, text: &mut String) {
        for (title, doubtful) in [
            ("Times in the records that nobody should lean on:", true),
            ("What the clocks tell of how walks went:", false),
        ] {
            let marks = self.marks.iter();
            let mut marks = marks
                .filter(|mark| mark.is_doubtful() == doubtful)
                .peekable();
            if marks.peek().is_some() {
                put(text, 0, title);
            }
            for mark in marks {
                put(text, 2, &mark.to_string());
            }
        }
    }

    fn as_json(&self, out: &mut dyn Write) -> io::Result<()> {
        for question in &self.questions {
            let (earlier, later) = question.spots();
            let told = Told::Question {
                schema: SCHEMA,
                about: question.word(),
                truck: question.truck(),
                earlier: spot(earlier),
                later: spot(later),
                question: question.to_string(),
            };
            line(out, &told)?;
        }
        for open in self.all_open() {
            let (trip, by) = (open.says, &open.by);
            let told = Told::Asked {
                schema: SCHEMA,
                device: trip.device.as_str(),
                number: trip.seq,
                trip: trip.trip.as_str(),
                by: by.manager.as_str(),
                name: by.name.as_str(),
                statement: by.number,
                at: by.clock.to_string(),
                question: open.question().unwrap_or_default(),
                answers: self.answers.to(&by.hash).iter().map(answer).collect(),
            };
            line(out, &told)?;
        }
        for unknown in self.answers.to_unknown() {
            let schema = SCHEMA;
            let answer = answer(unknown);
            line(out, &Told::Answer { schema, answer })?;
        }
        for asking in &self.came_about {
            let of = &asking.of;
            let told = Told::HowItCameAbout {
                schema: SCHEMA,
                about: asking.what.word(),
                device: of.device.as_str(),
                number: of.seq,
                trip: of.trip.as_str(),
                at: of.at.to_rfc3339(),
                who: &of.who,
                of_many: asking.what.is_of_many(),
                question: asking.what.to_string(),
            };
            line(out, &told)?;
        }
        for mark in &self.marks {
            let told = Told::Clock {
                schema: SCHEMA,
                about: mark.word(),
                doubtful: mark.is_doubtful(),
                device: mark.device.as_str(),
                number: mark.seq,
                trip: mark.trip.as_str(),
                line: mark.line,
                at: mark.at.to_rfc3339(),
                told: mark.to_string(),
            };
            line(out, &told)?;
        }
        for (path, why) in &self.left_out {
            let schema = SCHEMA;
            line(out, &Told::NotCounted { schema, path, why })?;
        }
        Ok(())
    }
}

/// A manager's question, and what was answered to it below.
fn told(text: &mut String, open: &Countersign<'_>, answers: &Answers) {
    let (trip, by) = (open.says, &open.by);
    let question = format!(
        "“{}”, about trip {}/{}, asked by {} on {}, in statement {}",
        open.question().unwrap_or_default(),
        trip.device,
        trip.seq,
        by.name,
        earlier::date(&by.clock.moment()),
        by.number
    );
    put(text, 2, &question);
    for answer in answers.to(&by.hash) {
        put(text, 4, &answer.to_string());
    }
}

fn answer(answer: &Answer) -> AnswerTold {
    AnswerTold {
        statement_hash: answer.answered.question.to_string(),
        by: answer.answered.by.to_string(),
        had_a_hand: !answer.stranger,
        at: answer.at.map(|at| at.to_rfc3339()),
        in_device: answer.device.to_string(),
        in_number: answer.seq,
        counts: answer.counts(),
        finding: answer.finding.word(),
        answer: answer.answered.words.to_string(),
    }
}

fn spot(spot: &Spot) -> SpotTold<'_> {
    SpotTold {
        device: spot.device.as_str(),
        number: spot.seq,
        trip: spot.trip.as_str(),
        at: spot.at.to_rfc3339(),
        who: &spot.who,
        read: &spot.read,
        metres: metres(&spot.means),
    }
}

fn metres(read: &Quantity) -> String {
    let read = read.in_unit(Unit::Metre);
    read.map_or_else(String::new, |read| read.value.to_string())
}

fn line(out: &mut dyn Write, told: &Told<'_>) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    writeln!(out)
}
