//! Which steps give trouble, as lines of text.

use crate::record::counted;
use crate::review::StepCounts;
use crate::text::put;

/// The steps, of so many trips. No line is longer than 80 columns.
pub fn steps(steps: &[&StepCounts], left: usize, trips: u64) -> String {
    let mut text = String::new();
    let trips = usize::try_from(trips).unwrap_or(usize::MAX);
    let head = format!(
        "Steps that give trouble, of {}, the most for its answers first. A step that is often taken \
         back, put off or typed twice may ask badly: ask those who walk it.",
        counted(trips, "trip")
    );
    put(&mut text, 0, &head);
    if steps.is_empty() {
        put(&mut text, 0, "None does.");
    }
    for step in steps {
        text.push('\n');
        let head = format!("{}, {} ({})", step.checklist, step.name, step.step);
        put(&mut text, 0, &head);
        put(&mut text, 2, &told(step));
    }
    if left > 0 {
        text.push('\n');
        let rest = format!(
            "{} more with less or no trouble: --all lists them.",
            counted(left, "step")
        );
        put(&mut text, 0, &rest);
    }
    text
}

/// `answered 34 times: 3 taken back, 12 put off; 2 found something; 14 s in the middle`.
fn told(step: &StepCounts) -> String {
    let parts = [
        (step.taken_back, "taken back"),
        (step.put_off, "put off"),
        (step.typed_twice, "typed twice"),
        (step.measured_again, "too near a limit to judge"),
        (step.lived_with, "noted and lived with"),
        (step.not_clear, "not clear"),
    ];
    let parts = parts.iter().filter(|(count, _)| *count > 0);
    let parts: Vec<String> = parts
        .map(|(count, what)| format!("{count} {what}"))
        .collect();
    let trouble = if parts.is_empty() {
        "no trouble".to_owned()
    } else {
        parts.join(", ")
    };
    let took = step.usual_ms().map_or_else(String::new, |ms| {
        format!("; {} s in the middle", ms.div_ceil(1000))
    });
    let times = counted(usize::try_from(step.answered).unwrap_or(usize::MAX), "time");
    format!(
        "answered {times}: {trouble}; {} found something{took}",
        step.found
    )
}
