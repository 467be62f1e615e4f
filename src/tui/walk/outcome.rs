//! What an answer came to: the reading large, the verdict as word and sign, and what it rests on.

use crate::barn::Units;
use crate::checklist::{PlannedAsk, PlannedStep};
use crate::rules::{Authority, Basis, Held, Judgement, Limit, Outcome, Verdict};
use crate::text::capital;
use crate::tui::large::{large, number};
use crate::tui::page::{Page, Rank, inked};
use crate::tui::text::{columns, escaped};
use crate::tui::theme::Ink;
use crate::tui::walk::Walking;
use crate::walk::{Answer, Given};
use ratatui::text::{Line, Span};

/// The word before a limit.
const LIMIT: &str = "Limit:";

/// Writes the answer of a step.
pub(super) fn body(walking: &Walking, at: usize, page: &mut Page) {
    let Some((planned, state)) = walking.walk.step(at) else {
        return;
    };
    page.say(Rank::Needed, Ink::Title, &planned.name());
    let Some(answer) = state.answers.last() else {
        return;
    };
    found(walking, planned, answer, page);
    if answer.given.outcome() == Outcome::Again {
        page.say(
            Rank::Needed,
            Ink::Strong,
            "Measure again: with a finer instrument, or after bringing the value further inside \
             the limit.",
        );
    }
}

/// What was found, and what it rests on.
pub(super) fn found(walking: &Walking, planned: &PlannedStep, answer: &Answer, page: &mut Page) {
    match &answer.given {
        Given::Read {
            typed,
            instrument,
            judgement,
        } => {
            reading(page, typed.text());
            verdict_line(judgement.outcome, "inside every limit", page);
            let units = walking.barn.units;
            basis(judgement, units, page);
            let rig = walking.walk.plan().rig();
            let name = rig
                .instrument(instrument)
                .map_or(instrument, |one| &one.name);
            band(name, judgement, units, page);
        }
        Given::Seen { state, verdict, by } => {
            let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
                return;
            };
            let seen = ask.states.iter().find(|known| known.id == *state);
            let seen = seen.map_or(state, |known| &known.seen);
            page.say(Rank::Needed, Ink::Strong, &escaped(seen));
            verdict_line(Outcome::Judged(*verdict), "as it should be", page);
            if let Some(by) = by {
                page.item(Rank::Wanted, "Seen by", Ink::Body, &escaped(by.as_str()));
            }
            if *verdict != Verdict::Ok {
                page.beneath(Rank::Useful, &escaped(&source(&ask.basis)));
            }
        }
    }
}

/// The reading as typed, as large as the window lets it be.
fn reading(page: &mut Page, typed: &str) {
    let typed = escaped(typed);
    let digits = number(&typed);
    let unit = typed.get(digits.len()..).unwrap_or_default().trim();
    let strong = page.look().style(Ink::Strong);
    let room = page.width().saturating_sub(columns(unit) + 2);
    if let Some(mut rows) = large(digits, room, page.look().ascii) {
        if let Some(last) = rows.last_mut() {
            last.push_str(unit);
        }
        let lines = rows.into_iter().map(|row| inked(row, strong)).collect();
        page.lines(Rank::Wanted, lines);
        let plain = Line::from(vec![Span::raw("Reading: "), Span::styled(typed, strong)]);
        page.lines(Rank::Needed, vec![plain]);
    } else {
        page.say(Rank::Needed, Ink::Strong, &typed);
    }
}

/// Sign and word of what an answer came to, with what it means; of a good one, `well` says it.
fn verdict_line(outcome: Outcome, well: &str, page: &mut Page) {
    let (ink, head, meaning) = match outcome {
        Outcome::Judged(Verdict::Ok) => (Ink::Ok, " (/) OK ", well),
        Outcome::Judged(Verdict::Note) => {
            (Ink::Note, " (*) NOTE ", "goes on, with words beside it")
        }
        Outcome::Judged(Verdict::Fix) => (Ink::Fix, " (!) FIX ", "put right now, answer afresh"),
        Outcome::Judged(Verdict::Stop) => (Ink::Stop, " (X) STOP ", "the rig does not move"),
        Outcome::Again => (Ink::Note, " (?) AGAIN ", "a limit lies inside the error"),
    };
    let word = head.split_whitespace().last().unwrap_or_default();
    let drawn = large(word, page.width(), page.look().ascii);
    if let Some(rows) = drawn.filter(|_| page.look().big) {
        let strong = page.look().style(Ink::Strong);
        page.lines(
            Rank::Wanted,
            rows.into_iter().map(|row| inked(row, strong)).collect(),
        );
    }
    page.marked(head, ink, meaning);
}

/// The limit that decided, in full. Where none did, the nearest one so, and the others with whose
/// word they are.
fn basis(judgement: &Judgement, units: Units, page: &mut Page) {
    if let Some(limit) = judgement.deciding() {
        limit_in_full(limit, units, Rank::Wanted, page);
        return;
    }
    let nearest = judgement.nearest();
    if let Some(limit) = nearest {
        limit_in_full(limit, units, Rank::Useful, page);
    }
    let others = judgement.held.iter().map(|Held { limit, .. }| limit);
    // Two parts with the same rating give two limits that read alike; one line says both.
    let others = others
        .filter(|limit| nearest.is_none_or(|nearest| bound(nearest, units) != bound(limit, units)));
    limit_lines(others, units, page);
}

/// A limit, and beneath it how it came about and where it is written.
fn limit_in_full(limit: &Limit, units: Units, beneath: Rank, page: &mut Page) {
    page.item(Rank::Needed, LIMIT, Ink::Strong, &bound(limit, units));
    let source = capital(&limit.basis.source);
    let from = match &limit.derivation {
        Some(figure) => format!("{}. {source}", capital(figure)),
        None => source,
    };
    page.beneath(beneath, &escaped(&from));
}

/// Limits of one line each.
pub(super) fn limit_lines<'a>(
    limits: impl Iterator<Item = &'a Limit>,
    units: Units,
    page: &mut Page,
) {
    let mut bounds: Vec<String> = limits.map(|limit| bound(limit, units)).collect();
    bounds.dedup();
    let line = |bound| (LIMIT.to_owned(), Ink::Body, bound);
    let lines: Vec<(String, Ink, String)> = bounds.into_iter().map(line).collect();
    if !lines.is_empty() {
        page.items(Rank::Useful, &lines);
    }
}

/// The verdict, the side, the bound and whose word it is: `stop above 800 lb (plate)`.
fn bound(limit: &Limit, units: Units) -> String {
    let side = limit.side.word().replace('-', " ");
    escaped(&format!(
        "{} {side} {} ({})",
        limit.verdict.word(),
        units.shown(&limit.bound),
        limit.basis.authority.word()
    ))
}

/// Whose word it is and where it is written: `Law: 49 CFR 571.108`.
fn source(basis: &Basis) -> String {
    let word = match basis.authority {
        Authority::Plate => "Plate",
        Authority::Law => "Law",
        Authority::Barn => "Barn",
        Authority::Default => "Default",
    };
    format!("{word}: {}", basis.source)
}

fn band(instrument: &str, judgement: &Judgement, units: Units, page: &mut Page) {
    let (low, high) = (&judgement.band.low, &judgement.band.high);
    if low != high {
        let (low, high) = (units.shown(low), units.shown(high));
        let text = format!(
            "Given the error of {}, it is {low} to {high}.",
            escaped(instrument)
        );
        page.say(Rank::Useful, Ink::Body, &text);
    }
}
