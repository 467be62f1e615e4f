//! The settings in force as one JSON object.

use crate::barn::{OwnLimit, Policy, Settings, TireYears, Units};
use crate::plain::SettingsFrom;
use serde::Serialize;
use std::io::{self, Write};

#[derive(Serialize)]
struct Told<'a> {
    schema: &'static str,
    file: Option<&'a str>,
    name: Option<&'a str>,
    units: &'static str,
    road_side: &'static str,
    crown_side: &'static str,
    call: Option<Call<'a>>,
    tires: Tires,
    policies: Vec<Ruled<'a>>,
    limits: Vec<Own<'a>>,
}

#[derive(Serialize)]
struct Call<'a> {
    who: &'a str,
    phone: &'a str,
}

#[derive(Serialize)]
struct Tires {
    note_years: i64,
    stop_years: i64,
    is_default: bool,
    because: &'static str,
}

/// One policy, with both sides of the argument.
#[derive(Serialize)]
struct Ruled<'a> {
    policy: &'static str,
    asks: &'static str,
    choice: &'static str,
    means: &'static str,
    is_default: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    grounds: Option<&'a str>,
    default: Side,
    other: Side,
    either_way: &'static str,
}

#[derive(Serialize)]
struct Side {
    choice: &'static str,
    says: &'static str,
    source: &'static str,
}

#[derive(Serialize)]
struct Own<'a> {
    checklist: &'a str,
    step: &'a str,
    verdict: &'static str,
    side: &'static str,
    bound: &'a str,
    why: &'a str,
}

pub(super) fn write(
    settings: &Settings,
    from: &SettingsFrom,
    out: &mut dyn Write,
) -> io::Result<()> {
    let road_side = settings.policies.road_side();
    let tires = settings.tires;
    let told = Told {
        schema: "hames-barn-settings/1",
        file: match from {
            SettingsFrom::File(file) => Some(file),
            _ => None,
        },
        name: settings.name.as_deref(),
        units: Units::word(settings.units),
        road_side: road_side.word(),
        crown_side: road_side.crown().word(),
        call: settings.call.as_ref().map(|call| Call {
            who: call.who(),
            phone: call.phone(),
        }),
        tires: Tires {
            note_years: tires.note(),
            stop_years: tires.stop(),
            is_default: tires == TireYears::default(),
            because: TireYears::BECAUSE,
        },
        policies: Policy::WORDS
            .into_iter()
            .map(|(_, policy)| ruled(settings, policy))
            .collect(),
        limits: settings.limits.iter().map(own).collect(),
    };
    serde_json::to_writer_pretty(&mut *out, &told)?;
    writeln!(out)
}

fn ruled(settings: &Settings, policy: Policy) -> Ruled<'_> {
    let choice = settings.policies.choice(policy);
    let ruling = settings.policies.ruling(policy);
    let why = policy.why();
    let default = policy.default_choice();
    Ruled {
        policy: policy.word(),
        asks: why.asks,
        choice: choice.word(),
        means: choice.means(),
        is_default: choice.is_default(),
        grounds: ruling.and_then(|ruling| ruling.grounds.as_deref()),
        default: Side {
            choice: default.word(),
            says: why.default.says,
            source: why.default.source,
        },
        other: Side {
            choice: default.other().word(),
            says: why.other.says,
            source: why.other.source,
        },
        either_way: why.either_way,
    }
}

fn own(limit: &OwnLimit) -> Own<'_> {
    Own {
        checklist: &limit.checklist.text,
        step: &limit.step.text,
        verdict: limit.verdict.word(),
        side: limit.side.word(),
        bound: &limit.bound.text,
        why: &limit.why,
    }
}
