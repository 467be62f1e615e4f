//! A report as JSON: what it says, and its defects and trends as the same objects that the commands
//! for them write, so that whoever reads one reads the other.

use crate::cli::due::{ReckonedFrom, reckoned_from};
use crate::cli::logbook::defects::{self, Made, reported};
use crate::cli::logbook::trends::json::{AgeTold, SeriesTold, of_series, of_tires};
use crate::report::{Report, RigReport};
use serde::Serialize;

/// The report as one line of JSON.
pub(in crate::cli::logbook) fn json(report: &Report) -> Made<Vec<u8>> {
    let objects = Objects::of(report)?;
    let mut line = serde_json::to_vec(&Told { report, objects })?;
    line.push(b'\n');
    Ok(line)
}

#[derive(Serialize)]
struct Told<'r> {
    #[serde(flatten)]
    report: &'r Report,
    #[serde(flatten)]
    objects: Objects<'r>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Objects<'r> {
    Trip {
        defects_before: Vec<defects::Told<'r>>,
        defects_after: Vec<defects::Told<'r>>,
    },
    Rig {
        defects: Vec<defects::Told<'r>>,
        reckoned_from: Option<ReckonedFrom<'r>>,
        trends: Vec<SeriesTold<'r>>,
        tires: Vec<AgeTold<'r>>,
    },
    Month {
        defects: Vec<defects::Told<'r>>,
    },
}

impl<'r> Objects<'r> {
    fn of(report: &'r Report) -> Made<Self> {
        Ok(match report {
            Report::Trip(trip) => {
                let (before, after) = trip.defects();
                Self::Trip {
                    defects_before: reported(before)?,
                    defects_after: reported(after)?,
                }
            }
            Report::Rig(rig) => Self::of_rig(rig)?,
            Report::Month(month) => Self::Month {
                defects: reported(month.defects())?,
            },
        })
    }

    fn of_rig(report: &'r RigReport) -> Made<Self> {
        let from = report.odometer();
        let trends = report.trends();
        let rig = trends.map_or("", |trends| &trends.rig);
        let series = trends.into_iter().flat_map(|trends| &trends.series);
        let tires = trends.into_iter().flat_map(|trends| &trends.tires);
        Ok(Self::Rig {
            defects: reported(report.defects())?,
            reckoned_from: from
                .map(|(from, day)| reckoned_from(from, day))
                .transpose()?,
            trends: series
                .map(|series| of_series(rig, series))
                .collect::<Made<_>>()?,
            tires: tires.map(|due| of_tires(rig, due)).collect(),
        })
    }
}
