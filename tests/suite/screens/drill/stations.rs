//! The screens of drills, each reached by keys.

use crate::screens::bench::Bench;
use crate::screens::drill::{changed, drill, kept, room, unrecorded};
use hames::drill::Stage;
use hames::tui::Context as At;

/// A screen: its name, what it waits for, from where, and by which keys it is reached.
type Route = (&'static str, At, fn() -> Bench, &'static str);

/// Every screen.
#[rustfmt::skip]
pub(crate) const DRILL_ROUTES: [Route; 34] = [
    ("drill_room", At::DrillRoom, room, ""),
    ("drill_room_learner", At::DrillRoom, room, "1"),
    ("drill_room_changed", At::DrillRoom, changed, "1"),
    ("drill_room_unrecorded", At::DrillRoom, unrecorded, "s"),
    ("drill_families", At::DrillFamilies, room, "17"),
    ("drill_titles", At::DrillTitles, room, "18pin"),
    ("drill_reached", At::DrillReached, room, "1b"),
    ("drill_rides", At::RideChoice, room, "19"),
    ("drill_examiners", At::RideChoice, room, "191↓"),
    ("drill_before_ride", At::BeforeRide, room, "1911"),
    ("drill_next", At::Next, || drill("backed-up", None, Stage::Guided), ""),
    ("drill_looking", At::Looking, pin, ""),
    ("drill_looked", At::Looking, pin, "a"),
    ("drill_seen", At::Looking, pin, "ab"),
    ("drill_alone", At::Looking, pin_alone, "ab"),
    ("drill_high", At::Looking, || drill("nose-high", Some("ball-high"), Stage::Guided).drilled_to("lift-gap"), "a"),
    ("drill_planted", At::Looking, || drill("knock", None, Stage::Guided).drilled_to("receiver-pin"), ""),
    ("drill_told_at_once", At::Outcome, pin, "a3"),
    ("drill_found", At::Branch, pin, "ab1"),
    ("drill_measuring", At::Measuring, marks, ""),
    ("drill_measured", At::Measuring, marks, "m"),
    ("drill_reading", At::Reading, marks, "m27"),
    ("drill_called_away", At::CalledAway, barrow, ""),
    ("drill_away", At::Held, barrow, "⇥"),
    ("drill_returning", At::Returning, barrow, "⇥⏎"),
    ("drill_watching", At::Watching, || drill("receiver-pin", Some("no-clip"), Stage::Watch), "ddddd"),
    ("drill_debrief", At::Debrief, missed, ""),
    ("drill_learning", At::Words, missed, "lLook at both ends"),
    ("drill_learned", At::Debrief, missed, "lLook at both ends.⏎"),
    ("drill_over", At::DrillOver, missed, "f"),
    ("drill_over_kept", At::DrillOver, kept_pin, "ab1enot fit⏎the clip is lost⏎"),
    ("drill_signer", At::Signer, kept_pin, "ab1enot fit⏎the clip is lost⏎s"),
    ("drill_sealed", At::Sealed, kept_pin, "ab1enot fit⏎the clip is lost⏎s1demo⏎"),
    ("drill_help", At::Help, pin, "?"),
];

fn pin() -> Bench {
    drill("receiver-pin", Some("no-clip"), Stage::Guided).drilled_to("receiver-pin")
}

fn pin_alone() -> Bench {
    drill("receiver-pin", Some("no-clip"), Stage::Solo).drilled_to("receiver-pin")
}

fn kept_pin() -> Bench {
    kept("receiver-pin", Some("no-clip"), Stage::Guided).drilled_to("receiver-pin")
}

/// Alone, the pin called held after a look from the near side, and everything else as it is.
fn missed() -> Bench {
    pin_alone().play("a3").drilled_through()
}

fn marks() -> Bench {
    drill("nose-high", Some("ball-high"), Stage::Guided).drilled_to("rear-mark")
}

fn barrow() -> Bench {
    drill("pin-and-barrow", None, Stage::Guided).drilled_to("receiver-pin")
}
