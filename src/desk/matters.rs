//! What stands open and is due for a rig, the gravest first: the same on the screens, line by line
//! and in a refusal.

use crate::checklist::Haul;
use crate::desk::earlier::date;
use crate::desk::{Barn, ChecklistCard, RigCard};
use crate::due::{Due, When};
use crate::haul::Going;
use crate::rules::Verdict;

/// Most kinds of things that a rig's one line names.
const MOST_KINDS: usize = 3;

/// One thing that is due, or that nobody can say of when it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DueCard {
    /// What and when, with its verdict and, where it stops the rig, the way out.
    pub told: String,
    /// Why, and whose word that is.
    pub why: String,
    /// What it means for going on.
    pub verdict: Verdict,
    /// Whether anything says when.
    pub dated: bool,
}

/// The haul a rig is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HaulCard {
    /// When it began.
    pub since: String,
    /// The titles of the lists walked in it to their end.
    pub walked: Vec<String>,
}

/// Something that stands open or is due.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matter {
    /// Whether it keeps the rig off the road, and does not only warn.
    pub bars: bool,
    /// It, as a sentence.
    pub told: String,
    /// Why, where that is another sentence.
    pub why: Option<String>,
}

impl DueCard {
    /// What is due, without what is in time.
    pub fn of(due: &[Due]) -> Vec<Self> {
        let open = due.iter().filter(|one| one.verdict != Verdict::Ok);
        let card = |one: &Due| Self {
            told: told(one),
            why: if one.when == When::default() {
                one.basis.to_string()
            } else {
                format!("{} ({})", one.why, one.basis)
            },
            verdict: one.verdict,
            dated: !one.is_unknown(),
        };
        open.map(card).collect()
    }
}

/// One thing that is due: `STOP: Registration, truck: was due by … Renew it, …`.
pub fn told(due: &Due) -> String {
    let verdict = match due.verdict {
        Verdict::Ok | Verdict::Note => due.verdict.word().to_owned(),
        Verdict::Fix | Verdict::Stop => due.verdict.word().to_uppercase(),
    };
    let way_out = due.way_out.filter(|_| due.verdict == Verdict::Stop);
    let way_out = way_out.map_or_else(String::new, |way_out| format!(" {way_out}"));
    format!("{verdict}: {}{way_out}", due.sentence())
}

impl HaulCard {
    /// The haul still going.
    pub fn of(going: &Going) -> Self {
        Self {
            since: date(&going.since),
            walked: going.walked.clone(),
        }
    }
}

impl RigCard {
    /// Everything that stands open and is due, the gravest first.
    pub fn matters(&self) -> Vec<Matter> {
        let defects = |blocks| {
            let defects = self.defects.iter().filter(move |one| one.blocks == blocks);
            defects.map(|one| Matter {
                bars: one.blocks,
                told: one.told.clone(),
                why: None,
            })
        };
        let due = |verdict, dated| {
            let due = self.due.iter();
            let due = due.filter(move |one| (one.verdict, one.dated) == (verdict, dated));
            due.map(|one| Matter {
                bars: one.verdict == Verdict::Stop,
                told: one.told.clone(),
                why: Some(one.why.clone()),
            })
        };
        let open = self.open.iter().map(|told| Matter {
            bars: false,
            told: told.clone(),
            why: None,
        });
        defects(true)
            .chain(due(Verdict::Stop, true))
            .chain(due(Verdict::Fix, true))
            .chain(open)
            .chain(defects(false))
            .chain(due(Verdict::Note, true))
            .chain(due(Verdict::Note, false))
            .collect()
    }

    /// The same in a few words: `1 open stop, 2 due, 4 carried`.
    pub fn in_short(&self) -> String {
        let due = |verdict, dated| {
            let due = self.due.iter();
            due.filter(|one| (one.verdict, one.dated) == (verdict, dated))
                .count()
        };
        let (blocks, notes): (Vec<_>, Vec<_>) = self.defects.iter().partition(|one| one.blocks);
        let kinds = [
            (blocks.len(), "open stop", "open stops"),
            (due(Verdict::Stop, true), "run out", "run out"),
            (due(Verdict::Fix, true), "due", "due"),
            (self.open.len(), "carried", "carried"),
            (notes.len(), "open note", "open notes"),
            (due(Verdict::Note, true), "due soon", "due soon"),
            (due(Verdict::Note, false), "undated", "undated"),
        ];
        let found = kinds.into_iter().filter(|(count, ..)| *count > 0);
        let words = found.take(MOST_KINDS).map(|(count, one, more)| {
            let what = if count == 1 { one } else { more };
            format!("{count} {what}")
        });
        let words: Vec<String> = words.collect();
        if words.is_empty() {
            return "nothing open or due".to_owned();
        }
        words.join(", ")
    }
}

impl Barn {
    /// The lists for a rig: those of a haul in order, then those of the year.
    pub fn lists_for(&self, rig: &RigCard) -> Vec<&ChecklistCard> {
        let fitting = self.checklists.iter();
        let fitting = fitting.filter(|list| list.rigs.contains(&rig.kind));
        let (haul, year): (Vec<_>, Vec<_>) = fitting.partition(|list| list.haul != Haul::Apart);
        haul.into_iter().chain(year).collect()
    }

    /// The list that likely comes next in the rig's day: the one that begins a haul, or what
    /// follows the last one walked in it. While something keeps the rig off the road, none.
    pub fn likely_next(&self, rig: &RigCard) -> Option<&ChecklistCard> {
        if rig.matters().iter().any(|matter| matter.bars) {
            return None;
        }
        let lists = self.lists_for(rig);
        let begins = lists.iter().position(|list| list.haul == Haul::Begins)?;
        let ends = lists.iter().rposition(|list| list.haul == Haul::Ends)?;
        let walked = rig.haul.iter().flat_map(|haul| &haul.walked);
        let place = |title: &String| lists.iter().position(|list| list.title == *title);
        let furthest = walked.filter_map(place).filter(|at| *at < ends).max();
        let next = furthest.map_or(begins, |at| at + 1);
        lists.get(next).copied()
    }
}
