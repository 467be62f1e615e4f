//! The policies of the settings file: a word, or a map that also says whose word allows it.

use crate::barn::{Policy, Ruling};
use crate::document::{Map, Node, Read};

pub(super) fn rulings(node: Node<'_>) -> Read<Vec<Ruling>> {
    let words = Policy::WORDS.map(|(word, _)| word);
    let map = node.map(&words)?;
    let given = Policy::WORDS.into_iter().filter_map(|(word, policy)| {
        let node = map.optional(word)?;
        Some(ruling(policy, node))
    });
    let read: Vec<Read<Ruling>> = given.collect();
    read.into_iter().collect()
}

fn ruling(policy: Policy, node: Node<'_>) -> Read<Ruling> {
    if policy == Policy::RoadSide {
        return Err(node.fault(
            "the side of the road is no school to choose, and stands with the barn's name",
            format!(
                "take it away here, and write `{}: …` at the top",
                policy.word()
            ),
        ));
    }
    if node.is_map() {
        return with_grounds(policy, node.map(&["choose", "grounds"])?);
    }
    let choice = node.choice(&policy.choices())?;
    if let Some(grounds) = choice.wants_grounds() {
        return Err(node.lack(
            format!(
                "{} asks for less than the default, and nobody's word stands beside it",
                choice.word()
            ),
            format!(
                "write `{{ choose: {}, grounds: … }}` with {grounds}",
                choice.word()
            ),
        ));
    }
    Ok(Ruling {
        choice,
        grounds: None,
    })
}

fn with_grounds(policy: Policy, map: Map<'_>) -> Read<Ruling> {
    let choice = map
        .required("choose")
        .and_then(|node| node.choice(&policy.choices()));
    let grounds = map.required("grounds").and_then(Node::sentence);
    Ok(Ruling {
        choice: choice?,
        grounds: Some(grounds?.to_owned()),
    })
}
