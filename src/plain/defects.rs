//! Every defect of a barn, as lines of text.

use crate::desk::earlier::{date, owners};
use crate::desk::{BarnDefects, ClosedDefect, RigDefects, StandingDefect, again, stated};
use crate::haul::{Owned, Today};
use crate::record::counted;
use crate::rules::Verdict;
use crate::text::{ended, put};

/// Columns before what is told of a defect: the longest verdict and two blanks.
const INDENT: usize = 6;

/// What stands, by rig, and with `all` what was closed too. No line is longer than 80 columns.
pub fn report(barn: &BarnDefects, all: bool) -> String {
    let mut text = String::new();
    put(&mut text, 0, &heading(barn));
    for rig in &barn.rigs {
        of_rig(&mut text, rig, (all, barn.today()));
    }
    if !barn.of_none.is_empty() {
        text.push('\n');
        put(&mut text, 0, "Said of what does not stand here:");
        for (said, why) in &barn.of_none {
            put(&mut text, 2, &format!("{}: {why}.", stated(said)));
        }
    }
    if !all && barn.rigs.iter().any(|rig| !rig.closed.is_empty()) {
        text.push('\n');
        put(&mut text, 0, "What was closed is listed by --all.");
    }
    text
}

fn heading(barn: &BarnDefects) -> String {
    let standing = barn.rigs.iter().map(|rig| rig.standing.len()).sum();
    let off = barn.rigs.iter().filter(|rig| rig.is_off_the_road());
    let off: Vec<&str> = off.map(|rig| rig.name.as_str()).collect();
    let open = counted(standing, "defect");
    match (standing, off.is_empty()) {
        (0, _) => format!("Today, {}. No defect is open.", barn.day),
        (_, true) => format!(
            "Today, {}. {open} open. None keeps a rig off the road.",
            barn.day
        ),
        _ => format!(
            "Today, {}. {open} open. Off the road: {}.",
            barn.day,
            off.join("; ")
        ),
    }
}

fn of_rig(text: &mut String, rig: &RigDefects, (all, today): (bool, Today<'_>)) {
    let closed: &[ClosedDefect] = if all { &rig.closed } else { &[] };
    if rig.standing.is_empty() && closed.is_empty() {
        return;
    }
    text.push('\n');
    let odometer = rig.odometer.as_ref();
    let odometer = odometer.map_or_else(String::new, |at| format!(", odometer {at}"));
    put(text, 0, &format!("{} ({}){odometer}", rig.name, rig.rig));
    for one in &rig.standing {
        text.push('\n');
        standing(text, one, today);
        if all {
            taken(text, &one.defect.owned, |said| {
                one.defect.owners().any(|stands| stands == said)
            });
        }
    }
    if closed.is_empty() {
        return;
    }
    text.push('\n');
    put(text, 0, "Closed, the newest first:");
    for one in closed {
        text.push('\n');
        was_closed(text, one);
    }
}

fn standing(text: &mut String, one: &StandingDefect, today: Today<'_>) {
    let found = &one.defect.found;
    titled(
        text,
        one.verdict,
        &format!("{} ({})", found.name, found.step),
    );
    for line in one.told() {
        put(text, INDENT, &line);
    }
    let owners = owners(&one.defect, today);
    for owner in &owners {
        put(text, INDENT, &ended(owner));
    }
    if owners.is_empty() {
        let assign = one.assign();
        let told = match &assign {
            Some(_) => {
                "Nobody sees to it yet. A manager says who does, by when with --due or --due-at:"
                    .to_owned()
            }
            None => format!(
                "Nobody sees to it yet, and nobody has signed for trip {}. Take that up where it was \
                 walked, end it and sign it; then a manager says who sees to it.",
                one.trip
            ),
        };
        put(text, INDENT, &told);
        if let Some(assign) = assign {
            command(text, &assign);
        }
    }
    let effect = if one.keeps_back.is_empty() {
        "It warns, and keeps no list back.".to_owned()
    } else {
        format!(
            "Off the road. It keeps back: {}.",
            one.keeps_back.join(", ")
        )
    };
    put(text, INDENT, &effect);
    match &one.asked_by {
        Ok(lists) => put(text, INDENT, &format!("Asked by: {}.", lists.join(", "))),
        Err(walk) => {
            let told = "No list here asks it any more; the one it was found by does:";
            put(text, INDENT, told);
            command(text, walk);
        }
    }
}

/// A command stays in one line, so that it can be typed as it stands.
fn command(text: &mut String, typed: &str) {
    text.push_str(&" ".repeat(INDENT));
    text.push_str(typed);
    text.push('\n');
}

/// A defect that was closed, with the reading and the name that closed it.
fn was_closed(text: &mut String, one: &ClosedDefect) {
    let (was, by) = (&one.closed.defect.found, &one.closed.by);
    titled(text, was.verdict, &format!("{} ({})", was.name, was.step));
    let found = format!(
        "{}. {}, {}, trip {}.",
        was.found,
        was.who,
        date(&was.at),
        one.trip
    );
    put(text, INDENT, &found);
    if let Some(line) = again(&one.closed.defect) {
        put(text, INDENT, &line);
    }
    let closed = format!(
        "Closed {}: {}, {}: {}. {}, {}, trip {}.",
        after(one.closed.days()),
        by.name,
        by.step,
        by.found,
        by.who,
        date(&by.at),
        one.by_trip
    );
    put(text, INDENT, &closed);
    if one.closed.by_the_finder() {
        put(
            text,
            INDENT,
            "Question: it was checked by the one who found it. Has anybody else looked?",
        );
    }
    taken(text, &one.closed.defect.owned, |_| false);
}

/// How long it stood.
fn after(days: i64) -> String {
    match usize::try_from(days) {
        Ok(days) if days > 0 => format!("after {}", counted(days, "day")),
        _ => "the same day".to_owned(),
    }
}

/// What managers said of it, but for what is told already.
fn taken(text: &mut String, said: &[Owned], told: impl Fn(&Owned) -> bool) {
    for one in said.iter().filter(|one| !told(one)) {
        put(text, INDENT, &format!("Said: {}.", stated(one)));
    }
}

fn titled(text: &mut String, verdict: Verdict, title: &str) {
    let mut line = String::new();
    put(&mut line, INDENT, title);
    let word = match verdict {
        Verdict::Ok | Verdict::Note => verdict.word().to_owned(),
        Verdict::Fix | Verdict::Stop => verdict.word().to_uppercase(),
    };
    line.replace_range(..INDENT, &format!("{word:<INDENT$}"));
    text.push_str(&line);
}
