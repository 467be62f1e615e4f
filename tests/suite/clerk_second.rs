//! A second person is somebody else: no everyday name makes two of one.

use crate::clerk::copy;
use crate::harness::good;
use hames::checklist::PlannedAsk;
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{Errand, Reply};
use hames::record::Mode;
use hames::walk::{Act, Now, Walk};
use hames::world::Machine;

/// What Tobias Fenn, who does the work, might be called, and what is nobody's whole name.
const REFUSED: [&str; 13] = [
    "Tobias",
    "Fenn",
    "T. Fenn",
    "Tobías Fenn",
    "T\u{43e}bias Fenn",
    "Tobias J. Fenn",
    "Fenn, Tobias",
    "1",
    "x",
    "Nobody",
    "Odile",
    "O. Marsh",
    "?",
];

/// The same answer in another's name.
fn by(act: &Act, name: &str) -> Act {
    let mut act = act.clone();
    match &mut act {
        Act::SeeAs { who, .. } | Act::ReadAs { who, .. } => name.clone_into(who),
        _ => {}
    }
    act
}

#[test]
fn a_second_person_is_named_by_a_whole_name_that_could_be_nobody_elses() {
    let place = Place {
        root: "/demo".into(),
        mode: Mode::Demo,
    };
    let mut clerk = Clerk::new(copy(), Machine::this(), place, Stock::demo());
    let begin = Errand::Begin {
        rig: "juniper".into(),
        checklist: "hitch-bumper".into(),
        reader: "Wren Ashdown".into(),
        doer: "Tobias Fenn".into(),
        odometer: String::new(),
        walked: String::new(),
        answers: Vec::new(),
    };
    let Reply::Walking { walk, .. } = clerk.perform(begin) else {
        panic!("not begun");
    };
    let mut walk: Walk = *walk;
    let mut asked = 0;
    loop {
        let act = match walk.now() {
            Now::Next(_) => Act::Open,
            Now::SectionEnd(_) => Act::CloseSection,
            Now::Open(at) => {
                let planned = walk.asked(at).unwrap();
                let good = good::good(walk.plan(), &planned, "June Ashdown");
                let act = good.act().clone();
                if matches!(planned.ask, PlannedAsk::Independent(_)) || planned.is_second_reading()
                {
                    asked += 1;
                    for name in REFUSED {
                        let reply = clerk.perform(Errand::Record(by(&act, name)));
                        let Reply::Refused(why) = reply else {
                            panic!("{name}: {reply:?}");
                        };
                        assert!(why.is_of_second(), "{name}: {why}");
                    }
                    let Reply::Refused(why) = clerk.perform(Errand::Record(by(&act, "Fenn")))
                    else {
                        panic!("taken");
                    };
                    assert_eq!(
                        why.to_string(),
                        "“Fenn” could be Tobias Fenn; type the whole name of the other person."
                    );
                    assert_eq!(walk.now(), Now::Open(at));
                }
                // One of the crew is named as the crew file has it, id or name.
                match asked % 3 {
                    0 => by(&act, "odile.marsh"),
                    1 => by(&act, "Odile Marsh"),
                    _ => act,
                }
            }
            _ => break,
        };
        match clerk.perform(Errand::Record(act)) {
            Reply::Recorded(entry) => walk.apply(&entry),
            other => panic!("{other:?}"),
        }
    }
    assert!(asked > 0);
}
