//! Who has not walked a rig for long is told as a walk of it begins, and nothing is barred.

use super::Sitting;
use crate::clerk::copy;
use chrono::TimeDelta;
use hames::desk::{Errand, Reply};
use hames::world::{Machine, World};

/// What is told to these people where they begin a walk now, and the day so many days ago.
fn told_after(days: i64, answers: &[(&str, &str)]) -> (Vec<String>, String) {
    let mut sitting = Sitting::at(copy());
    let walked = Machine::this().now().wall - TimeDelta::days(days);
    let mut walk = sitting
        .begin("join", &walked.format("%Y-%m-%d 06:10").to_string())
        .unwrap();
    sitting.walk(&mut walk, answers);
    let people = ["Wren Ashdown", "Tobias Fenn"];
    let reply = sitting.clerk.perform(Errand::MayBegin {
        rig: "juniper".into(),
        checklist: "join".into(),
        people: people.map(str::to_owned).to_vec(),
    });
    match reply {
        Reply::MayBegin { notices, .. } => (notices, walked.format("%Y-%m-%d").to_string()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_refresher_is_told_after_ninety_days_and_a_new_beginning_after_a_hundred_and_eighty() {
    for (days, due) in [
        (90, None),
        (91, Some("a refresher is due")),
        (180, Some("a refresher is due")),
        (181, Some("begin again as a new driver does")),
    ] {
        let (told, day) = told_after(days, &[]);
        for name in ["Wren Ashdown", "Tobias Fenn"] {
            let sentence = due.map(|due| {
                format!(
                    "{name} last walked Juniper, two-horse bumper pull on {day}, {days} days ago: \
                     {due}. That bars nothing; the manager decides."
                )
            });
            let of_them: Vec<&String> = told.iter().filter(|one| one.starts_with(name)).collect();
            assert_eq!(of_them, sentence.iter().collect::<Vec<_>>(), "{days} days");
        }
    }
}
