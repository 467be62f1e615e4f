//! The answers of a walk on which everything is as it should be, worked out from the checklist
//! and the rig, so that a changed checklist changes them too.

use hames::checklist::{Plan, PlannedAsk, PlannedStep, ReadingAsk, Tool};
use hames::rules::{Limit, Outcome, Verdict, judge};
use hames::units::{Exact, Quantity};
use hames::walk::{Act, Ended, Entry, Moment, Now, Walk};

/// A good answer to a step.
#[derive(Clone, Debug)]
pub(crate) enum Good {
    /// The state in this place, from 1.
    State { number: usize, act: Act },
    /// The same, by another person.
    StateBy {
        who: String,
        number: usize,
        act: Act,
    },
    /// A reading by another person, with the instrument as below.
    ReadingBy {
        who: String,
        tool: usize,
        tools: usize,
        typed: String,
        act: Act,
    },
    /// A reading, with the instrument in this place among those of its kind, from 1; of so many,
    /// or one where there is no choice.
    Reading {
        tool: usize,
        tools: usize,
        typed: String,
        act: Act,
    },
}

impl Good {
    pub(crate) fn act(&self) -> &Act {
        match self {
            Self::State { act, .. }
            | Self::StateBy { act, .. }
            | Self::ReadingBy { act, .. }
            | Self::Reading { act, .. } => act,
        }
    }
}

/// A good answer to a planned step.
pub(crate) fn good(plan: &Plan, planned: &PlannedStep, second: &str) -> Good {
    match &planned.ask {
        PlannedAsk::Sighting(ask) => {
            let at = ask
                .states
                .iter()
                .position(|s| s.verdict == Verdict::Ok)
                .unwrap();
            let state = ask.states[at].id.clone();
            Good::State {
                number: at + 1,
                act: Act::See { state },
            }
        }
        PlannedAsk::Independent(ask) => {
            let at = ask
                .states
                .iter()
                .position(|s| s.verdict == Verdict::Ok)
                .unwrap();
            let (who, state) = (second.to_owned(), ask.states[at].id.clone());
            let act = Act::SeeAs {
                who: who.clone(),
                state,
            };
            Good::StateBy {
                who,
                number: at + 1,
                act,
            }
        }
        PlannedAsk::Reading {
            ask,
            target,
            limits,
            open,
        } => {
            assert!(open.is_empty(), "{}: {open:?}", planned.key);
            let tools = planned.tools(plan.rig());
            let mut tried = target.iter().cloned().collect::<Vec<_>>();
            let shares = [
                (1, 1),
                (11, 10),
                (9, 10),
                (21, 20),
                (19, 20),
                (13, 10),
                (7, 10),
            ];
            for (part, of) in shares {
                let share = Exact::ratio(part, of).unwrap();
                tried.extend(limits.iter().map(|limit| limit.bound.times(&share)));
            }
            tried.extend(between(ask, limits));
            let judged = |tool: &Tool<'_>, value: &Quantity| {
                let (fits, tool) = (tool.unfit.is_none(), tool.instrument);
                let inside = |(low, high): &(Quantity, Quantity)| {
                    value.compare(low).unwrap().is_ge() && value.compare(high).unwrap().is_le()
                };
                let on_scale = tool.span.as_ref().is_none_or(inside) && inside(&ask.plausible);
                fits && on_scale
                    && judge(value, Some(tool), limits).outcome == Outcome::Judged(Verdict::Ok)
            };
            // As a person would type it; of what is measured in thousandths, as finely as that.
            let coarse = tried.iter().map(|value| rounded(value, 1));
            let fine = tried.iter().map(|value| rounded(value, 4));
            for value in coarse.chain(fine) {
                for (at, tool) in tools.iter().enumerate() {
                    if judged(tool, &value) {
                        let typed = value.to_string();
                        let instrument = tool.instrument.id.clone();
                        let (tool, tools) = (at + 1, tools.len());
                        if ask.second {
                            let (who, typed_by) = (second.to_owned(), typed.clone());
                            return Good::ReadingBy {
                                who: who.clone(),
                                tool,
                                tools,
                                typed,
                                act: Act::ReadAs {
                                    who,
                                    typed: typed_by,
                                    instrument,
                                },
                            };
                        }
                        let act = Act::Read {
                            typed: typed.clone(),
                            instrument,
                        };
                        return Good::Reading {
                            tool,
                            tools,
                            typed,
                            act,
                        };
                    }
                }
            }
            panic!("no good reading found for {}", planned.key);
        }
    }
}

/// Readings between each two bounds, those in the middle first.
fn between(ask: &ReadingAsk, limits: &[Limit]) -> Vec<Quantity> {
    let (low, high) = &ask.plausible;
    let bounds = limits.iter().map(|limit| &limit.bound);
    let marks = [low, high].into_iter().chain(bounds);
    let mut marks: Vec<Exact> = marks
        .map(|mark| mark.in_unit(ask.unit).unwrap().value)
        .collect();
    marks.sort();
    let parts = [
        (1, 2),
        (3, 8),
        (5, 8),
        (1, 4),
        (3, 4),
        (1, 8),
        (7, 8),
        (0, 1),
        (1, 1),
    ];
    let parts = parts.map(|(part, of)| Exact::ratio(part, of).unwrap());
    let within = |part: &Exact| {
        let pairs = marks.windows(2);
        let values = pairs.map(|pair| &pair[0] + &(&(&pair[1] - &pair[0]) * part));
        values
            .map(|value| Quantity::new(value, ask.unit))
            .collect::<Vec<_>>()
    };
    parts.iter().flat_map(within).collect()
}

fn rounded(value: &Quantity, places: usize) -> Quantity {
    Quantity::new(
        Exact::parse_decimal(&value.value.rounded(places)).unwrap(),
        value.unit,
    )
}

/// Every question of a walk on which all is well, in order.
pub(crate) enum Asked {
    Step(Good),
    SectionEnd,
    Finished,
}

/// The questions of a whole walk and their good answers.
pub(crate) fn whole_walk(mut walk: Walk, second: &str) -> Vec<Asked> {
    let mut asked = Vec::new();
    let at = walk.last().clone();
    while let Some((act, question)) = next(&walk, second) {
        asked.extend(question);
        step(&mut walk, &act, &at).unwrap();
    }
    asked
}

/// The good act where the walk stands, with the question it answers; nothing once it is complete.
pub(crate) fn next(walk: &Walk, second: &str) -> Option<(Act, Option<Asked>)> {
    Some(match walk.now() {
        Now::Next(_) => (Act::Open, None),
        Now::Open(index) => {
            let good = good(walk.plan(), &walk.asked(index).unwrap(), second);
            (good.act().clone(), Some(Asked::Step(good)))
        }
        Now::SectionEnd(_) => (Act::CloseSection, Some(Asked::SectionEnd)),
        Now::Finished => {
            let act = Act::End {
                outcome: Ended::Complete,
                words: String::new(),
            };
            (act, Some(Asked::Finished))
        }
        Now::Ended(Ended::Complete) => return None,
        other => panic!("not a good walk: {other:?}"),
    })
}

/// Does one act on a walk.
pub(crate) fn step(walk: &mut Walk, act: &Act, at: &Moment) -> Result<Entry, hames::walk::Refusal> {
    let entry = Entry {
        at: at.clone(),
        actor: walk.reader().clone(),
        event: walk.decide(act, at)?,
    };
    walk.apply(&entry);
    Ok(entry)
}

/// The line that chooses an instrument, where there is a choice.
fn chosen(tool: usize, tools: usize) -> String {
    if tools > 1 {
        format!("{tool}\n")
    } else {
        String::new()
    }
}

/// The lines that answer a walk in the line-by-line mode.
pub(crate) fn lines(asked: &[Asked]) -> String {
    let mut lines = String::new();
    for one in asked {
        let answer = match one {
            Asked::Step(Good::State { number, .. }) => format!("{number}\n"),
            Asked::Step(Good::StateBy { who, number, .. }) => format!("{who}\n{number}\n"),
            Asked::Step(Good::Reading {
                tool, tools, typed, ..
            }) => format!("{}{typed}\n", chosen(*tool, *tools)),
            Asked::Step(Good::ReadingBy {
                who,
                tool,
                tools,
                typed,
                ..
            }) => format!("{who}\n{}{typed}\n", chosen(*tool, *tools)),
            Asked::SectionEnd => "yes\n".to_owned(),
            Asked::Finished => "complete\n".to_owned(),
        };
        lines.push_str(&answer);
    }
    lines
}
