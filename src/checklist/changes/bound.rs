//! A bound in words, and which of two is looser.

use crate::rules::{Bound, Earlier, RuleOfThumb, Side};
use crate::units::{Exact, Quantity};
use std::cmp::Ordering;

/// A bound as a person reads it.
pub(super) fn written(bound: &Bound) -> String {
    match bound {
        Bound::Fixed(value) => value.to_string(),
        Bound::Of {
            figure,
            share,
            plus,
            or,
        } => {
            let of = if *share == Exact::whole(1) {
                figure.word().to_owned()
            } else {
                let percent = share * &Exact::whole(100);
                format!("{percent} % of {}", figure.word())
            };
            of + &more(plus.as_ref()) + &thumb(or.as_deref())
        }
        Bound::Read { at, plus, or } => {
            let of = match at {
                Earlier::Step(step) => format!("what {step} read"),
                Earlier::Siblings(_) => "the middle of the other parts".to_owned(),
            };
            of + &more(plus.as_ref()) + &thumb(or.as_deref())
        }
    }
}

fn more(plus: Option<&Quantity>) -> String {
    plus.map(|plus| format!(" and {plus}")).unwrap_or_default()
}

fn thumb(or: Option<&RuleOfThumb>) -> String {
    let rule = |rule: &RuleOfThumb| format!(", or where not known {}", written(&rule.bound));
    or.map(rule).unwrap_or_default()
}

/// Whether more passes by the second bound than by the first; nothing where that cannot be said.
pub(super) fn looser(side: Side, was: &Bound, is: &Bound) -> Option<bool> {
    let moved = moved(was, is)?;
    Some(match side {
        Side::Below | Side::AtOrBelow => moved == Ordering::Less,
        Side::Above | Side::AtOrAbove => moved == Ordering::Greater,
    })
}

/// Which way a bound moved: the second to the first. A rule of thumb has to stay the same.
fn moved(was: &Bound, is: &Bound) -> Option<Ordering> {
    match (was, is) {
        (Bound::Fixed(was), Bound::Fixed(is)) => is.compare(was),
        (
            Bound::Of {
                figure,
                share,
                plus,
                or,
            },
            Bound::Of {
                figure: now,
                share: now_share,
                plus: now_plus,
                or: now_or,
            },
        ) if figure == now && or == now_or => {
            if plus == now_plus {
                Some(now_share.cmp(share))
            } else if share == now_share {
                compared(plus.as_ref(), now_plus.as_ref())
            } else {
                None
            }
        }
        (
            Bound::Read { at, plus, or },
            Bound::Read {
                at: now,
                plus: now_plus,
                or: now_or,
            },
        ) if at == now && or == now_or => compared(plus.as_ref(), now_plus.as_ref()),
        _ => None,
    }
}

/// How what is added moved; nothing added is nothing.
fn compared(was: Option<&Quantity>, is: Option<&Quantity>) -> Option<Ordering> {
    match (was, is) {
        (Some(was), Some(is)) => is.compare(was),
        (Some(was), None) => Some(Exact::zero().cmp(&was.value)),
        (None, Some(is)) => Some(is.value.cmp(&Exact::zero())),
        (None, None) => Some(Ordering::Equal),
    }
}
