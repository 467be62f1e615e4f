//! The rig in front of a learner: drawn as it truly is where it was looked at, and nowhere else.
//!
//! Before any look it is drawn by the rig file, which is no secret. A look from the side shows how
//! the rig truly stands, from above how it lies, and close up how it hangs together. What no
//! measure gives, such as a pin without its clip, is named at its part, and only once the looks tell
//! it from every other state. All of it is told in words as well; nobody has to see the drawing.

use crate::checklist::PlannedStep;
use crate::drill::{Run, Stage, There, Vantage};
use crate::tui::rig::{Drawing, View, drawing_of};

/// What is drawn of a step in a drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// The drawing.
    pub drawing: Drawing,
    /// What it rests on, in words.
    pub told: String,
}

/// What is drawn of the step with this index, looked at from there, the newest look last.
pub fn seen(run: &Run, index: usize, looked: &[Vantage]) -> Option<Seen> {
    let plan = run.walk().plan();
    let step = plan.steps().get(index)?;
    let word = word(run, index, looked);
    let mut newest = looked.iter().rev();
    let newest = newest.find_map(|from| Some((*from, view(*from, step, run)?)));
    let (drawing, told) = match (newest, looked.last()) {
        (Some((from, view)), _) => {
            let rig = run.drill().stands(run.walk());
            let drawing = Drawing::on(plan, view, rig);
            // Whoever stands at the right has its front at the right.
            let drawing = if from == Vantage::Right {
                drawing.mirrored()
            } else {
                drawing
            };
            let place = step.step.place;
            let drawing = if drawing.shows(place) {
                drawing.marked(place, step.item.as_ref())
            } else {
                drawing
            };
            let told = format!("By its true measures, {}.", from.label());
            (drawing, told)
        }
        (None, Some(_)) => {
            let told = if word.is_some() {
                "Named at its part by what was seen; drawn by the rig file."
            } else {
                "By the rig file: no drawing shows what was seen."
            };
            (drawing_of(plan, step, false), told.to_owned())
        }
        (None, None) => {
            let told = if run.drill().vantages(step).is_empty() {
                "By the rig file: what is there is measured."
            } else {
                "By the rig file: what is there shows once you look."
            };
            (drawing_of(plan, step, false), told.to_owned())
        }
    };
    Some(Seen {
        drawing: drawing.called(word),
        told,
    })
}

/// The view that a look shows: the whole rig from a side, the trailer from above, the hitch from
/// near. Of what lies elsewhere no view shows more than its words do.
fn view(from: Vantage, step: &PlannedStep, run: &Run) -> Option<View> {
    match from {
        Vantage::Left | Vantage::Right => Some(View::Side),
        Vantage::Above => Some(View::Above),
        Vantage::Close | Vantage::Under | Vantage::Hand => {
            let kind = run.walk().plan().rig().kind();
            Some(View::of(step.step.place, kind)).filter(|view| *view == View::Hitch)
        }
        Vantage::Behind | Vantage::Inside | Vantage::Cab => None,
    }
}

/// States that tell who has come, and nothing of the part a step is about.
const OF_PEOPLE: [&str; 2] = ["here", "alone"];

/// The word of the state that is there, once the looks tell it from every other. To name it is a
/// help, and alone there is none.
fn word(run: &Run, index: usize, looked: &[Vantage]) -> Option<String> {
    let (drill, walk) = (run.drill(), run.walk());
    if run.stage() >= Stage::Solo || looked.is_empty() || !drill.is_known(walk, index, looked) {
        return None;
    }
    match drill.there(walk, index)? {
        There::State(state) if OF_PEOPLE.contains(&state.as_str()) => None,
        There::State(state) => Some(state.replace('-', " ")),
        There::Value(_) => None,
    }
}
