//! The one reader of scenario files.

use crate::checklist::StepKey;
use crate::document::{Document, Fault as FileFault, Map, Node, Read, Shape};
use crate::drill::format::{
    BETWEEN, CALL, CARRIES, DIFFERS, FAULT, FORMAT, GOOD, HINT, PATCH, SCENARIO, SCENARIOS_FILE,
    SLIP, STATE_AT, TRULY,
};
use crate::drill::scenario::Good;
use crate::drill::{Between, Call, Differs, Family, Fault, Grading, Hint, Patch, Scenario, Slip};
use crate::rules::{Carried, Carry, Verdict};
use crate::units::{Dimension, Quantity, Unit};

/// The air where a scenario says nothing of it, F.
const USUAL_AIR_F: i64 = 70;

impl Scenario {
    /// Reads a file of scenarios.
    ///
    /// # Errors
    /// Every fault of the text, in the order of the file.
    pub fn read_all(text: &str) -> Result<Vec<Self>, Vec<FileFault>> {
        Document::parse(text)?.read(|root| {
            let map = root.shaped(&SCENARIOS_FILE)?;
            let format = map.required("format").and_then(|node| is(node, FORMAT));
            let all = map
                .required("scenarios")
                .and_then(|node| node.each(scenario));
            format?;
            all
        })
    }
}

pub(super) fn is(node: Node<'_>, format: &str) -> Read<()> {
    if node.text()? == format {
        return Ok(());
    }
    Err(node.fault(
        "this format is not known here",
        format!("write `format: {format}`, or use a newer program"),
    ))
}

fn scenario(node: Node<'_>) -> Read<Scenario> {
    let map = node.shaped(&SCENARIO)?;
    let (id, list, rig) = (name(map, "id"), name(map, "list"), name(map, "rig"));
    let (title, tale, source) = (
        words(map, "title"),
        words(map, "tale"),
        words(map, "source"),
    );
    let family = map
        .required("family")
        .and_then(|node| node.choice(&Family::WORDS));
    let sections = map
        .required("sections")
        .and_then(|node| node.each(|name| name.id().map(str::to_owned)));
    let air = map.optional("air").map_or_else(
        || Ok(Quantity::whole(USUAL_AIR_F, Unit::Fahrenheit)),
        |node| node.quantity(Dimension::Temperature),
    );
    let always = map
        .optional("always")
        .map_or(Ok(Differs::default()), |node| {
            differs(node.shaped(&DIFFERS)?)
        });
    let carries = entries(map, "carries", carried);
    let faults = map
        .optional("faults")
        .map_or(Ok(Vec::new()), |node| node.each(fault));
    let good = map.required("good").and_then(good);
    let between = map.optional("between").map(between).transpose();
    let hurry = map.optional("hurry").map(Node::sentence).transpose();
    let hint = map.optional("hint").map(hint).transpose();
    let graded = map
        .optional("graded")
        .map_or(Ok(Grading::default()), |node| node.choice(&Grading::WORDS));
    Ok(Scenario {
        id: id?,
        title: title?,
        family: family?,
        list: list?,
        sections: sections?,
        rig: rig?,
        tale: tale?,
        air: air?,
        always: always?,
        carries: carries?,
        faults: faults?,
        good: good?,
        between: between?,
        hurry: hurry?.map(str::to_owned),
        hint: hint?,
        graded: graded?,
        source: source?,
    })
}

fn carried(node: Node<'_>) -> Read<Carried> {
    let map = node.shaped(&CARRIES)?;
    let what = map
        .required("what")
        .and_then(|node| node.choice(&Carry::WORDS));
    let part = map.optional("part").map(Node::id).transpose();
    Ok(Carried {
        what: what?,
        part: part?.map(str::to_owned),
    })
}

fn differs(map: Map<'_>) -> Read<Differs> {
    let rig = entries(map, "rig", |node| {
        let map = node.shaped(&PATCH)?;
        let (at, is) = (words(map, "at"), map.required("is").and_then(Node::text));
        Ok(Patch {
            at: at?,
            is: is?.to_owned(),
        })
    });
    let read = entries(map, "read", |node| {
        let (step, map) = at_step(node, &TRULY)?;
        let is = map.required("is")?.quantity_in(&dimensions())?;
        Ok((step, is))
    });
    let seen = entries(map, "seen", |node| {
        let (step, map) = at_step(node, &STATE_AT)?;
        Ok((step, name(map, "state")?))
    });
    Ok(Differs {
        rig: rig?,
        read: read?,
        seen: seen?,
    })
}

/// Every dimension; what is written in pounds is a mass, since a scale reads one.
fn dimensions() -> Vec<Dimension> {
    let others = Dimension::ALL.into_iter();
    let others = others.filter(|dimension| *dimension != Dimension::Mass);
    std::iter::once(Dimension::Mass).chain(others).collect()
}

fn fault(node: Node<'_>) -> Read<Fault> {
    let map = node.shaped(&FAULT)?;
    let (id, why, would) = (name(map, "id"), words(map, "why"), words(map, "would"));
    let differs = differs(map);
    let call = map.required("call").and_then(call);
    let slip = map.required("slip").and_then(slip);
    Ok(Fault {
        id: id?,
        differs: differs?,
        call: call?,
        slip: slip?,
        why: why?,
        would: would?,
    })
}

fn good(node: Node<'_>) -> Read<Good> {
    let map = node.shaped(&GOOD)?;
    let slip = map.optional("slip").map(call).transpose();
    let why = words(map, "why");
    Ok(Good {
        slip: slip?,
        why: why?,
    })
}

fn call(node: Node<'_>) -> Read<Call> {
    let (step, map) = at_step(node, &CALL)?;
    let verdict = map.required("verdict")?.choice(&Verdict::WORDS)?;
    Ok(Call { step, verdict })
}

fn slip(node: Node<'_>) -> Read<Slip> {
    let (step, map) = at_step(node, &SLIP)?;
    let (is_state, value) = map.only_one_of(&[("state", true), ("verdict", false)])?;
    Ok(if is_state {
        Slip::Seen(step, value.id()?.to_owned())
    } else {
        Slip::Called(step, value.choice(&Verdict::WORDS)?)
    })
}

fn between(node: Node<'_>) -> Read<Between> {
    let (at, map) = at_step(node, &BETWEEN)?;
    let what = words(map, "what")?;
    Ok(Between { at, what })
}

fn hint(node: Node<'_>) -> Read<Hint> {
    let (at, map) = at_step(node, &HINT)?;
    let says = words(map, "says")?;
    Ok(Hint { at, says })
}

/// A map of this shape that is about a step.
fn at_step<'d>(node: Node<'d>, shape: &Shape) -> Read<(StepKey, Map<'d>)> {
    let map = node.shaped(shape)?;
    let step = map.required("step")?.sentence()?;
    Ok((StepKey::named(step), map))
}

fn entries<'d, T>(
    map: Map<'d>,
    key: &str,
    reader: impl FnMut(Node<'d>) -> Read<T>,
) -> Read<Vec<T>> {
    map.optional(key)
        .map_or(Ok(Vec::new()), |node| node.each(reader))
}

fn words(map: Map<'_>, key: &str) -> Read<String> {
    map.required(key)?.sentence().map(str::to_owned)
}

fn name(map: Map<'_>, key: &str) -> Read<String> {
    map.required(key)?.id().map(str::to_owned)
}
