//! The sheet as plain text, eighty columns wide.

use crate::paper::{Sheet, SheetStep, Wanted};
use std::fmt::Write;

/// Columns of the sheet.
const WIDTH: usize = 80;

/// The sheet as plain text.
pub fn text(sheet: &Sheet) -> String {
    let mut page = Page(String::new());
    page.say(
        0,
        &format!(
            "{}, revision {}",
            sheet.title.to_uppercase(),
            sheet.revision
        ),
    );
    if let Some(standing) = &sheet.standing {
        page.say(0, standing);
    }
    page.say(0, &format!("Rig: {}", sheet.rig));
    page.blank();
    for line in FIELDS {
        page.say(0, line);
    }
    page.blank();
    for caution in &sheet.cautions {
        page.item(0, "!", caution);
    }
    for section in &sheet.sections {
        if section.steps.is_empty() {
            continue;
        }
        page.blank();
        let pause = if section.pause {
            "PAUSE, everything else stops: "
        } else {
            ""
        };
        page.say(0, &format!("== {pause}{}", section.title));
        for step in &section.steps {
            page.step(step);
        }
        page.item(0, "[ ]", &format!("Complete: {}", section.complete));
    }
    page.blank();
    page.say(0, "== If something was found");
    for branch in &sheet.branches {
        page.item(0, &branch.mark, &branch.found);
        for now in &branch.now {
            page.item(5, "-", now);
        }
        page.say(5, branch.ends);
    }
    if !sheet.limits.is_empty() {
        page.blank();
        page.say(0, "== Limits, to be read once the reading is written");
        for step in &sheet.limits {
            page.item(0, &step.number.to_string(), &step.name);
            for limit in &step.limits {
                page.item(5, "-", limit);
            }
        }
    }
    if !sheet.left.is_empty() {
        page.blank();
        page.say(0, "== Left out for this rig");
        for (step, because) in &sheet.left {
            page.item(0, "-", &format!("{step}: {because}"));
        }
    }
    page.blank();
    page.say(
        0,
        "What passed, by whom, when, with what: this sheet says no more than that.",
    );
    page.blank();
    for line in SIGNED {
        page.say(0, line);
    }
    page.0
}

const FIELDS: [&str; 3] = [
    "Date _____________  Began ________  Ended ________  Odometer ___________________",
    "Reads and writes _____________________  Does the work __________________________",
    "Second person ________________________  Air temperature ________________________",
];

const SIGNED: [&str; 2] = [
    "Outcome: [ ] complete  [ ] incomplete  [ ] not fit to go  [ ] abandoned",
    "Signed _________________________  Printed name ____________________  Time ______",
];

struct Page(String);

impl Page {
    fn blank(&mut self) {
        self.0.push('\n');
    }

    /// Words, broken at blanks, each line indented.
    fn say(&mut self, indent: usize, words: &str) {
        self.wrapped(indent, "", indent, words);
    }

    /// Words behind a mark.
    fn item(&mut self, indent: usize, mark: &str, words: &str) {
        let hang = indent + mark.chars().count().max(3) + 1;
        self.wrapped(indent, mark, hang, words);
    }

    fn wrapped(&mut self, indent: usize, mark: &str, hang: usize, words: &str) {
        let _ = write!(self.0, "{:indent$}{mark}", "");
        let mut at = indent + mark.chars().count();
        if hang > at {
            let _ = write!(self.0, "{:1$}", "", hang - at);
            at = hang;
        }
        for (place, word) in words.split(' ').enumerate() {
            let length = word.chars().count();
            if place > 0 && at + 1 + length > WIDTH {
                let _ = write!(self.0, "\n{:hang$}", "");
                at = hang;
            } else if place > 0 {
                self.0.push(' ');
                at += 1;
            }
            self.0.push_str(word);
            at += length;
        }
        self.0.push('\n');
    }

    fn step(&mut self, step: &SheetStep) {
        self.blank();
        if let Some(warning) = &step.warning {
            self.item(0, "!", &format!("WARNING: {warning}"));
        }
        let number = step.number.to_string();
        self.item(0, &number, &format!("{}. {}", step.name, step.act));
        if let Some(when) = &step.when {
            self.say(4, &format!("Only if {when}."));
        }
        match &step.wanted {
            Wanted::Reading {
                unit,
                instrument,
                second,
                limits,
            } => {
                let who = if *second {
                    "  read by ______________"
                } else {
                    ""
                };
                let with = instrument.replace('-', " ");
                self.say(
                    4,
                    &format!("____________ {unit}  with the {with} ____________{who}  at ______"),
                );
                for limit in limits {
                    self.item(4, "-", limit);
                }
            }
            Wanted::Sighting { choices, second } => {
                for choice in choices {
                    let leads = choice.leads.as_ref().map(|leads| format!("  -> {leads}"));
                    self.item(
                        4,
                        "[ ]",
                        &format!("{}{}", choice.seen, leads.unwrap_or_default()),
                    );
                }
                if *second {
                    self.say(4, "Looked at by ______________  at ______");
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_broken_at_blanks_and_hang_under_their_first() {
        let mut page = Page(String::new());
        page.item(4, "[ ]", "word ".repeat(20).trim_end());
        let lines: Vec<&str> = page.0.lines().collect();
        assert_eq!(lines.len(), 2);
        assert!(lines[0].starts_with("    [ ] word") && lines[1].starts_with("        word"));
        assert!(lines.iter().all(|line| line.chars().count() <= WIDTH));
    }
}
