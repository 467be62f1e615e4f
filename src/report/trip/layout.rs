//! A trip's report laid out: what is not as expected before what was ok, and nothing twice.

use super::TripReport;
use super::readings::ReadingTold;
use crate::desk::lasted;
use crate::record::counted;
use crate::report::page::{Block, Item, Page, Row, Table, list, list_or};

impl TripReport {
    /// Laid out for people.
    pub(in crate::report) fn page(&self) -> Page {
        let title = format!("{}: {}", self.rig.name, self.checklist.name);
        let mut page = self.cover.page(title, self.about());
        page.picture.clone_from(&self.picture);
        page.part("What verification found", self.found());
        page.part("Who signed", self.signatures());
        page.part("What is not as expected", self.exceptions());
        page.part("Defects of the rig, and what stood open", self.what_stood());
        page.part("What was read", self.read());
        page.part("What was seen and was ok", self.seen());
        page.part("How it went", self.went());
        page.part("Who took part, and with what", self.with());
        page
    }

    fn about(&self) -> Vec<String> {
        let took = lasted(self.took_ms);
        let outcome = self.outcome.replace('-', " ");
        let outcome = format!("Outcome: {outcome}; {took} from the first line to the last");
        let files = format!(
            "Walked with {}. Checklist {}, SHA-256 {}. Rig file {}, SHA-256 {}.",
            self.walked_with,
            self.checklist.id,
            self.checklist.sha256,
            self.rig.id,
            self.rig.sha256
        );
        // The second line is the title.
        let heading = self.heading.iter().enumerate();
        let heading = heading.filter(|(at, _)| *at != 1);
        let heading = heading.map(|(_, line)| match line.split_once(" DEMO: ") {
            Some((line, _)) => line.to_owned(),
            None => line.clone(),
        });
        heading.chain([outcome, files]).collect()
    }

    fn found(&self) -> Vec<Block> {
        let mut blocks = vec![Block::Strong(format!(
            "{}: {}.",
            self.finding, self.finding_means
        ))];
        // The first sentence is the finding itself.
        blocks.extend(list(self.findings.get(1..).unwrap_or_default()));
        if let Some(seal) = &self.seal {
            blocks.push(Block::Words(format!(
                "Receipt {}. Seal, SHA-256 {}. {} lines; answers: {} ok, {} note, {} fix, {} stop.",
                seal.receipt, seal.hash, seal.lines, seal.ok, seal.note, seal.fix, seal.stop
            )));
        }
        if !self.asked.is_empty() {
            let asked = "What somebody may ask about how this record came about, each with the \
                         honest reasons there may be. None is a verdict on a person.";
            blocks.push(Block::Words(asked.to_owned()));
            blocks.extend(list(&self.asked));
        }
        blocks
    }

    fn signatures(&self) -> Vec<Block> {
        let mut lines: Vec<String> = Vec::new();
        match &self.seal {
            Some(seal) => lines.extend(
                seal.signatures
                    .iter()
                    .map(super::signed::SignatureTold::told),
            ),
            None => lines.push("Nobody has signed for this trip.".to_owned()),
        }
        lines.extend(self.said.iter().map(super::signed::CountersignTold::told));
        let answers = self.said.iter().flat_map(|one| one.answers.iter().cloned());
        lines.extend(answers);
        if self.said.is_empty() {
            lines.push("No manager has countersigned it.".to_owned());
        }
        vec![Block::List(lines)]
    }

    fn exceptions(&self) -> Vec<Block> {
        let mut blocks = Vec::new();
        if self.exceptions.is_empty() {
            let none = "Nothing in it was out of limits, put off, corrected, noted or looked at \
                        twice.";
            blocks.push(Block::Words(none.to_owned()));
        } else {
            let items = self.exceptions.iter().map(|exception| Item {
                head: exception.named.clone(),
                lines: exception.told.clone(),
            });
            blocks.push(Block::Items(items.collect()));
        }
        if !self.not_done.is_empty() {
            blocks.push(Block::Strong(format!(
                "Without an answer at the end: {}.",
                self.not_done.join("; ")
            )));
        }
        if !self.not_answered_again.is_empty() {
            blocks.push(Block::Strong(format!(
                "Asked again and not answered since: {}.",
                self.not_answered_again.join("; ")
            )));
        }
        blocks
    }

    fn what_stood(&self) -> Vec<Block> {
        let (before, after) = (&self.stood.0, &self.stood.1);
        if before.is_empty() && after.is_empty() {
            let none = "None is known of before this walk, and none was left by it.";
            return vec![Block::Words(none.to_owned())];
        }
        let still: Vec<String> = after
            .iter()
            .filter(|one| before.contains(one))
            .cloned()
            .collect();
        let ended: Vec<String> = before
            .iter()
            .filter(|one| !after.contains(one))
            .cloned()
            .collect();
        let new: Vec<String> = after
            .iter()
            .filter(|one| !before.contains(one))
            .cloned()
            .collect();
        let groups = [
            ("Stood before it, and stands after it:", still),
            ("Stood before it, and is closed or changed by it:", ended),
            ("Left by it:", new),
        ];
        let groups = groups.into_iter().filter(|(_, all)| !all.is_empty());
        groups
            .flat_map(|(head, all)| [Block::Words(head.to_owned()), Block::List(all)])
            .collect()
    }

    fn read(&self) -> Vec<Block> {
        let standing = self.readings.iter().filter(|read| !read.replaced);
        let standing: Vec<&ReadingTold> = standing.collect();
        if standing.is_empty() {
            return vec![Block::Words(
                "Nothing was read with an instrument.".to_owned(),
            )];
        }
        let replaced = self.readings.len() - standing.len();
        let mut sources: Vec<String> = Vec::new();
        let rows = standing
            .iter()
            .map(|read| self.row(read, &mut sources))
            .collect();
        let again = match replaced {
            0 => String::new(),
            some => format!(
                " {} that a later one took the place of {} among the exceptions.",
                counted(some, "reading"),
                if some == 1 { "stands" } else { "stand" }
            ),
        };
        let sources = (1..)
            .zip(&sources)
            .map(|(number, source)| format!("[{number}] {source}"));
        vec![
            Block::Table(Table {
                caption: format!(
                    "As typed, beside the limit that decided or lies nearest, and what the rig \
                     showed on the last walks before, the newest first.{again}"
                ),
                heads: vec![
                    "Reading", "Typed", "Came to", "Limit", "By", "With", "Before",
                ],
                rows,
            }),
            Block::Words("Whose word the limits are, and where it is written:".to_owned()),
            Block::Run(sources.collect()),
        ]
    }

    fn row(&self, read: &ReadingTold, sources: &mut Vec<String>) -> Row {
        let by = read.limit.as_ref().map(|limit| {
            let known = sources.iter().position(|one| *one == limit.source);
            let at = known.unwrap_or(sources.len());
            if known.is_none() {
                sources.push(limit.source.clone());
            }
            format!("{} [{}]", limit.authority, at + 1)
        });
        let tool = self.instruments.iter().zip(LETTERS);
        let mut tool = tool.filter(|(tool, _)| tool.id == read.instrument);
        let letter = tool.next().map(|(_, letter)| letter.to_string());
        let earlier: Vec<&str> = read
            .earlier
            .iter()
            .take(SHOWN)
            .map(|one| one.typed.as_str())
            .collect();
        let limit = read.limit.as_ref().map(|limit| limit.bound.clone());
        Row {
            strong: read.outcome != "ok",
            cells: vec![
                read.name.clone(),
                read.typed.clone(),
                read.outcome.to_owned(),
                limit.unwrap_or_else(|| "none".to_owned()),
                by.unwrap_or_default(),
                letter.unwrap_or_else(|| read.instrument.clone()),
                earlier.join(", "),
            ],
        }
    }

    fn seen(&self) -> Vec<Block> {
        let lines = self.seen.iter().map(|section| {
            format!(
                "{} ({}): {}",
                section.section,
                section.ok.len(),
                section.ok.join(", ")
            )
        });
        let lines: Vec<String> = lines.collect();
        let some = (!lines.is_empty()).then_some(Block::Run(lines));
        some.into_iter().collect()
    }

    fn went(&self) -> Vec<Block> {
        let lines = self.timeline.iter().map(|stretch| stretch.told.clone());
        vec![Block::Run(lines.collect())]
    }

    fn with(&self) -> Vec<Block> {
        let people = self
            .people
            .iter()
            .map(|one| format!("{} {} ({})", one.name, one.parts.join(", "), one.standing()));
        let tools = self.instruments.iter().zip(LETTERS);
        let tools = tools.map(|(tool, letter)| format!("{letter}  {}", tool.told()));
        let people: Vec<String> = people.collect();
        let tools: Vec<String> = tools.collect();
        let mut blocks = vec![list_or(&people, "Nobody is named.")];
        if !tools.is_empty() {
            let by =
                "Instruments, as the rig file tells them; what is wrong with one is in no reading:";
            blocks.push(Block::Words(by.to_owned()));
            blocks.push(Block::Run(tools));
        }
        blocks
    }
}

/// How many earlier readings stand in a row.
const SHOWN: usize = 3;

/// What instruments are called in a row.
const LETTERS: std::ops::RangeInclusive<char> = 'a'..='z';
