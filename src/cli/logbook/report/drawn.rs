//! The rig of a report, drawn: with the part marked that the first exception at one is about.

use crate::desk::Exception;
use crate::report::Picture;
use crate::rig::Rig;
use crate::tui::rig::{Drawing, drawing_of};
use crate::walk::Walk;

/// The rig of a walk.
pub(super) fn of_walk(walk: &Walk, exceptions: &[Exception]) -> Picture {
    let plan = walk.plan();
    let step = exceptions.iter().find_map(|exception| exception.step(plan));
    match step {
        Some(step) => Picture {
            svg: drawing_of(plan, step, false).svg(),
            told: format!(
                "{}, from its own numbers. Marked in bold, with its name in a box: where the first \
                 exception at a part is, {}.",
                plan.rig().name,
                step.name()
            ),
        },
        None => of_rig(plan.rig()),
    }
}

/// A rig from its left.
pub(super) fn of_rig(rig: &Rig) -> Picture {
    Picture {
        svg: Drawing::side(rig).svg(),
        told: format!("{}, from its own numbers.", rig.name),
    }
}
