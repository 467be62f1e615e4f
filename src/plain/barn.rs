//! A barn's settings as lines of text: what is in force, and the grounds of every policy.

use crate::barn::{Choice, OwnLimit, Policy, Said, Settings, TireYears, Units};
use crate::text::put;

/// Where settings come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SettingsFrom {
    /// From this file.
    File(String),
    /// From nowhere: this file is not there.
    NoFile(String),
    /// From nowhere: this file is faulty.
    Faulty(String),
    /// They are the demo barn's.
    Demo,
    /// From nowhere: there is no folder to look in.
    Nowhere,
}

/// Every setting of a barn, no line longer than 80 columns.
pub fn report(settings: &Settings, from: &SettingsFrom) -> String {
    let mut text = String::new();
    put(&mut text, 0, settings.name.as_deref().unwrap_or("Barn"));
    put(&mut text, 0, &whence(from));
    if let SettingsFrom::NoFile(file) = from {
        // A command is copied, and so stays on one line.
        text.push_str("Begin one with: hames barn --example > ");
        text.push_str(file);
        text.push('\n');
    }
    text.push('\n');
    put(&mut text, 0, &units(settings.units));
    let road_side = settings.policies.road_side();
    let road = format!(
        "Road: traffic keeps {}; the crown side of the rig is its {}.",
        road_side.word(),
        road_side.crown().word()
    );
    put(&mut text, 0, &road);
    let call = match &settings.call {
        Some(call) => format!("Call when unsure: {call}."),
        None => "Call when unsure: nobody is named; the manager of the crew is.".to_owned(),
    };
    put(&mut text, 0, &call);
    tires(&mut text, settings.tires);
    text.push_str("\nPolicies, where honest sources disagree\n");
    for (_, policy) in Policy::WORDS {
        ruled(&mut text, settings, policy);
    }
    text.push_str("\nLimits of its own, beside those of the checklist\n");
    if settings.limits.is_empty() {
        put(&mut text, 2, "None.");
    }
    for limit in &settings.limits {
        own(&mut text, limit);
    }
    text
}

fn whence(from: &SettingsFrom) -> String {
    match from {
        SettingsFrom::File(file) => format!("Set in {file}."),
        SettingsFrom::NoFile(file) => {
            format!("There is no {file}, so every setting is at its default.")
        }
        SettingsFrom::Faulty(file) => {
            format!("{file} is faulty and not in force, so every setting is at its default.")
        }
        SettingsFrom::Demo => {
            "DEMO. An invented barn; its settings come with the program.".to_owned()
        }
        SettingsFrom::Nowhere => {
            "No folder of a logbook is known, so every setting is at its default.".to_owned()
        }
    }
}

fn units(units: Units) -> String {
    let examples = match units {
        Units::Us => "in, lb, psi",
        Units::Metric => "cm, kg, kPa",
    };
    format!(
        "Units: {} ({examples}); anything may be typed in either.",
        units.word()
    )
}

fn tires(text: &mut String, tires: TireYears) {
    let default = if tires == TireYears::default() {
        ", the default"
    } else {
        ""
    };
    let ages = format!(
        "Tires: a note from {} years of age, a stop from {}{default}.",
        tires.note(),
        tires.stop()
    );
    put(text, 0, &ages);
    put(text, 2, TireYears::BECAUSE);
}

fn ruled(text: &mut String, settings: &Settings, policy: Policy) {
    let choice = settings.policies.choice(policy);
    let standing = if choice.is_default() {
        "the default"
    } else {
        "this barn's choice"
    };
    text.push('\n');
    put(
        text,
        2,
        &format!("{}: {}, {standing}", policy.word(), choice.word()),
    );
    put(text, 4, &format!("{}.", choice.means()));
    let ruling = settings.policies.ruling(policy);
    if let Some(grounds) = ruling.and_then(|ruling| ruling.grounds.as_deref()) {
        put(text, 4, &format!("Allowed by: {grounds}"));
    }
    let (why, default) = (policy.why(), policy.default_choice());
    put(text, 4, &format!("Decides: {}.", why.asks));
    put(text, 4, &argued(default, why.default));
    put(text, 4, &argued(default.other(), why.other));
    put(text, 4, &format!("Either way: {}", why.either_way));
}

fn argued(choice: Choice, said: Said) -> String {
    format!("Why {}: {} [{}]", choice.word(), said.says, said.source)
}

fn own(text: &mut String, limit: &OwnLimit) {
    let line = format!(
        "{}, {}: {} {} {}",
        limit.checklist.text,
        limit.step.text,
        limit.verdict.word(),
        limit.side.word().replace('-', " "),
        limit.bound.text
    );
    put(text, 2, &line);
    put(text, 4, &format!("Why: {}", limit.why));
}
