//! # Strength of a safety chain
//!
//! When the ball lets go, the chains hold the trailer. A chain assembly breaks at its weakest part:
//! the links, the hook, or the link that joins it to the trailer.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | L | working load limit by grade and size of the links | lb, or kg for metric sizes |
//! | B | breaking strength of the links | lb, or kN for metric sizes |
//! | A | breaking strength of the assembly | lb or kN |
//!
//! `B = 4 L`, except `B = 3 L` for grade 43; `A = min(parts)`. A strength marked on chain or tag
//! goes before the table, and links without a mark count as grade 30.
//!
//! Valid for the sizes of the table; any other size needs a mark or tag. The table's pounds and
//! kilograms were rounded apart from each other, so neither is converted into the other.
//!
//! Sources: 49 CFR 393.108(a), (b), (d) and its tables for L; for B the welded chain specification
//! of the National Association of Chain Manufacturers, adopted 2010, as a chain supplier tables it.

use crate::figures::Found;
use crate::figures::figure::read;
use crate::rig::{Chain, Grade, Rig};
use crate::units::{Exact, Quantity, Unit, weight_of};
use std::cmp::Ordering;

/// Limits of grades 30, 43, 70, 80 and 100; zero where the publication has no entry.
type Limits = [i64; 5];

/// 49 CFR 393.108: sixteenths of an inch, and pounds. As printed: in the second row grade 80 lies
/// below grade 70.
const POUNDS: [(i128, Limits); 6] = [
    (4, [1300, 2600, 3150, 3500, 4300]),
    (5, [1900, 3900, 4700, 4500, 5700]),
    (6, [2650, 5400, 6600, 7100, 8800]),
    (7, [3700, 7200, 8750, 0, 0]),
    (8, [4500, 9200, 11_300, 12_000, 15_000]),
    (10, [6900, 13_000, 15_800, 18_100, 22_600]),
];

/// 49 CFR 393.108: millimetres, and kilograms.
const KILOGRAMS: [(i64, Limits); 6] = [
    (7, [580, 1180, 1430, 1570, 1950]),
    (8, [860, 1770, 2130, 2000, 2600]),
    (10, [1200, 2450, 2990, 3200, 4000]),
    (11, [1680, 3270, 3970, 0, 0]),
    (13, [2030, 4170, 5130, 5400, 6800]),
    (16, [3130, 5910, 7170, 8200, 10_300]),
];

/// The working load limit of chain: pounds for a size in inches, kilograms for a metric one.
pub fn working_load_limit(grade: Option<Grade>, size: &Quantity) -> Option<Quantity> {
    let is_size = |nominal: &Quantity| nominal.compare(size) == Some(Ordering::Equal);
    let (limits, unit) = if matches!(size.unit, Unit::Inch | Unit::Foot) {
        let (_, limits) = POUNDS.iter().find(|(sixteenths, _)| {
            Exact::ratio(*sixteenths, 16)
                .is_some_and(|inches| is_size(&Quantity::new(inches, Unit::Inch)))
        })?;
        (limits, Unit::Pound)
    } else {
        let (_, limits) = KILOGRAMS
            .iter()
            .find(|(millimetres, _)| is_size(&Quantity::whole(*millimetres, Unit::Millimetre)))?;
        (limits, Unit::Kilogram)
    };
    let grade = grade.unwrap_or(Grade::G30);
    let column = Grade::WORDS.iter().position(|(_, other)| *other == grade)?;
    let limit = limits.get(column).filter(|limit| **limit > 0)?;
    Some(Quantity::whole(*limit, unit))
}

/// How many times its working load limit chain of this grade holds before it breaks.
pub fn breaking_factor(grade: Option<Grade>) -> i64 {
    if grade == Some(Grade::G43) { 3 } else { 4 }
}

/// The breaking strength of chain by grade and size.
pub fn breaking_by_table(grade: Option<Grade>, size: &Quantity) -> Option<Quantity> {
    let limit = working_load_limit(grade, size)?;
    weight_of(&limit.times(&Exact::whole(breaking_factor(grade))))
}

/// The lowest of some strengths; nothing of none, or of different dimensions.
pub fn lowest(strengths: &[Quantity]) -> Option<&Quantity> {
    let (first, others) = strengths.split_first()?;
    others.iter().try_fold(first, |low, next| {
        Some(match next.compare(low)? {
            Ordering::Less => next,
            Ordering::Equal | Ordering::Greater => low,
        })
    })
}

/// The strength of the rig's weaker chain assembly.
pub(crate) fn each(rig: &Rig) -> Option<Found> {
    let [left, right] = assemblies(rig)?;
    weaker(left, right)
}

/// The strength of both chain assemblies together.
pub(crate) fn both(rig: &Rig) -> Option<Found> {
    let [left, right] = assemblies(rig)?;
    Some(Found {
        quantity: left.quantity.plus(&right.quantity)?,
        from: format!("{}; {}", left.from, right.from),
        by_maker: left.by_maker && right.by_maker,
        working: None,
    })
}

/// The force the most the trailer may weigh presses and pulls with.
pub(crate) fn needed(rig: &Rig) -> Option<Found> {
    let gvwr = read(&rig.trailer.gvwr);
    Some(Found {
        quantity: weight_of(&gvwr.quantity)?,
        ..gvwr
    })
}

fn assemblies(rig: &Rig) -> Option<[Found; 2]> {
    let [left, right] = &rig.hitch.chains;
    Some([assembly("left", left)?, assembly("right", right)?])
}

/// The weakest part of one chain assembly.
fn assembly(side: &str, chain: &Chain) -> Option<Found> {
    let named = |part: &str, found: Found| Found {
        from: format!("{side} {part}: {}", found.from),
        ..found
    };
    let links = named("chain", links(chain)?);
    let hook = named("hook", read(&chain.hook_breaking));
    let weakest = weaker(links, hook)?;
    match &chain.link_breaking {
        Some(link) => weaker(weakest, named("joining link", read(link))),
        None => Some(weakest),
    }
}

fn links(chain: &Chain) -> Option<Found> {
    if let Some(marked) = &chain.breaking {
        return Some(read(marked));
    }
    let size = &chain.size.quantity;
    let limit = working_load_limit(chain.grade, size)?;
    let grade = match chain.grade {
        Some(grade) => format!("grade {}", grade.word()),
        None => "no grade mark, taken as grade 30".to_owned(),
    };
    Some(Found {
        quantity: breaking_by_table(chain.grade, size)?,
        from: format!(
            "{grade}, {size}: {} times {limit} of 49 CFR 393.108",
            breaking_factor(chain.grade)
        ),
        by_maker: false,
        working: None,
    })
}

/// The weaker of two; the first of equals.
fn weaker(first: Found, second: Found) -> Option<Found> {
    let order = second.quantity.compare(&first.quantity)?;
    Some(if order == Ordering::Less {
        second
    } else {
        first
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figures::Figure;
    use crate::rig::demo::{JUNIPER, MESQUITE};

    fn figures(text: &str) -> [String; 2] {
        let rig = Rig::read(text).unwrap();
        [Figure::ChainsEach, Figure::ChainsBoth].map(|figure| {
            let found = figure.of(&rig, None).unwrap();
            format!("{} ({})", found.quantity, found.from)
        })
    }

    #[test]
    fn without_a_tag_the_links_count_by_grade_and_size_and_say_so() {
        assert_eq!(
            figures(JUNIPER),
            [
                "7800 lb (left chain: grade 43, 0.25 in: 3 times 2600 lb of 49 CFR 393.108)",
                "15600 lb (left chain: grade 43, 0.25 in: 3 times 2600 lb of 49 CFR 393.108; \
                 right chain: grade 43, 0.25 in: 3 times 2600 lb of 49 CFR 393.108)",
            ]
        );
    }

    #[test]
    fn a_tag_goes_before_the_table_and_the_weakest_part_decides() {
        let weak_hook = MESQUITE.replacen(
            "hook-breaking: { is: 26400 lb",
            "hook-breaking: { is: 21600 lb",
            1,
        );
        assert_eq!(
            figures(&weak_hook),
            [
                "21600 lb (left hook: stamp, back of the hook)",
                "48000 lb (left hook: stamp, back of the hook; right chain: plate, tag on the last link)",
            ]
        );
        let weak_link = weak_hook.replacen(
            "      length: { is: 24 in",
            "      link-breaking: { is: 8 kN, by: stamp, at: the link }\n      length: { is: 24 in",
            1,
        );
        assert_eq!(
            figures(&weak_link)[0],
            "8 kN (left joining link: stamp, the link)"
        );
    }

    #[test]
    fn a_size_the_table_does_not_have_needs_a_tag() {
        let odd = JUNIPER.replace("size: { is: 1/4 in", "size: { is: 9/32 in");
        let rig = Rig::read(&odd).unwrap();
        assert!(Figure::ChainsEach.of(&rig, None).is_err());
    }

    #[test]
    fn chain_without_a_mark_is_never_stronger_than_chain_with_one() {
        for (millimetres, _) in KILOGRAMS {
            let size = Quantity::whole(millimetres, Unit::Millimetre);
            let unmarked = working_load_limit(None, &size).unwrap();
            for (_, grade) in Grade::WORDS {
                let Some(marked) = working_load_limit(Some(grade), &size) else {
                    continue;
                };
                assert_ne!(
                    unmarked.compare(&marked),
                    Some(Ordering::Greater),
                    "{grade:?}"
                );
            }
        }
    }
}
