//! Every bad answer to the open step of a walk: each state that is fix or stop, and a reading
//! beyond each limit that is.

use hames::checklist::{PlannedAsk, ReadingAsk};
use hames::rules::{Limit, Outcome, Side, Verdict, doubt, judge};
use hames::units::{Exact, Quantity};
use hames::walk::{Act, Walk};

/// Each bad answer as the acts that give it: a reading that looks like a slip is typed twice.
pub(super) fn answers(walk: &Walk, index: usize) -> Vec<Vec<Act>> {
    let planned = walk.asked(index).unwrap();
    let is_bad = |verdict: Verdict| matches!(verdict, Verdict::Fix | Verdict::Stop);
    match &planned.ask {
        PlannedAsk::Sighting(ask) => {
            let bad = ask.states.iter().filter(|state| is_bad(state.verdict));
            bad.map(|state| {
                vec![Act::See {
                    state: state.id.clone(),
                }]
            })
            .collect()
        }
        PlannedAsk::Independent(ask) => {
            let bad = ask.states.iter().filter(|state| is_bad(state.verdict));
            bad.map(|state| {
                vec![Act::SeeAs {
                    who: "Odile Marsh".to_owned(),
                    state: state.id.clone(),
                }]
            })
            .collect()
        }
        PlannedAsk::Reading { ask, limits, .. } => {
            let bad = limits.iter().filter(|limit| is_bad(limit.verdict));
            let reached = bad.filter_map(|limit| {
                let acts = reading(walk, index, ask, limits, limit);
                assert!(
                    acts.is_some() || is_off_scale(walk, index, limit),
                    "{}: nothing reaches {limit:?}",
                    planned.key
                );
                acts
            });
            reached.collect()
        }
    }
}

/// Whether no fitting instrument can show anything beyond this limit: the humidity that would be
/// too much on a cold day is more than any air holds.
fn is_off_scale(walk: &Walk, index: usize, limit: &Limit) -> bool {
    let planned = walk.asked(index).unwrap();
    let tools = planned.tools(walk.plan().rig());
    let mut fit = tools.iter().filter(|tool| tool.unfit.is_none());
    fit.all(|tool| {
        let Some((low, high)) = hames::rules::scale(tool.instrument) else {
            return false;
        };
        let crosses = |end: &Quantity| {
            end.compare(&limit.bound)
                .is_some_and(|order| limit.side.takes(order))
        };
        !crosses(&low) && !crosses(&high)
    })
}

/// A reading beyond this limit that comes to a fix or stop.
fn reading(
    walk: &Walk,
    index: usize,
    ask: &ReadingAsk,
    limits: &[Limit],
    beyond: &Limit,
) -> Option<Vec<Act>> {
    let planned = walk.asked(index)?;
    let tools = planned.tools(walk.plan().rig());
    let fit: Vec<_> = tools.iter().filter(|tool| tool.unfit.is_none()).collect();
    for value in tried(ask, beyond) {
        for tool in &fit {
            let on_scale = hames::rules::scale(tool.instrument)
                .is_none_or(|(low, high)| value.within(&low, &high));
            let judged = judge(&value, Some(tool.instrument), limits);
            let bad = matches!(
                judged.outcome,
                Outcome::Judged(Verdict::Fix | Verdict::Stop)
            );
            let crossed = beyond.side.takes(value.compare(&beyond.bound)?);
            if on_scale && bad && crossed {
                let (typed, instrument) = (value.to_string(), tool.instrument.id.clone());
                let act = if ask.second {
                    Act::ReadAs {
                        who: "Odile Marsh".to_owned(),
                        typed,
                        instrument,
                    }
                } else {
                    Act::Read { typed, instrument }
                };
                let slip = doubt(&value, &ask.plausible).is_some();
                return Some(vec![act; if slip { 2 } else { 1 }]);
            }
        }
    }
    None
}

/// Readings beyond a bound, the nearer first, to one digit behind the point and then to three.
fn tried(ask: &ReadingAsk, beyond: &Limit) -> Vec<Quantity> {
    let below = matches!(beyond.side, Side::Below | Side::AtOrBelow);
    let (low, high) = &ask.plausible;
    let end = if below { low } else { high };
    let unit = ask.unit;
    let (bound, end) = (
        beyond.bound.in_unit(unit).unwrap().value,
        end.in_unit(unit).unwrap().value,
    );
    // A bound past every plausible reading is passed by one that looks like a slip.
    let past = if below { end < bound } else { end > bound };
    let end = if past {
        end
    } else {
        &bound * &Exact::ratio(if below { 1 } else { 3 }, 2).unwrap()
    };
    let mut tried = Vec::new();
    for places in [1, 4] {
        for (part, of) in [(1, 10), (1, 4), (1, 2), (3, 4), (1, 1), (5, 4), (2, 1)] {
            let share = Exact::ratio(part, of).unwrap();
            let value = &bound + &(&(&end - &bound) * &share);
            let value = Exact::parse_decimal(&value.rounded(places)).unwrap();
            tried.push(Quantity::new(value, unit));
        }
    }
    tried
}
