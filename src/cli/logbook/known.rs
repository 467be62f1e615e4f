//! What a whole logbook says beside each of its trips, read once for whoever opens one after the
//! other.

use crate::cli::clerk::{Left, Plans, TripRead};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::shelf::Failed;
use crate::cli::lot::{Lot, Section, lots};
use crate::desk::{Exception, exceptions, tell_unfinished};
use crate::logbook::order::{Countersign, OrderFault, end};
use crate::logbook::{Answer, Answers, has_left, unanswered};
use crate::record::{Digest, Finding, Id, Opinion, Statements, Verified};
use crate::review::{Past, attention};
use crate::store::TripFolder;
use crate::walk::{Walk, Words};
use crate::world::{Machine, World};
use chrono::{DateTime, FixedOffset};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::slice;

/// What is known of a logbook beside the trip that is opened.
#[derive(Default)]
pub(super) struct Known {
    /// What managers stated.
    pub(super) statements: Statements,
    pub(super) answers: Answers,
    /// What the walks of each rig have left.
    pub(super) left: Left,
    /// What the rigs showed before, by the rig's id.
    pasts: HashMap<String, Past>,
    /// What there is to ask about each trip: a word for it, and the question.
    asked: HashMap<Id, Vec<(&'static str, String)>>,
    /// What is found of each trip in the whole logbook.
    found: HashMap<PathBuf, Found>,
    /// What is wrong with the order of all trips.
    faults: Vec<OrderFault>,
    /// Histories that ended, each told of its trips.
    ended: HashMap<Digest, String>,
}

/// The same while the trips are read.
pub(super) struct Knowing {
    known: Known,
    gathered: Gathered,
}

/// What is found of one trip in the whole logbook.
struct Found {
    finding: Finding,
    told: Vec<String>,
}

impl Knowing {
    /// No trip yet, beside what managers stated.
    pub(super) fn beside(statements: &Statements) -> Self {
        let mut known = Known {
            statements: statements.clone(),
            answers: Answers::of(statements),
            ..Known::default()
        };
        known.left.say(statements);
        Self {
            known,
            gathered: Gathered::default(),
        }
    }

    /// Takes the next trip in.
    pub(super) fn take(&mut self, folder: &TripFolder, read: &TripRead, statements: &Statements) {
        let Self { known, gathered } = self;
        gathered.take(folder, (Ok(read), read.finding()), statements);
        if let Some(device) = device_of(folder) {
            let place = (&device, folder.seq);
            known.answers.take(place, &read.examined, read.finding());
        }
        if let (Some(trip), Ok(walk)) = (read.trip(), read.walk()) {
            known.left.take(read, (trip, &walk));
            let rig = trip.begun().rig.id.clone();
            known.pasts.entry(rig).or_default().take(trip, &walk);
        }
    }

    /// What all of them come to. The clock of whoever looks is one thing known.
    pub(super) fn settled(
        self,
        section: &Section<'_>,
        now: Option<DateTime<FixedOffset>>,
    ) -> Known {
        let Self {
            mut known,
            mut gathered,
        } = self;
        gathered.leave_ended(&section.judged);
        known.settle(section);
        let asking = attention(std::mem::take(&mut gathered.briefs));
        // What is asked about many trips of a person is no question about one of them.
        for one in asking.iter().filter(|one| !one.what.is_of_many()) {
            known.ask(&one.of.trip, (one.what.word(), one.what.to_string()));
        }
        let all = gathered.asked(now);
        for question in &all.questions {
            let (earlier, later) = question.spots();
            let told = (question.word(), question.to_string());
            known.ask(&earlier.trip, told.clone());
            if earlier.trip != later.trip {
                known.ask(&later.trip, told);
            }
        }
        for mark in all.marks.iter().filter(|mark| mark.is_doubtful()) {
            known.ask(&mark.trip, (mark.word(), mark.to_string()));
        }
        known
    }
}

impl Known {
    /// Reads every trip of a logbook; nothing where none lies there.
    pub(super) fn read(place: &Path) -> Result<Option<Self>, Failed> {
        let place = place.to_owned();
        let lots = lots(slice::from_ref(&place), &[])?;
        lots.first().map(Self::of).transpose()
    }

    fn of(lot: &Lot) -> Result<Self, Failed> {
        let now = Some(Machine::this().now().wall);
        let mut knowing = Knowing::beside(&lot.statements);
        let mut see = |folder: &TripFolder, read: &TripRead| {
            knowing.take(folder, read, &lot.statements);
        };
        let section = lot.judge_seeing(&mut Plans::default(), now, &mut see)?;
        Ok(knowing.settled(&section, now))
    }

    /// Takes in what the order of the trips comes to.
    fn settle(&mut self, section: &Section<'_>) {
        self.faults.clone_from(&section.judged.faults);
        self.answers.settle(&self.faults);
        for line in &section.lines {
            let finding = line.finding(&section.judged);
            let told = line.told(&section.judged);
            let found = Found { finding, told };
            self.found.insert(line.folder.path.clone(), found);
            let end = line.trip.as_ref().map(|trip| trip.end);
            let ended = end.and_then(|end| Some((end, section.judged.ended(&end)?)));
            self.ended
                .extend(ended.map(|(end, ended)| (end, ended.to_string())));
        }
    }

    fn ask(&mut self, trip: &Id, question: (&'static str, String)) {
        self.asked.entry(trip.clone()).or_default().push(question);
    }

    /// Takes in what managers stated since, when one of them countersigned a trip. That says that
    /// everything here was seen, and changes nothing of what was found but that.
    pub(super) fn restate(&mut self, statements: Statements, trip: &TripFolder, opinion: Opinion) {
        self.answers.ask(&statements);
        self.statements = statements;
        if let Some(found) = self.found.get_mut(&trip.path)
            && found.finding == Finding::NotCountersigned
            && opinion == Opinion::Agreed
        {
            found.finding = Finding::Intact;
        }
    }

    /// What is found of a trip in the whole logbook, given what is found of it by itself.
    pub(super) fn finding(&self, folder: &TripFolder, alone: Finding) -> Finding {
        let found = self.found.get(&folder.path);
        found.map_or(alone, |found| found.finding)
    }

    /// Everything that is found of it, in words.
    pub(super) fn findings(&self, read: &TripRead) -> Vec<String> {
        let finding = self.finding(&read.folder, read.finding());
        let told = self.found.get(&read.folder.path);
        let told = told.map_or_else(|| read.faults(), |found| found.told.clone());
        let ended = read.trip().and_then(|trip| self.ended.get(&end(trip)));
        std::iter::once(finding.told())
            .chain(ended.cloned())
            .chain(told)
            .collect()
    }

    /// What the rig of a trip showed before, in every trip of it that is here.
    pub(super) fn past(&self, trip: &Verified) -> Option<&Past> {
        self.pasts.get(&trip.begun().rig.id)
    }

    /// What there is to ask about a trip.
    pub(super) fn asked(&self, trip: &Verified) -> Vec<String> {
        let asked = self.asked.get(&trip.begun().trip);
        let asked = asked.map(Vec::as_slice).unwrap_or_default();
        asked.iter().map(|(_, told)| told.clone()).collect()
    }

    /// How much there is to ask about the trip with this id.
    pub(super) fn doubts(&self, trip: &Id) -> usize {
        self.asked.get(trip).map_or(0, Vec::len)
    }

    /// What is wrong with the order of a laptop's trips.
    pub(super) fn order_of(&self, device: &Id) -> Vec<OrderFault> {
        let mut faults = self.faults.clone();
        faults.retain(|fault| fault.device() == device);
        faults
    }

    /// The questions of managers about the trip with this seal that still stand, with what was
    /// answered to each.
    pub(super) fn open(&self, seal: &Digest) -> Vec<(Countersign<'_>, Vec<Answer>)> {
        let open = unanswered(&self.statements).into_iter();
        let open = open.filter(|one| one.says.seal == *seal);
        open.map(|one| {
            let answers = self.answers.to(&one.by.hash);
            (one, answers)
        })
        .collect()
    }

    /// Everything about a trip that has to be opened before a manager agrees to it: what was
    /// answered, what stands beside it, what is not as expected in it, and what there is to ask.
    pub(super) fn exceptions(
        &self,
        (device, read): (&Id, &TripRead),
        (trip, walk): (&Verified, &Walk),
    ) -> Vec<Exception> {
        let mut all: Vec<(String, Vec<String>)> = Vec::new();
        let seal = trip.sealed().map(|sealed| sealed.hash);
        let open = seal.map_or_else(Vec::new, |seal| self.open(&seal));
        for (asked, answers) in &open {
            all.extend(answers.iter().map(|answer| answered(asked, answer)));
        }
        let fine = [
            Finding::Intact,
            Finding::NotCountersigned,
            Finding::Unsealed,
        ];
        if !fine.contains(&read.finding()) {
            all.push(("what verification found".to_owned(), self.findings(read)));
        }
        if let Some(ended) = self.ended.get(&end(trip)) {
            all.push(("a history that ended".to_owned(), vec![ended.clone()]));
        }
        for (asked, _) in &open {
            all.extend(left_open(asked, &self.statements));
        }
        let named = |(named, told): (String, Vec<String>)| {
            let named = Words::read(&named).ok()?;
            Some(Exception { named, told })
        };
        let order: Vec<String> = self
            .order_of(device)
            .iter()
            .map(ToString::to_string)
            .collect();
        let order = (!order.is_empty()).then(|| (format!("order of the trips of {device}"), order));
        let asked = self.asked.get(&trip.begun().trip).into_iter().flatten();
        let asked = asked.map(|(word, told)| (format!("question: {word}"), vec![told.clone()]));
        let mut own = exceptions(trip, walk.plan());
        tell_unfinished(&mut own, trip, walk);
        all.into_iter()
            .filter_map(named)
            .chain(own)
            .chain(order.into_iter().chain(asked).filter_map(named))
            .collect()
    }
}

/// What was answered to a question, as something to look at. Its name is kept in the statement, so
/// it names nobody who walked.
fn answered(asked: &Countersign<'_>, answer: &Answer) -> (String, Vec<String>) {
    let (by, words) = (&asked.by, asked.question().unwrap_or_default());
    let named = format!(
        "answer in trip {} of {} to statement {} of {}",
        answer.seq, answer.device, by.number, by.manager
    );
    (
        named,
        vec![answer.to_string(), format!("{} asked: “{words}”", by.name)],
    )
}

/// A question of a manager who has left the crew.
fn left_open(asked: &Countersign<'_>, statements: &Statements) -> Option<(String, Vec<String>)> {
    let (by, words) = (&asked.by, asked.question().unwrap_or_default());
    has_left(statements, &by.manager).then(|| {
        let named = format!("question of {} in statement {}", by.manager, by.number);
        let told = format!(
            "“{words}”. {} is no manager of the crew any more: whoever agrees to the trip answers it in \
             their place",
            by.name
        );
        (named, vec![told])
    })
}

/// The laptop under whose name a trip lies: `dev/DEVICE/t/TRIP`.
pub(super) fn device_of(folder: &TripFolder) -> Option<Id> {
    let name = folder.path.ancestors().nth(2)?.file_name()?;
    Id::read(name.to_str()?).ok()
}
