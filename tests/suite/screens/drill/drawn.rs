//! The rig in front of a learner: nothing of the truth is drawn before it was looked at.

use crate::drill::bench::{self as drills, moment};
use crate::screens::drill::drill;
use hames::drill::{Run, Stage, Vantage, scenarios};
use hames::tui::rig::{Seen, seen};
use hames::walk::Words;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::widgets::Widget;
use std::sync::Arc;

fn run(scenario: usize, fault: Option<usize>, stage: Stage) -> Run {
    let drill = drills::drill(&scenarios()[scenario], fault, 1);
    let who = Words::read("Ines Calder").unwrap();
    Run::begin(Arc::new(drill), stage, &who, moment(0))
}

fn frame(seen: &Seen) -> Buffer {
    let area = Rect::new(0, 0, 80, 16);
    let mut buffer = Buffer::empty(area);
    (&seen.drawing).render(area, &mut buffer);
    buffer
}

/// What is told of a step from these places.
fn sights(run: &Run, index: usize, looked: &[Vantage]) -> Vec<Option<String>> {
    let drill = run.drill();
    looked
        .iter()
        .map(|from| drill.sees(run.walk(), index, *from))
        .collect()
}

/// Of every scenario, at each step its fault may show at: from wherever the fault is told by the
/// same words as a rig that is well, not one cell of the drawing tells them apart.
#[test]
fn what_does_not_show_from_where_was_looked_changes_no_cell() {
    let (mut hidden, mut shown) = (0, 0);
    for (at, scenario) in scenarios().iter().enumerate() {
        let well = run(at, None, Stage::Guided);
        for fault in 0..scenario.faults.len() {
            let faulty = run(at, Some(fault), Stage::Guided);
            if faulty.drill().truly() != well.drill().truly() {
                continue;
            }
            let plan = well.walk().plan();
            for (index, planned) in plan.steps().iter().enumerate() {
                let places = well.drill().vantages(planned);
                let differs = faulty.drill().there(faulty.walk(), index)
                    != well.drill().there(well.walk(), index);
                if !differs {
                    continue;
                }
                for many in 0..=places.len() {
                    let looked = &places[..many];
                    let alike = sights(&faulty, index, looked) == sights(&well, index, looked);
                    let drawn = [&faulty, &well].map(|run| seen(run, index, looked).unwrap());
                    if alike {
                        hidden += 1;
                        // What is drawn alike is the same to the last cell.
                        assert_eq!(
                            drawn[0], drawn[1],
                            "{} {} {looked:?}",
                            scenario.id, planned.key
                        );
                    } else {
                        shown += usize::from(drawn[0] != drawn[1]);
                    }
                }
            }
        }
    }
    assert!(hidden > 200 && shown > 100, "{hidden} {shown}");
}

/// Whatever differs of the rig itself, nothing of it is drawn before a look.
#[test]
fn before_any_look_the_rig_is_drawn_by_its_file() {
    let mut truly_otherwise = 0;
    for (at, scenario) in scenarios().iter().enumerate() {
        let well = run(at, None, Stage::Guided);
        for fault in 0..scenario.faults.len() {
            let faulty = run(at, Some(fault), Stage::Guided);
            truly_otherwise += usize::from(faulty.drill().truly() != well.drill().truly());
            for index in 0..well.walk().plan().steps().len() {
                let drawn = [&faulty, &well].map(|run| seen(run, index, &[]));
                assert_eq!(drawn[0], drawn[1], "{}", scenario.id);
                assert!(
                    drawn[0]
                        .as_ref()
                        .unwrap()
                        .told
                        .starts_with("By the rig file")
                );
            }
        }
    }
    assert!(truly_otherwise > 10, "{truly_otherwise}");
}

#[test]
fn a_trailer_that_stands_nose_high_is_seen_so_from_the_side_and_not_from_above() {
    let at = scenarios()
        .iter()
        .position(|one| one.id == "nose-high")
        .unwrap();
    let (high, level) = (run(at, Some(0), Stage::Solo), run(at, None, Stage::Solo));
    let key = hames::checklist::StepKey::named("lift-gap");
    let index = high.walk().plan().index(&key).unwrap();
    let drawn =
        |looked: &[Vantage]| [&high, &level].map(|run| frame(&seen(run, index, looked).unwrap()));
    for looked in [&[][..], &[Vantage::Above]] {
        let [high, level] = drawn(looked);
        assert_eq!(high, level, "{looked:?}");
    }
    for from in [Vantage::Left, Vantage::Right] {
        let [high, level] = drawn(&[from]);
        assert_ne!(high, level, "{from:?}");
    }
}

#[test]
fn a_state_is_named_at_its_part_once_it_is_known_and_alone_never() {
    for (stage, named) in [
        (Stage::Guided, true),
        (Stage::Faded, true),
        (Stage::Solo, false),
    ] {
        let bench = drill("receiver-pin", Some("no-clip"), stage).drilled_to("receiver-pin");
        let before = bench.play("a");
        assert!(
            !before.text(120, 40).contains("RECEIVER: no clip"),
            "{stage:?}"
        );
        let after = before.play("b").text(120, 40);
        assert_eq!(after.contains("RECEIVER: no clip"), named, "{after}");
        assert!(after.contains("its hole is empty"), "{after}");
    }
}

/// From wherever no measure shows: what the drawing rests on is told as it is.
#[test]
fn a_drawing_that_names_what_was_seen_does_not_say_that_it_is_the_rig_file_s_alone() {
    let (mut named, mut unnamed) = (0, 0);
    for at in 0..scenarios().len() {
        let run = run(at, None, Stage::Guided);
        let plan = run.walk().plan();
        for (index, planned) in plan.steps().iter().enumerate() {
            let before = seen(&run, index, &[]).unwrap();
            let looked = run.drill().vantages(planned);
            for many in 1..=looked.len() {
                let after = seen(&run, index, &looked[..many]).unwrap();
                let told = after.told.as_str();
                assert!(!told.contains("try it by hand"), "{told}");
                if told.starts_with("By its true measures") {
                    continue;
                }
                let says = told.starts_with("Named at its part by what was seen");
                assert_eq!(says, after.drawing != before.drawing, "{told}");
                named += usize::from(says);
                unnamed += usize::from(!says);
            }
        }
    }
    assert!(named > 20 && unnamed > 20, "{named} {unnamed}");
}
