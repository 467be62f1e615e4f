//! Named states as the file writes them.

use crate::checklist::format::{SIGHTING, STATE};
use crate::checklist::yaml::names::Names;
use crate::checklist::yaml::{flag, limit, words};
use crate::checklist::{SightingAsk, State};
use crate::document::{Node, Read};
use crate::rules::Verdict;

pub(super) fn sighting<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<SightingAsk> {
    let map = node.shaped(&SIGHTING)?;
    let basis = limit::basis(map);
    let states = map.required("states").and_then(|node| {
        let states = node.each(|node| state(node, names))?;
        whole(node, &states)?;
        Ok(states)
    });
    Ok(SightingAsk {
        states: states?,
        basis: basis?,
    })
}

fn state<'d>(node: Node<'d>, names: &mut Names<'d>) -> Read<State> {
    let map = node.shaped(&STATE)?;
    let id = map.required("id").and_then(|node| names.state(node));
    let seen = words(map, "seen");
    let cannot_see = flag(map, "cannot-see");
    let verdict = map.required("verdict").and_then(|node| {
        let verdict = node.choice(&Verdict::WORDS)?;
        if cannot_see == Ok(true) && verdict == Verdict::Ok {
            let fix = "write note, fix or stop as its verdict";
            return Err(node.fault("what cannot be seen is not ok", fix));
        }
        Ok(verdict)
    });
    let branch = limit::opened(map, verdict, names);
    let leaves = limit::leaves(map);
    Ok(State {
        id: id?.to_owned(),
        seen: seen?,
        verdict: verdict?,
        cannot_see: cannot_see?,
        branch: branch?,
        leaves: leaves?,
    })
}

/// Whether the states together leave no way but to look: three or four of them, one ok at least,
/// one bad at least, and one for not being able to see.
fn whole(node: Node<'_>, states: &[State]) -> Read<()> {
    let count = |wanted: fn(&State) -> bool| states.iter().filter(|state| wanted(state)).count();
    let good = count(|state| state.verdict == Verdict::Ok);
    let bad = count(|state| state.verdict > Verdict::Ok && !state.cannot_see);
    let blind = count(|state| state.cannot_see);
    let told = [
        (!(3..=4).contains(&states.len())).then(|| {
            node.fault(
                format!("{} states are given", states.len()),
                "give three or four, each a thing that can be seen",
            )
        }),
        (good == 0).then(|| node.fault("no state is ok", "add the state that should be seen")),
        (bad == 0).then(|| node.fault("no state is bad", "add a bad state that can be seen")),
        (blind != 1).then(|| {
            node.fault(
                format!("{blind} states are for not being able to see"),
                "mark exactly one with `cannot-see: true`",
            )
        }),
    ];
    told.into_iter().flatten().next().map_or(Ok(()), Err)
}
