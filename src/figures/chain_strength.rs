//! The strength of this rig's two chain assemblies, and what they must hold.

use crate::figures::figure::read;
use crate::figures::{Found, Input, Working};
use crate::mechanics::strength::{
    CHAIN_RULE, CHAIN_STRENGTH, breaking_by_table, breaking_factor, working_load_limit,
};
use crate::rig::{Chain, Grade, Rig};
use crate::units::weight_of;
use std::cmp::Ordering;

/// The strength of the rig's weaker chain assembly.
pub(crate) fn each(rig: &Rig) -> Option<Found> {
    let [left, right] = assemblies(rig)?;
    let inputs = [left.inputs, right.inputs].concat();
    let weaker = weaker(left.weakest, right.weakest)?;
    Some(by_parts(weaker, inputs))
}

/// The strength of both chain assemblies together.
pub(crate) fn both(rig: &Rig) -> Option<Found> {
    let [left, right] = assemblies(rig)?;
    let found = Found {
        quantity: left.weakest.quantity.plus(&right.weakest.quantity)?,
        from: format!("{}; {}", left.weakest.from, right.weakest.from),
        by_maker: left.weakest.by_maker && right.weakest.by_maker,
        working: None,
    };
    Some(by_parts(found, [left.inputs, right.inputs].concat()))
}

/// The force the most the trailer may weigh presses and pulls with.
pub(crate) fn needed(rig: &Rig) -> Option<Found> {
    let gvwr = read(&rig.trailer.gvwr);
    Some(Found {
        quantity: weight_of(&gvwr.quantity)?,
        working: Some(Working {
            page: &CHAIN_RULE,
            inputs: vec![part("most the trailer may weigh", &gvwr)],
        }),
        ..gvwr
    })
}

/// One chain with hook and joining link.
struct Assembly {
    weakest: Found,
    inputs: Vec<Input>,
}

fn assemblies(rig: &Rig) -> Option<[Assembly; 2]> {
    let [left, right] = &rig.hitch.chains;
    Some([assembly("left", left)?, assembly("right", right)?])
}

/// The weakest part of one chain assembly.
fn assembly(side: &str, chain: &Chain) -> Option<Assembly> {
    let mut parts = vec![
        ("chain", links(chain)?),
        ("hook", read(&chain.hook_breaking)),
    ];
    if let Some(link) = &chain.link_breaking {
        parts.push(("joining link", read(link)));
    }
    let inputs = parts
        .iter()
        .map(|(name, found)| part(&format!("{side} {name}"), found));
    let inputs = inputs.collect();
    let named = parts.into_iter().map(|(name, found)| {
        Some(Found {
            from: format!("{side} {name}: {}", found.from),
            ..found
        })
    });
    let weakest = named.reduce(|low, next| weaker(low?, next?))??;
    Some(Assembly { weakest, inputs })
}

fn part(what: &str, found: &Found) -> Input {
    Input {
        what: what.to_owned(),
        value: found.quantity.to_string(),
        from: found.from.clone(),
    }
}

fn by_parts(found: Found, inputs: Vec<Input>) -> Found {
    Found {
        working: Some(Working {
            page: &CHAIN_STRENGTH,
            inputs,
        }),
        ..found
    }
}

fn links(chain: &Chain) -> Option<Found> {
    if let Some(marked) = &chain.breaking {
        return Some(read(marked));
    }
    let size = &chain.size.quantity;
    let number = chain.grade.map(Grade::number);
    let limit = working_load_limit(number, size)?;
    let grade = match chain.grade {
        Some(grade) => format!("grade {}", grade.word()),
        None => "no grade mark, taken as grade 30".to_owned(),
    };
    Some(Found {
        quantity: breaking_by_table(number, size)?,
        from: format!(
            "{grade}, {size}: {} times {limit} of 49 CFR 393.108",
            breaking_factor(number)
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
}
