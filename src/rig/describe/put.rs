//! What an answer changes in the file.

use crate::document::Tree;
use crate::rig::demo;
use crate::rig::describe::draft::Draft;
use crate::rig::describe::{Ask, Like, NotAnAnswer, Question};

/// The remark above instruments that are not the person's own.
const STANDARD: &str = "The standard set of the demo rig. Read the span and the error off your \
                        own tools, and mend them here.";

/// Puts an answer into the file.
pub(super) fn put(draft: &mut Draft, question: &Question, value: Tree) -> Result<(), NotAnAnswer> {
    let path = &question.path;
    match (question.field.ask, value) {
        (Ask::Joint, Tree::Text(kind)) => {
            if draft.at(path).is_none_or(|joint| joint.at(&kind).is_none()) {
                draft.put(path, Tree::empty());
                draft.put(&format!("{path}.{kind}"), Tree::empty());
            }
        }
        (Ask::Axles, Tree::Text(typed)) => axles(draft, path, &typed)?,
        (Ask::Like(like), Tree::Text(word)) => {
            draft.take(path);
            if word == "yes" {
                copy(draft, like, path);
            } else if path.ends_with(']') {
                draft.put(path, Tree::empty());
            }
        }
        (Ask::More(list), value) => {
            let place = draft.at(path).and_then(Tree::count).unwrap_or(0);
            draft.put(&format!("{path}[{place}].{}", list.key), value);
        }
        (Ask::Tools, Tree::Text(word)) if word == "standard" => {
            draft.put(path, standard_tools());
            draft.remark(&format!("{path}[0].id"), STANDARD);
        }
        (Ask::Tools, _) => draft.put(path, Tree::List(Vec::new())),
        (_, value) => draft.put(path, value),
    }
    Ok(())
}

/// So many axles, those described already among them.
fn axles(draft: &mut Draft, path: &str, typed: &str) -> Result<(), NotAnAnswer> {
    let wanted = match typed {
        "1" => 1,
        "2" => 2,
        "3" => 3,
        _ => {
            let sentence = "A trailer here has one to three axles. Type 1, 2 or 3.";
            return Err(NotAnAnswer(sentence.to_owned()));
        }
    };
    let mut axles = match draft.at(path) {
        Some(Tree::List(axles)) => axles.clone(),
        _ => Vec::new(),
    };
    axles.resize(wanted, Tree::empty());
    draft.put(path, Tree::List(axles));
    Ok(())
}

/// The values of a part that is built like another.
fn copy(draft: &mut Draft, like: &Like, path: &str) {
    let Some(mut part) = draft.at(like.from).cloned() else {
        return;
    };
    for own in like.except {
        part.take(own);
    }
    draft.put(path, part);
}

/// The demo rig's instruments, without the days on which nobody calibrated anything here.
fn standard_tools() -> Tree {
    let demo = Draft::read(demo::JUNIPER).map(|demo| demo.at("instruments").cloned());
    let mut tools = demo.ok().flatten().unwrap_or(Tree::List(Vec::new()));
    for place in 0..tools.count().unwrap_or(0) {
        tools.take(&format!("[{place}].calibrated"));
    }
    tools
}
