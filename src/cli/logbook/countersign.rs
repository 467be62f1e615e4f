//! `hames logbook countersign`: a manager looks at a trip, at each thing that is not as expected,
//! and signs what they think of it. One trip after the other, never several by one signature.

use crate::cli::Status;
use crate::cli::clerk::{LaidOut, Plans, Said};
use crate::cli::logbook::known::Known;
use crate::cli::logbook::manager::{Not, Sitting};
use crate::desk::Exception;
use crate::record::{Finding, Id, Opinion, Says, counted};
use crate::store::TripFolder;
use crate::walk::Words;
use crate::world::{Machine, World};

pub(super) fn countersign(
    sitting: &mut Sitting<'_>,
    trips: &[(Id, TripFolder)],
) -> Result<Status, Not> {
    let known = Known::read(sitting.books.logbook.root())?.unwrap_or_default();
    for (number, trip) in (1..).zip(trips) {
        if trips.len() > 1 {
            let all = trips.len();
            sitting.talk.head(&format!("Trip {number} of {all}."))?;
        }
        one(sitting, trip, &known).map_err(|not| match not {
            Not::Left if number > 1 => left(trips, number),
            not => not,
        })?;
    }
    Ok(Status::Fine)
}

/// What is said where it was left at this trip, the first being 1, and the ones before are signed.
fn left(trips: &[(Id, TripFolder)], number: usize) -> Not {
    let open = trips.iter().skip(number - 1);
    let open: Vec<String> = open
        .map(|(device, folder)| format!("{device}/{}", folder.seq))
        .collect();
    Not::Said(
        Status::Usage,
        format!(
            "Left. {} countersigned and kept; not countersigned: {}.",
            counted(number - 1, "trip"),
            open.join(", ")
        ),
    )
}

fn one(sitting: &mut Sitting<'_>, trip: &(Id, TripFolder), known: &Known) -> Result<(), Not> {
    let read = sitting
        .books
        .read(&trip.0, &trip.1, &mut Plans::default())?;
    let exceptions = match (read.trip(), read.walk()) {
        (Some(verified), Ok(walk)) => known.exceptions((&trip.0, &read), (verified, &walk)),
        _ => Vec::new(),
    };
    let order = known.order_of(&trip.0);
    let beside = (exceptions, order.as_slice());
    let manager = &sitting.manager;
    let laid = sitting.clerk.lay_out(trip, manager, beside, &known.answers);
    let laid = laid.map_err(|trouble| match read.finding() {
        Finding::Intact | Finding::NotCountersigned => Not::from(trouble),
        finding => Not::Said(
            Status::Verified(finding),
            std::iter::once(trouble.to_string())
                .chain(read.faults().iter().map(|fault| format!("  {fault}")))
                .collect::<Vec<_>>()
                .join("\n"),
        ),
    })?;
    let began = Machine::this().now();
    show(sitting, &laid, &known.findings(&read))?;
    let (opened, left) = look_at(sitting, &laid.exceptions)?;
    let said = Said {
        took_ms: Machine::this().now().since(&began),
        ..ask(sitting, &laid, opened, left)?
    };
    let what = format!("to countersign trip {} of {}", trip.1.seq, trip.0);
    let folder = sitting.sign((&what, Says::COUNTERSIGNED), |clerk, who| {
        let shown = Some((order.as_slice(), &known.answers));
        clerk.countersign_as_shown((&trip.0, &trip.1), who, said.clone(), shown)
    })?;
    let told = match said.opinion {
        Opinion::Agreed => "agreed",
        Opinion::Asked => "asked, with a question",
    };
    sitting.signed(&format!("Countersigned: {told}."), &folder)
}

/// Who signed, what passed, how it ended, and what verification finds of it in the whole logbook.
fn show(sitting: &mut Sitting<'_>, laid: &LaidOut, findings: &[String]) -> Result<(), Not> {
    let talk = &mut sitting.talk;
    for (at, line) in laid.tale.heading.iter().enumerate() {
        if at == 0 {
            talk.head(line)?;
        } else {
            talk.say(line)?;
        }
    }
    // First of all, since it may be that nothing is left to do here.
    if let Some(already) = &laid.said {
        talk.head(&already.told("You"))?;
    }
    if !laid.passed.is_empty() {
        talk.head("Passed:")?;
    }
    for line in &laid.passed {
        talk.say(&format!("  {line}"))?;
    }
    talk.head("Signed:")?;
    for line in &laid.tale.signatures {
        talk.say(line)?;
    }
    talk.head(&format!("Verified: {}.", findings.join(". ")))?;
    Ok(())
}

/// Shows each exception; what was looked at, and how many were not.
fn look_at(
    sitting: &mut Sitting<'_>,
    exceptions: &[Exception],
) -> Result<(Vec<Words>, usize), Not> {
    let all = exceptions.len();
    if all == 0 {
        sitting.talk.head(
            "Nothing in it was out of limits, put off, corrected, noted or looked at twice.",
        )?;
    }
    let (mut opened, mut left) = (Vec::new(), 0);
    for (number, exception) in (1..).zip(exceptions) {
        let head = format!("To look at, {number} of {all}: {}", exception.named);
        sitting.talk.head(&head)?;
        for line in &exception.told {
            sitting.talk.say(&format!("  {line}"))?;
        }
        let question = "Type seen when you have looked at it, or later to leave it out.";
        match sitting.word(question, &["seen", "later"])?.as_str() {
            "seen" => opened.push(exception.named.clone()),
            _ => left += 1,
        }
    }
    Ok((opened, left))
}

/// The opinion and its words. Who has not looked at everything can only ask.
fn ask(
    sitting: &mut Sitting<'_>,
    laid: &LaidOut,
    opened: Vec<Words>,
    left: usize,
) -> Result<Said, Not> {
    let refused = laid.said.as_ref().map(|said| said.opinion);
    let (question, words) = match (left, refused) {
        (0, None) => (
            "Type agreed, or asked to put a question.",
            &["agreed", "asked"][..],
        ),
        (0, Some(Opinion::Asked)) => (
            "You asked already, so asked is refused until an answer comes. Type agreed to agree to \
             it.",
            &["agreed"][..],
        ),
        (_, Some(Opinion::Asked)) => {
            return Err(Not::Said(
                Status::Findings,
                format!(
                    "Nothing was signed: {left} not looked at, so it cannot be agreed to, and \
                     asking once more is refused until an answer comes. Wait for the answer, or \
                     begin again and look at everything."
                ),
            ));
        }
        (0, Some(Opinion::Agreed)) => (
            "You agreed already, so agreed is refused. Type asked to put a question.",
            &["asked"][..],
        ),
        (_, None | Some(Opinion::Agreed)) => {
            sitting.talk.head(&format!(
                "{left} not looked at, so it cannot be agreed to; a question can be put."
            ))?;
            ("Type asked to put a question.", &["asked"][..])
        }
    };
    let opinion = match sitting.word(question, words)?.as_str() {
        "agreed" => Opinion::Agreed,
        _ => Opinion::Asked,
    };
    let remarks = match opinion {
        Opinion::Agreed => sitting.words("Remarks; Enter for none.")?,
        Opinion::Asked => loop {
            match sitting.words("The question.")? {
                Some(words) => break Some(words),
                None => sitting.talk.say("A question has words.")?,
            }
        },
    };
    Ok(Said {
        opinion,
        opened,
        remarks,
        took_ms: 0,
    })
}
