//! A step as the file writes it, and when it applies.

use crate::checklist::format::{ANSWERED, DEFERRABLE, RIG_TEST, STEP, WHEN};
use crate::checklist::yaml::names::Names;
use crate::checklist::yaml::{flag, limit, reading, sighting, words};
use crate::checklist::{Ask, Condition, Deferral, Step, Test};
use crate::document::{Map, Node, Read};
use crate::figures::Each;
use crate::rig::{Place, ServiceKind};
use crate::rules::{Carry, Side};
use crate::units::{Dimension, Unit};
use std::time::Duration;

/// Longest least time of an act, in seconds: nobody is an hour at one.
const LONGEST_S: u64 = 3600;

/// The three things a condition can ask.
#[derive(Clone, Copy)]
enum On {
    Rig,
    Answer,
    Carried,
}

/// The four things a step can ask for, as keys.
#[derive(Clone, Copy)]
enum Asks {
    Reading,
    Sighting,
    Independent,
    SecondReading,
}

pub(super) fn step<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<Step> {
    names.begin_step();
    let map = node.shaped(&STEP)?;
    let id = map.required("id").and_then(|node| names.step(node));
    let warning = map.optional("warning").map(Node::sentence).transpose();
    let place = map
        .required("place")
        .and_then(|node| node.choice(&Place::WORDS));
    let critical = flag(map, "critical");
    let deferrable = map
        .optional("deferrable")
        .map(|node| deferral(node, critical == Ok(true), names))
        .transpose();
    let least = map.optional("least").map(least).transpose();
    let each = map
        .optional("each")
        .map(|node| node.choice(&Each::WORDS))
        .transpose();
    if let Ok(Some(each)) = each {
        names.repeated(each);
    }
    let when = map
        .optional("when")
        .map(|node| condition(node, names))
        .transpose();
    let serves = map
        .optional("serves")
        .map(|node| node.choice(&ServiceKind::WORDS))
        .transpose();
    let closes = map.optional("closes").map_or(Ok(Vec::new()), |node| {
        node.each(|node| node.choice(&Carry::WORDS))
    });
    let (name, act, why) = (words(map, "name"), words(map, "act"), words(map, "why"));
    let skipped = words(map, "skipped");
    let (volatile, blind) = (flag(map, "volatile"), flag(map, "blind"));
    let ask = asked(map, each, names);
    // Who sees what is expected does not read afresh.
    let second = matches!(&ask, Ok(Ask::Reading(ask)) if ask.second);
    Ok(Step {
        id: id?.to_owned(),
        name: name?,
        act: act?,
        why: why?,
        skipped: skipped?,
        warning: warning?.map(str::to_owned),
        place: place?,
        critical: critical?,
        volatile: volatile?,
        blind: blind? || second,
        least: least?,
        deferrable: deferrable?,
        each: each?,
        when: when?,
        serves: serves?,
        closes: closes?,
        ask: ask?,
    })
}

fn asked<'d>(map: Map<'d>, each: Read<Option<Each>>, names: &mut Names<'d>) -> Read<Ask> {
    let (asks, node) = map.only_one_of(&[
        ("reading", Asks::Reading),
        ("sighting", Asks::Sighting),
        ("independent", Asks::Independent),
        ("second-reading", Asks::SecondReading),
    ])?;
    Ok(match asks {
        Asks::Reading => Ask::Reading(reading::reading(node, false, each, names)?),
        Asks::Sighting => Ask::Sighting(sighting::sighting(node, names)?),
        Asks::Independent => Ask::Independent(sighting::sighting(node, names)?),
        Asks::SecondReading => Ask::Reading(reading::reading(node, true, each, names)?),
    })
}

/// The least time of an act, in whole seconds.
fn least(node: Node<'_>) -> Read<Duration> {
    let time = node.quantity(Dimension::Time)?;
    let seconds = time
        .in_unit(Unit::Second)
        .and_then(|time| time.value.decimal());
    let seconds = seconds.and_then(|seconds| seconds.parse::<u64>().ok());
    let fitting = seconds.filter(|seconds| (1..=LONGEST_S).contains(seconds));
    fitting.map(Duration::from_secs).ok_or_else(|| {
        node.fault(
            format!(
                "the least time of an act is {time}, and it is from 1 s to 1 h, in whole seconds"
            ),
            "write what the act takes whoever is quick at it, such as 40 s",
        )
    })
}

fn deferral<'d>(node: Node<'d>, critical: bool, names: &mut Names<'d>) -> Read<Deferral> {
    let map = node.shaped(&DEFERRABLE)?;
    let before = map.required("before").and_then(|node| names.put_off(node));
    if critical {
        return Err(node.fault(
            "a critical step cannot be put off",
            "take `deferrable` away, or `critical`",
        ));
    }
    Ok(Deferral {
        before: before?.to_owned(),
    })
}

fn condition<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<Condition> {
    let map = node.shaped(&WHEN)?;
    let because = words(map, "because");
    let unless = map
        .optional("unless")
        .map(|node| node.choice(&Carry::WORDS))
        .transpose();
    let of = [
        ("rig", On::Rig),
        ("answered", On::Answer),
        ("carried", On::Carried),
    ];
    let test = map.only_one_of(&of).and_then(|(on, node)| match on {
        On::Rig => rig_test(node),
        On::Answer => answered(node, names),
        On::Carried => Ok(Test::Carried {
            what: node.choice(&Carry::WORDS)?,
            unless: unless?,
        }),
    });
    if let (Some(node), Ok(Test::Rig { .. } | Test::Answered { .. })) =
        (map.optional("unless"), &test)
    {
        return Err(node.fault(
            "`unless` belongs to `carried`, and here stands none",
            "take `unless` away",
        ));
    }
    Ok(Condition {
        test: test?,
        because: because?,
    })
}

fn rig_test(node: Node<'_>) -> Read<Test> {
    let map = node.shaped(&RIG_TEST)?;
    let figure = map.required("figure").and_then(|node| {
        let figure = limit::figure(node)?;
        if let Some(fact) = figure.needs().first() {
            return Err(node.fault(
                format!(
                    "{} needs {}, and a condition is decided before the walk",
                    figure.word(),
                    fact.word()
                ),
                "name a figure of the rig file",
            ));
        }
        if figure.each().is_none() {
            return Ok(figure);
        }
        Err(node.fault(
            format!(
                "{} belongs to one part, and a condition asks the whole rig",
                figure.word()
            ),
            "name a figure of the whole rig",
        ))
    });
    let side = map.only_one_of(&Side::WORDS);
    let figure = figure?;
    let (side, node) = side?;
    Ok(Test::Rig {
        figure,
        side,
        value: node.quantity(figure.dimension())?,
    })
}

fn answered<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<Test> {
    let map = node.shaped(&ANSWERED)?;
    let step = map.required("step");
    let state = map.required("state");
    let (step, state) = names.answered(step?, state?)?;
    Ok(Test::Answered {
        step: step.to_owned(),
        state: state.to_owned(),
    })
}
