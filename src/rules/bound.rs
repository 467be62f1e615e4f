//! A bound: the value a limit is drawn at, first as a checklist writes it, then as it stands for
//! one rig today.

use crate::figures::{Fact, Figure, Found, Item, NotKnown, Today, Working};
use crate::rules::Basis;
use crate::units::{Exact, Quantity};

/// The value a limit is drawn at, as a checklist writes it.
#[derive(Clone, Debug, PartialEq)]
pub enum Bound {
    /// The same for every rig.
    Fixed(Quantity),
    /// A figure of the rig, or a share of it, or so much above or below it.
    Of {
        /// The figure.
        figure: Figure,
        /// The share of it; one is the whole.
        share: Exact,
        /// What is added, where something is.
        plus: Option<Quantity>,
        /// What stands where the figure is not known.
        or: Option<Box<RuleOfThumb>>,
    },
    /// What was read on this walk, or so much above or below it.
    Read {
        /// Where it was read.
        at: Earlier,
        /// What is added, where something is.
        plus: Option<Quantity>,
        /// What stands where nothing was read.
        or: Option<Box<RuleOfThumb>>,
    },
}

/// Where something was read on this walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Earlier {
    /// At an earlier step: of the same part, where both are repeated.
    Step(String),
    /// At this repeated step, on the other parts: the middle of what they read so far.
    Siblings(String),
}

/// What stands where a figure is not known: a bound of its own, on somebody's word of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleOfThumb {
    /// The bound.
    pub bound: Bound,
    /// Whose word it is.
    pub basis: Basis,
}

/// A bound as it stands for one rig and, where the step is repeated, one item.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The value.
    pub at: Quantity,
    /// How it came about: `95 % of cold pressure 65 psi (plate, left wall)`; nothing when the
    /// checklist states the value itself.
    pub derivation: Option<String>,
    /// Whose word it is, where a rule of thumb stands for what is not known.
    pub basis: Option<Basis>,
    /// How the figure was computed, where it was.
    pub working: Option<Working>,
}

impl Bound {
    /// The bound for this rig and item as far as it is known today; a rule of thumb where the
    /// figure is not.
    ///
    /// # Errors
    /// [`NotKnown`] when neither the figure nor what stands for it is known.
    pub fn on(&self, today: &Today<'_>, item: Option<&Item>) -> Result<Drawn, NotKnown> {
        let (figure, share, plus, or) = match self {
            Self::Fixed(at) => return Ok(Drawn::stated(at)),
            Self::Read { at, plus, or } => {
                return match (at.drawn(today, item, plus.as_ref()), or.as_deref()) {
                    (Some(drawn), _) => Ok(drawn),
                    (None, Some(rule)) => {
                        Ok(rule.bound.on(today, item)?.for_want_of(rule, &at.missing()))
                    }
                    (None, None) => Err(at.missing()),
                };
            }
            Self::Of {
                figure,
                share,
                plus,
                or,
            } => (*figure, share, plus.as_ref(), or.as_deref()),
        };
        match (figure.of(*today, item), or) {
            (Ok(found), _) => Ok(Drawn::of(figure, found, share, plus)),
            // A step that is not repeated as it must be is mended, not guessed at.
            (Err(NotKnown::NeedsItem(figure, each)), _) => Err(NotKnown::NeedsItem(figure, each)),
            (Err(missing), Some(rule)) => {
                Ok(rule.bound.on(today, item)?.for_want_of(rule, &missing))
            }
            (Err(missing), None) => Err(missing),
        }
    }

    /// Whether it moves with something read on the walk.
    pub fn rests_on_facts(&self) -> bool {
        match self {
            Self::Fixed(_) => false,
            Self::Read { .. } => true,
            Self::Of { figure, or, .. } => {
                let thumb = or.as_ref().is_some_and(|rule| rule.bound.rests_on_facts());
                thumb || !figure.rests_on().is_empty()
            }
        }
    }
}

impl Earlier {
    /// The step it is read at.
    pub fn step(&self) -> &str {
        match self {
            Self::Step(step) | Self::Siblings(step) => step,
        }
    }

    fn missing(&self) -> NotKnown {
        NotKnown::NotAnswered(self.step().to_owned())
    }

    fn drawn(
        &self,
        today: &Today<'_>,
        item: Option<&Item>,
        plus: Option<&Quantity>,
    ) -> Option<Drawn> {
        let (read, from) = match self {
            Self::Step(step) => {
                let read = today.facts.reading(step, item)?.clone();
                (read, format!("{step} as read"))
            }
            Self::Siblings(step) => {
                let others = today.facts.siblings(step, item);
                let count = others.len();
                let from = match count {
                    1 => "the other".to_owned(),
                    _ => format!("middle of {count} others"),
                };
                (Quantity::middle(others)?, from)
            }
        };
        let at = plus.map_or_else(|| Some(read.clone()), |more| read.plus(more))?;
        Some(Drawn {
            at,
            derivation: Some(format!("{from}: {read}{}", offset(plus))),
            basis: None,
            working: None,
        })
    }
}

/// `, plus 20 F`, or nothing where nothing is added.
fn offset(plus: Option<&Quantity>) -> String {
    plus.map_or_else(String::new, |more| {
        let sign = if more.value.is_negative() {
            "less"
        } else {
            "plus"
        };
        format!(
            ", {sign} {}",
            Quantity::new(more.value.magnitude(), more.unit)
        )
    })
}

impl Drawn {
    fn stated(at: &Quantity) -> Self {
        Self {
            at: at.clone(),
            derivation: None,
            basis: None,
            working: None,
        }
    }

    fn of(figure: Figure, found: Found, share: &Exact, plus: Option<&Quantity>) -> Self {
        let scaled = found.quantity.times(share);
        let at = plus.and_then(|more| scaled.plus(more)).unwrap_or(scaled);
        let part = if *share == Exact::whole(1) {
            String::new()
        } else {
            format!("{} % of ", (share * &Exact::whole(100)).rounded(1))
        };
        let offset = offset(plus);
        let derivation = format!(
            "{part}{} {}{offset} ({})",
            figure.label(),
            found.quantity,
            found.from
        );
        Self {
            at,
            derivation: Some(derivation),
            basis: None,
            working: found.working,
        }
    }

    /// The same, standing for what is missing. Of several rules the last one's word counts, and
    /// every reason is told.
    fn for_want_of(self, rule: &RuleOfThumb, missing: &NotKnown) -> Self {
        let since = format!("rule of thumb, since {}", reason(missing));
        let derivation = match self.derivation {
            Some(how) => format!("{since}: {how}"),
            None => since,
        };
        Self {
            derivation: Some(derivation),
            basis: self.basis.or_else(|| Some(rule.basis.clone())),
            ..self
        }
    }
}

/// Why a figure is not known, as the end of a sentence about what stands for it.
fn reason(missing: &NotKnown) -> String {
    match missing {
        NotKnown::Undescribed(_, lacks) => {
            let fields: Vec<&str> = lacks.iter().map(|lack| lack.field).collect();
            format!("the rig file does not say {}", fields.join(", "))
        }
        NotKnown::Unread(_, fact) => format!("the {} was not read", spoken(*fact)),
        NotKnown::NotOnThisRig(_)
        | NotKnown::NeedsItem(..)
        | NotKnown::NoNumber(..)
        | NotKnown::NotAnswered(_) => missing.to_string(),
    }
}

fn spoken(fact: Fact) -> String {
    fact.word().replace('-', " ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::Facts;
    use crate::rig::Rig;
    use crate::rig::demo::JUNIPER;
    use crate::units::{Dimension, parse_quantity};

    /// 60 F more is a step of 33.3 degrees Celsius, not the temperature that 60 F is.
    #[test]
    fn what_is_added_to_a_temperature_is_a_difference_in_either_scale() {
        let rig = Rig::read(JUNIPER).unwrap();
        let drawn = |air: &str, plus: &str| {
            let degrees = |text| parse_quantity(text, Dimension::Temperature).unwrap();
            let bound = Bound::Of {
                figure: Figure::AirTemperature,
                share: Exact::whole(1),
                plus: Some(degrees(plus)),
                or: None,
            };
            let facts = Facts::default().with(Fact::AirTemperature, degrees(air));
            let today = Today {
                rig: &rig,
                facts: &facts,
            };
            bound.on(&today, None).unwrap().at
        };
        for (air, plus, at) in [
            ("80 F", "60 F", "140 F"),
            ("20 C", "60 F", "128 F"),
            ("20 C", "10 C", "86 F"),
            ("68 F", "10 C", "30 C"),
            ("68 F", "-9 F", "59 F"),
        ] {
            let expected = parse_quantity(at, Dimension::Temperature).unwrap();
            let at = drawn(air, plus);
            assert_eq!(
                at.compare(&expected),
                Some(std::cmp::Ordering::Equal),
                "{air} and {plus}: {at}"
            );
        }
    }
}
