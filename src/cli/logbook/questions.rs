//! `hames logbook questions`: what does not fit together, asked and never charged.

use crate::cli::Status;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::known::device_of;
use crate::cli::logbook::shelf::{Failed, kept, statements};
use crate::desk::earlier;
use crate::logbook::order::{Countersign, Order};
use crate::logbook::table;
use crate::logbook::{Answer, Answers, ClockMark, Question, Spot, has_left, unanswered};
use crate::record::{Finding, counted};
use crate::review::{Asking, attention};
use crate::units::{Quantity, Unit};
use crate::world::{Machine, World};
use serde::Serialize;
use std::io::{self, Write};
use std::path::PathBuf;

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
pub(super) fn ask(places: &[PathBuf], json: bool, out: &mut dyn Write) -> Result<Status, Failed> {
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
        asked.as_text(out)?;
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

    fn as_text(&self, out: &mut dyn Write) -> io::Result<()> {
        let trips = counted(self.trips, "trip");
        if self.questions.is_empty() {
            writeln!(
                out,
                "Nothing to ask about the ways of the trucks, from {trips}."
            )?;
        } else {
            writeln!(
                out,
                "{} for the manager, from {trips}. A question is no charge: it says what does not \
                 fit together, and both sides of it may be right.",
                counted(self.questions.len(), "question")
            )?;
        }
        for (number, question) in (1..).zip(&self.questions) {
            writeln!(out, "{number}. {question}")?;
        }
        if !self.open.is_empty() {
            writeln!(
                out,
                "{} asked when a manager looked at a trip. Each is put to whoever had a hand in the trip \
                 when they next begin a walk, and stands until the manager who asked agrees to the trip \
                 with hames logbook countersign TRIP.",
                counted(self.open.len(), "question")
            )?;
        }
        for open in &self.open {
            told(open, &self.answers, out)?;
        }
        if !self.left_open.is_empty() {
            writeln!(
                out,
                "{} asked by who is no manager of the crew any more. Any manager \
                 of the crew can agree to the trip in their place, with hames logbook countersign \
                 TRIP.",
                counted(self.left_open.len(), "question")
            )?;
        }
        for open in &self.left_open {
            told(open, &self.answers, out)?;
        }
        let unknown = self.answers.to_unknown();
        if !unknown.is_empty() {
            writeln!(
                out,
                "{} to questions that are not known here: merge the logbook of the manager who asked, \
                 with hames logbook merge FOLDER.",
                counted(unknown.len(), "answer")
            )?;
        }
        for answer in unknown {
            writeln!(out, "  {answer}")?;
        }
        if !self.came_about.is_empty() {
            writeln!(
                out,
                "{} about how a record came about. None of them says that anybody did wrong; ask \
                 with the trip in hand, and thank whoever tells how it was:",
                counted(self.came_about.len(), "question")
            )?;
        }
        for asking in &self.came_about {
            writeln!(out, "  {asking}")?;
        }
        for (title, doubtful) in [
            ("Times in the records that nobody should lean on:", true),
            ("What the clocks tell of how walks went:", false),
        ] {
            let mut marks = self
                .marks
                .iter()
                .filter(|mark| mark.is_doubtful() == doubtful)
                .peekable();
            if marks.peek().is_some() {
                writeln!(out, "{title}")?;
            }
            for mark in marks {
                writeln!(out, "  {mark}")?;
            }
        }
        for (trip, why) in &self.left_out {
            writeln!(out, "not counted: {trip}, {why}")?;
        }
        Ok(())
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

/// A manager's question in one line, and what was answered to it below.
fn told(open: &Countersign<'_>, answers: &Answers, out: &mut dyn Write) -> io::Result<()> {
    let (trip, by) = (open.says, &open.by);
    writeln!(
        out,
        "  “{}”, about trip {} of {}, asked by {} on {}, in statement {}",
        open.question().unwrap_or_default(),
        trip.seq,
        trip.device,
        by.name,
        earlier::date(&by.clock.moment()),
        by.number
    )?;
    for answer in answers.to(&by.hash) {
        writeln!(out, "    {answer}")?;
    }
    Ok(())
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
