//! The screens, played by keys against the real machine.

mod beginning;
pub(crate) mod bench;
mod beside;
mod drill;
mod flows;
mod look;
mod lookout;
mod readme;
mod reference;
mod rig;
mod signing;
mod stations;
mod storms;
mod table;
mod why;

use crate::plain::bench::plan;
use bench::{Bench, good_keys};
use hames::tui::Context;
use hames::walk::{Ended, Event};

#[test]
fn a_whole_walk_is_played_by_keys_to_the_receipt() {
    let mut bench = Bench::with(plan()).play("1");
    for keys in good_keys(&plan()) {
        bench = bench.play(&keys);
    }
    assert_eq!(
        bench.walk().ended(),
        Some(Ended::Complete),
        "{}",
        bench.text(80, 24)
    );
    assert_eq!(bench.model.context(), Context::Signer);
    let bench = bench.play("1demo⏎");
    assert_eq!(
        bench.model.context(),
        Context::Sealed,
        "{}",
        bench.text(80, 24)
    );
    assert_eq!(bench.desk.sealed_by.as_deref(), Some("wren.ashdown"));
    let bench = bench.play("o");
    assert_eq!(bench.model.context(), Context::Record);
    let bench = bench.play("q");
    assert_eq!(bench.model.context(), Context::RigPage);
    assert!(bench.play("q").model.is_over());
}

#[test]
fn the_demo_hitch_up_begins_with_one_key() {
    let bench = Bench::new().play("1");
    assert_eq!(bench.walk().reader().as_str(), "Wren Ashdown");
    assert_eq!(bench.walk().doer().as_str(), "Tobias Fenn");
    assert!(
        !bench
            .desk
            .journal
            .iter()
            .any(|entry| !matches!(entry.event, Event::Opened { .. }))
    );
}
