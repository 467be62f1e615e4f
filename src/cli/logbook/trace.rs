//! `hames logbook trace`: every reading that relied on one instrument.

use crate::cli::Status;
use crate::cli::amount::Amount;
use crate::cli::clerk::{Plans, TripRead};
use crate::cli::logbook::shelf::{Failed, name};
use crate::cli::logbook::unknown::no_such_rig;
use crate::cli::lot::lots;
use crate::desk::earlier;
use crate::logbook::{Rejudged, Use, WiderError, uses};
use crate::record::{Finding, counted};
use crate::rules::Limit;
use crate::store::TripFolder;
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::PathBuf;

const SCHEMA: &str = "hames-trace/1";

/// What is to be traced.
pub(super) struct Asked<'a> {
    pub(super) instrument: &'a str,
    /// Of this rig alone.
    pub(super) rig: Option<&'a str>,
    /// From this day on.
    pub(super) since: Option<NaiveDate>,
    /// As if it had been so wrong.
    pub(super) error: Option<&'a WiderError>,
    pub(super) json: bool,
}

/// One line of JSON.
#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    finding: &'static str,
    device: &'a str,
    number: u64,
    trip: &'a str,
    line: usize,
    rig: &'a str,
    instrument: &'a str,
    calibrated: Option<String>,
    step: &'a str,
    at: String,
    doer: &'a str,
    typed: &'a str,
    low: Amount,
    high: Amount,
    outcome: &'static str,
    replaced: bool,
    with_error: Option<AgainTold>,
}

#[derive(Serialize)]
struct AgainTold {
    error: Amount,
    outcome: &'static str,
    holds: bool,
    limit: Option<String>,
}

/// What was counted on the way.
#[derive(Default)]
struct Sums {
    readings: usize,
    trips: usize,
    fallen: usize,
    /// Readings of which the error asked about says nothing.
    unlike: usize,
    /// What kinds of quantity were read.
    kinds: BTreeSet<&'static str>,
    /// Readings before the day from which on is asked.
    before: usize,
    left_out: Vec<String>,
    /// The instruments there are, where the one asked for is not.
    known: BTreeSet<String>,
    /// The rigs walked.
    rigs: BTreeSet<String>,
}

/// Traces.
pub(super) fn trace(
    asked: &Asked<'_>,
    places: &[PathBuf],
    out: &mut dyn Write,
) -> Result<Status, Failed> {
    let (mut plans, mut sums) = (Plans::default(), Sums::default());
    // Nothing is told before it is known that the error can be one of this instrument.
    let mut lines = Vec::new();
    for lot in &lots(places, &[])? {
        let section = lot.judge(&mut plans, None)?;
        for line in &section.lines {
            let finding = line.finding(&section.judged);
            match lot.read(&line.folder, line.device.as_ref(), &mut plans) {
                Ok(read) => sums.take(asked, (&line.folder, &read, finding), &mut lines)?,
                Err(fault) => {
                    let left_out = format!("{}, {fault}", name(&line.folder));
                    sums.left_out.push(left_out);
                }
            }
        }
    }
    if asked.error.is_some() && sums.readings > 0 && sums.readings == sums.unlike {
        return Err(Failed::Said(Status::Usage, sums.of_another_kind(asked)));
    }
    out.write_all(&lines)?;
    if !asked.json {
        sums.tell(asked, out)?;
    }
    Ok(sums.status())
}

impl Sums {
    /// Takes the readings of one trip. What is found of the trip is what the whole logbook says of it.
    fn take(
        &mut self,
        asked: &Asked<'_>,
        (folder, read, finding): (&TripFolder, &TripRead, Finding),
        out: &mut dyn Write,
    ) -> io::Result<()> {
        let (Ok(walk), Some(trip)) = (read.walk(), read.trip()) else {
            self.left_out.push(format!("{}, {finding}", name(folder)));
            return Ok(());
        };
        let rig = walk.plan().rig();
        self.rigs.insert(rig.id.clone());
        if asked.rig.is_some_and(|wanted| wanted != rig.id) {
            return Ok(());
        }
        let instruments = rig.instruments.iter();
        self.known.extend(instruments.map(|one| one.id.clone()));
        let found = uses(&walk, trip, asked.instrument).into_iter();
        let is_early = |one: &Use| asked.since.is_some_and(|day| one.at.date_naive() < day);
        let (early, found): (Vec<Use>, Vec<Use>) = found.partition(is_early);
        self.before += early.len();
        self.readings += found.len();
        self.trips += usize::from(!found.is_empty());
        for one in found {
            let again = asked.error.and_then(|error| one.with(error));
            let falls = again
                .as_ref()
                .is_some_and(|again| !again.holds(&one.judgement));
            self.fallen += usize::from(falls);
            self.unlike += usize::from(asked.error.is_some() && again.is_none());
            self.kinds.insert(one.typed.quantity().dimension().word());
            if asked.json {
                tell_json(&one, again.as_ref(), finding.word(), out)?;
            } else {
                tell(&one, again.as_ref(), finding, out)?;
            }
        }
        Ok(())
    }

    /// Why nothing can be judged again with the error asked about.
    fn of_another_kind(&self, asked: &Asked<'_>) -> String {
        let kinds: Vec<&str> = self.kinds.iter().copied().collect();
        format!(
            "“{}” measures {}, and the error behind --error is of another kind of quantity. Write it \
             in a unit of {}, or as a share of each reading, such as '6 %'.",
            asked.instrument.escape_debug(),
            kinds.join(" and "),
            kinds.join(" or ")
        )
    }

    /// Why there is no reading to tell of.
    fn nothing(&self, asked: &Asked<'_>) -> String {
        let listed = |ids: &BTreeSet<String>| {
            let ids: Vec<&str> = ids.iter().map(String::as_str).collect();
            ids.join(", ")
        };
        let instrument = asked.instrument.escape_debug();
        let walked = self.rigs.iter().map(String::as_str);
        let rig = asked.rig.and_then(|rig| no_such_rig(rig, walked));
        match (rig, asked.since) {
            (Some(sentence), _) => sentence,
            (None, Some(day)) if self.before > 0 => format!(
                "No reading here was taken with “{instrument}” on {day} or later; {} before.",
                match self.before {
                    1 => "1 was".to_owned(),
                    many => format!("{many} were"),
                }
            ),
            _ if self.known.is_empty() => format!(
                "No reading here was taken with “{instrument}”. No rig walked here has an instrument."
            ),
            _ => format!(
                "No reading here was taken with “{instrument}”. Instruments of the rigs walked: {}.",
                listed(&self.known)
            ),
        }
    }

    fn status(&self) -> Status {
        if self.fallen > 0 || self.readings == 0 {
            Status::Findings
        } else {
            Status::Fine
        }
    }

    fn tell(&self, asked: &Asked<'_>, out: &mut dyn Write) -> io::Result<()> {
        if self.readings == 0 {
            writeln!(out, "{}", self.nothing(asked))?;
        } else {
            writeln!(
                out,
                "{} on {} taken with “{}”.",
                counted(self.readings, "reading"),
                counted(self.trips, "trip"),
                asked.instrument.escape_debug()
            )?;
        }
        if asked.error.is_some() && self.readings > 0 {
            writeln!(out, "{}", self.again())?;
        }
        for trip in &self.left_out {
            writeln!(out, "not counted: {trip}")?;
        }
        Ok(())
    }

    /// What judging again with the error came to.
    fn again(&self) -> String {
        let judged = self.readings.saturating_sub(self.unlike);
        let come = match (judged, self.fallen) {
            (1, 0) => "Judged again with that error, it comes to the same verdict.".to_owned(),
            (_, 0) => {
                format!("Judged again with that error, all {judged} come to the same verdicts.")
            }
            (_, 1) => {
                "1 of them comes to another verdict with that error. Take that reading again \
                       with an instrument you trust before that rig goes on the road; the records \
                       stay as they are."
                    .to_owned()
            }
            (_, fallen) => format!(
                "{fallen} of them come to another verdict with that error. Take those readings \
                 again with an instrument you trust before that rig goes on the road; the records \
                 stay as they are."
            ),
        };
        let unlike = match self.unlike {
            0 => return come,
            1 => "1 reading is of another kind of quantity than that error, and was not".to_owned(),
            unlike => {
                format!(
                    "{unlike} readings are of another kind of quantity than that error, and were not"
                )
            }
        };
        format!("{come}\n{unlike} judged again.")
    }
}

fn tell(
    one: &Use,
    again: Option<&Rejudged>,
    finding: Finding,
    out: &mut dyn Write,
) -> io::Result<()> {
    let band = &one.judgement.band;
    let fine = matches!(
        finding,
        Finding::Intact | Finding::NotCountersigned | Finding::Unsealed
    );
    let doubt = if fine {
        String::new()
    } else {
        format!("; the trip is found {finding}")
    };
    writeln!(
        out,
        "{}  trip {} of {}  {}  {}: {} ({} to {}), {}, read by {}{}{doubt}",
        earlier::date(&one.at),
        one.seq,
        one.device,
        one.rig,
        one.name.escape_debug(),
        one.typed.text().escape_debug(),
        band.low,
        band.high,
        one.judgement.outcome.word(),
        one.doer,
        if one.replaced {
            "; answered again later on that walk"
        } else {
            ""
        }
    )?;
    let falls = again.filter(|again| !again.holds(&one.judgement));
    if let Some(again) = falls {
        let band = &again.judgement.band;
        writeln!(
            out,
            "    wrong by {} it may stand for {} to {}: {}{}",
            again.error,
            band.low,
            band.high,
            again.judgement.outcome.word(),
            again
                .judgement
                .deciding()
                .map(|limit| format!(", {}", told(limit)))
                .unwrap_or_default()
        )?;
    }
    Ok(())
}

fn tell_json(
    one: &Use,
    again: Option<&Rejudged>,
    finding: &'static str,
    out: &mut dyn Write,
) -> io::Result<()> {
    let calibrated = one.instrument.calibrated;
    let with_error = again.map(|again| {
        Ok::<_, serde_json::Error>(AgainTold {
            error: Amount::of(&again.error)?,
            outcome: again.judgement.outcome.word(),
            holds: again.holds(&one.judgement),
            limit: again.judgement.deciding().map(told),
        })
    });
    let told = Told {
        schema: SCHEMA,
        finding,
        device: one.device.as_str(),
        number: one.seq,
        trip: one.trip.as_str(),
        line: one.line,
        rig: &one.rig,
        instrument: &one.instrument.id,
        calibrated: calibrated.map(|day| day.to_string()),
        step: &one.step,
        at: one.at.to_rfc3339(),
        doer: &one.doer,
        typed: one.typed.text(),
        low: Amount::of(&one.judgement.band.low)?,
        high: Amount::of(&one.judgement.band.high)?,
        outcome: one.judgement.outcome.word(),
        replaced: one.replaced,
        with_error: with_error.transpose()?,
    };
    serde_json::to_writer(&mut *out, &told)?;
    writeln!(out)
}

/// A limit with its authority.
fn told(limit: &Limit) -> String {
    format!(
        "{} {} {} ({}: {})",
        limit.verdict.word(),
        limit.side.word().replace('-', " "),
        limit.bound,
        limit.basis.authority.word(),
        limit.basis.source.escape_debug()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_judged_again_is_told_in_words_that_fit_the_number() {
        let told = |readings, fallen, unlike| {
            let sums = Sums {
                readings,
                fallen,
                unlike,
                ..Sums::default()
            };
            sums.again()
        };
        for (sums, start) in [
            (
                (1, 0, 0),
                "Judged again with that error, it comes to the same verdict.",
            ),
            (
                (3, 0, 0),
                "Judged again with that error, all 3 come to the same verdicts.",
            ),
            (
                (3, 1, 0),
                "1 of them comes to another verdict with that error. Take that reading",
            ),
            (
                (3, 2, 0),
                "2 of them come to another verdict with that error. Take those readings",
            ),
        ] {
            let told = told(sums.0, sums.1, sums.2);
            assert!(told.starts_with(start), "{told}");
            assert_eq!(told.lines().count(), 1, "{told}");
        }
        for (unlike, end) in [
            (
                1,
                "\n1 reading is of another kind of quantity than that error, and was not judged again.",
            ),
            (
                2,
                "\n2 readings are of another kind of quantity than that error, and were not judged again.",
            ),
        ] {
            let told = told(5, 1, unlike);
            assert!(told.ends_with(end), "{told}");
        }
    }
}
