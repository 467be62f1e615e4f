//! What stands behind a step's verdicts, for who asks why: the same words on the screens and line
//! by line.

use crate::barn::Units;
use crate::checklist::{Ask, ReadingAsk};
use crate::desk::told;
use crate::figures::{Entry, Found, Input, NotKnown, RatedLink, Today, Working};
use crate::rules::{Basis, Drawn, Limit, Rung};
use crate::walk::{Given, StepState, Walk};

/// A line: a word or two, and what they say.
pub type Line = (&'static str, String);

/// What a blind step says before its answer.
const BLIND: &str = "What is expected is told after the answer, so that it cannot lead the eye.";

/// When it is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// While the step wants its answer. Of a blind step nothing expected is told then.
    Before,
    /// Of the last answer: its limits are those it was held to, whatever was read since.
    After,
}

/// What stands behind a step, in groups that belong together.
pub fn why(walk: &Walk, index: usize, asked: Asked, units: Units) -> Vec<Vec<Line>> {
    let Some((planned, state)) = walk.step(index) else {
        return Vec::new();
    };
    let mut groups = Vec::new();
    match &planned.step.ask {
        _ if planned.step.blind && asked == Asked::Before => {
            groups.push(vec![("Blind:", BLIND.to_owned())]);
        }
        Ask::Sighting(ask) | Ask::Independent(ask) => {
            groups.push(vec![("Whose word:", ask.basis.to_string())]);
        }
        Ask::Reading(ask) => {
            let (rig, facts) = (walk.plan().rig(), &walk.facts());
            let drawing = Drawing {
                today: Today { rig, facts },
                item: planned.item.as_ref(),
                units,
            };
            groups.extend(drawing.of(ask, &held(state, asked)));
        }
    }
    groups.push(vec![
        ("Why:", planned.step.why.clone()),
        ("If skipped:", planned.step.skipped.clone()),
    ]);
    groups
}

/// What stands behind a figure of a rig.
pub fn why_figure(entry: &Entry) -> Vec<Vec<Line>> {
    let name = match &entry.item {
        Some(item) => format!("{}, {}", entry.figure.label(), item.name()),
        None => entry.figure.label().to_owned(),
    };
    match &entry.answer {
        Ok(found) => {
            let first = vec![
                (
                    "Figure:",
                    format!("{name}: {}", told::shown(&found.quantity)),
                ),
                ("Comes from:", found.from.clone()),
            ];
            let working = found.working.as_ref().map(told_working);
            std::iter::once(first)
                .chain(working.into_iter().flatten())
                .collect()
        }
        Err(not) => vec![vec![("Figure:", name), ("Not known:", not.to_string())]],
    }
}

/// What stands behind one rating of the chain from truck to tires.
pub fn why_link(link: &RatedLink) -> Vec<Vec<Line>> {
    let told = |answer: &Result<Found, NotKnown>| match answer {
        Ok(found) => format!("{} ({})", told::shown(&found.quantity), found.from),
        Err(not) => not.to_string(),
    };
    let left = link.margin().map_or_else(
        || "not known".to_owned(),
        |margin| {
            let over = if margin.left.value.is_negative() {
                ": OVER"
            } else {
                ""
            };
            format!(
                "{}, {}{over}",
                told::shown(&margin.left),
                margin.share.shown(0)
            )
        },
    );
    let first = vec![
        ("Link:", format!("{}, {}", link.name, link.kind.words())),
        ("Rating:", told(&link.rating)),
        ("Held against it:", told(&link.load)),
        ("Left:", left),
        ("By:", link.basis.clone()),
    ];
    let workings = [&link.rating, &link.load].into_iter().filter_map(|answer| {
        let working = answer.as_ref().ok()?.working.as_ref()?;
        Some(told_working(working))
    });
    std::iter::once(first).chain(workings.flatten()).collect()
}

/// Limits being drawn once more, with everything they rest on.
struct Drawing<'w> {
    today: Today<'w>,
    item: Option<&'w crate::figures::Item>,
    units: Units,
}

impl Drawing<'_> {
    fn of(&self, ask: &ReadingAsk, held: &[Limit]) -> Vec<Vec<Line>> {
        let mut told = Told {
            units: self.units,
            ..Told::default()
        };
        for (at, rung) in ask.limits.iter().enumerate() {
            let drawn = rung.bound.on(&self.today, self.item);
            match (held.get(at), drawn) {
                (Some(limit), drawn) => {
                    // Only a working that comes to what was held to explains it.
                    let working = drawn.ok().filter(|drawn| drawn.at == limit.bound);
                    told.limit(limit, working.and_then(|drawn| drawn.working));
                }
                (None, Ok(drawn)) => told.limit(&rung.at(&drawn), drawn.working),
                (None, Err(missing)) => told.open(rung, &missing),
            }
        }
        if let Some(Ok(drawn)) = ask
            .target
            .as_ref()
            .map(|aim| aim.on(&self.today, self.item))
        {
            told.aim(drawn);
        }
        if told.groups.is_empty() {
            let fact = ask.tells.map(|fact| fact.word().replace('-', " "));
            let fact = fact.unwrap_or_else(|| "it".to_owned());
            let text = format!("None. Later steps are held to the {fact} as it is read here.");
            told.groups.push(vec![("Limit:", text)]);
        }
        told.groups
    }
}

/// The limits the last answer was held to.
fn held(state: &StepState, asked: Asked) -> Vec<Limit> {
    match state.answers.last().map(|answer| &answer.given) {
        Some(Given::Read { judgement, .. }) if asked == Asked::After => {
            let held = judgement.held.iter();
            held.map(|held| held.limit.clone()).collect()
        }
        _ => Vec::new(),
    }
}

#[derive(Default)]
struct Told {
    units: Units,
    groups: Vec<Vec<Line>>,
    /// The workings told so far: each is told once.
    workings: Vec<Working>,
}

impl Told {
    fn limit(&mut self, limit: &Limit, working: Option<Working>) {
        let side = limit.side.word().replace('-', " ");
        let bound = self.units.shown(&limit.bound);
        let line = format!("{} {side} {bound}", limit.verdict.word());
        self.value("Limit:", line, Some(&limit.basis), limit.derivation.clone());
        self.working(working);
    }

    fn open(&mut self, rung: &Rung, missing: &NotKnown) {
        let side = rung.side.word().replace('-', " ");
        let line = format!("{} {side} what is not known yet", rung.verdict.word());
        self.value("Limit:", line, Some(&rung.basis), Some(missing.to_string()));
    }

    fn aim(&mut self, drawn: Drawn) {
        let (at, basis) = (self.units.shown(&drawn.at), drawn.basis.as_ref());
        self.value("Aim:", at, basis, drawn.derivation);
        self.working(drawn.working);
    }

    fn value(
        &mut self,
        head: &'static str,
        line: String,
        basis: Option<&Basis>,
        from: Option<String>,
    ) {
        let mut lines = vec![(head, line)];
        lines.extend(basis.map(|basis| ("Whose word:", basis.to_string())));
        lines.extend(from.map(|from| ("Comes from:", from)));
        self.groups.push(lines);
    }

    fn working(&mut self, working: Option<Working>) {
        let Some(working) = working else {
            return;
        };
        if self.workings.contains(&working) {
            let text = format!("as above, {}", working.page.title);
            self.groups.push(vec![("Reckoned:", text)]);
            return;
        }
        self.groups.extend(told_working(&working));
        self.workings.push(working);
    }
}

/// How a figure was reckoned, from what, and by whose formula.
fn told_working(working: &Working) -> Vec<Vec<Line>> {
    let page = working.page;
    let symbols = page.symbols.iter();
    let symbols = symbols.map(|(symbol, what)| ("Where:", format!("{symbol} is {what}")));
    let formula = [
        ("Reckoned:", page.title.to_owned()),
        ("In words:", page.situation.to_owned()),
        ("Formula:", page.formula.to_owned()),
    ];
    let inputs = working.inputs.iter();
    vec![
        formula.into_iter().chain(symbols).collect(),
        inputs.map(|input| ("With:", told_input(input))).collect(),
        vec![
            ("Source:", page.source.to_owned()),
            ("Holds for:", page.holds.to_owned()),
            ("Assumes:", page.assumes.to_owned()),
            ("Never use it:", page.never.to_owned()),
        ],
    ]
}

fn told_input(input: &Input) -> String {
    format!("{} {} ({})", input.what, input.value, input.from)
}
