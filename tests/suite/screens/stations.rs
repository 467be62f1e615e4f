//! Every screen there is, each reached by keys.

use crate::plain::beginning::put_questions;
use crate::screens::bench::Bench;
use crate::screens::drill::stations::DRILL_ROUTES;
use crate::screens::lookout;
use hames::tui::Context;
use std::sync::LazyLock;

/// A screen by its name.
pub(crate) struct Station {
    pub(crate) name: &'static str,
    pub(crate) context: Context,
    pub(crate) bench: Bench,
}

/// How far the walk has come before the keys of a station.
#[derive(Clone, Copy)]
enum Reached {
    /// Hames was just started.
    Fresh,
    /// The same, with a rig of which earlier walks left things open.
    Earlier,
    /// A barn with two rigs, the first with much open and due.
    Barn,
    /// The same, with nothing open and nothing due.
    Quiet,
    /// A laptop of which there is much to know.
    Told,
    /// The same, on which no walk can begin.
    Barred,
    /// A laptop on which managers asked about an earlier trip.
    Asked,
    /// The key of whoever signs lies in hardware, and every section is complete.
    Hardware,
    /// The walk is begun, no step yet.
    Begun,
    /// The same, with things carried in.
    Carried,
    /// The same, entered from paper.
    FromPaper,
    /// This step is open.
    Step(&'static str),
    /// A logbook is looked over.
    Over,
    /// The same, with the readings of a year to follow.
    Followed,
    /// The newest trips of a logbook, the others still to be read.
    Reading,
    /// Every section is complete.
    Finished,
    /// What is made so.
    Made(fn() -> Bench),
}

use Context as At;
use Reached::{
    Asked, Barn, Barred, Begun, Carried, Earlier, Finished, Followed, Fresh, FromPaper, Hardware,
    Made, Over, Quiet, Reading, Step, Told,
};

/// Each screen: what it waits for, from where, and by which keys it is reached.
#[rustfmt::skip]
const ROUTES: [(&str, At, Reached, &str); 90] = [
    ("barn", At::Start, Barn, ""),
    ("barn_rig", At::RigPage, Barn, "1"),
    ("barn_rig_all", At::Matters, Barn, "1o"),
    ("barn_quiet", At::Start, Quiet, ""),
    ("barn_quiet_rig", At::RigPage, Quiet, "1"),
    ("start", At::RigPage, Fresh, ""),
    ("start_unfinished", At::RigPage, Step("ball-stamp"), "⇥q"),
    ("start_earlier", At::RigPage, Earlier, ""),
    ("start_told", At::RigPage, Told, ""),
    ("start_barred", At::RigPage, Barred, ""),
    ("crew", At::Crew, Fresh, "w"),
    ("crew_told", At::Crew, Told, "w1"),
    ("odometer_told", At::Odometer, Told, "w12"),
    ("crew_earlier", At::Crew, Earlier, "w"),
    ("odometer", At::Odometer, Fresh, "w12"),
    ("question", At::Question, Asked, "w12"),
    ("question_next", At::Question, Asked, "w12The ferry was late.⏎"),
    ("next_with_cautions", At::Next, Begun, ""),
    ("next_carried", At::Next, Carried, ""),
    ("next_from_paper", At::Next, FromPaper, ""),
    ("signer_from_paper", At::Signer, FromPaper, "⏎eabandoned⏎the page is torn⏎"),
    ("instrument", At::Instrument, Step("tongue-weight"), ""),
    ("instrument_unfit", At::Instrument, Step("tire-cold/left-front"), "b"),
    ("reading", At::Reading, Step("tongue-weight"), "b700 "),
    ("reading_blind", At::Reading, Step("ball-size"), ""),
    ("reading_refused", At::Reading, Step("ball-size"), "2 horses⏎"),
    ("reading_doubted", At::Reading, Step("tire-cold/left-front"), "a6.5 psi⏎"),
    ("why", At::Why, Step("tongue-weight"), "b700 ="),
    ("why_reckoned", At::Why, Step("tongue-weight"), "b=⇟"),
    ("why_answered", At::Why, Step("tire-cold/left-front"), "a65 psi⏎="),
    ("sighting", At::Sighting, Step("socket"), ""),
    ("second", At::Second, Step("second-look"), ""),
    ("second_looks", At::Sighting, Step("second-look"), "b"),
    ("outcome_ok", At::Outcome, Step("ball-stamp"), "1"),
    ("outcome_reading", At::Outcome, Step("tire-cold/left-front"), "a65 psi⏎"),
    ("outcome_again", At::Outcome, Step("tire-cold/left-front"), "a62 psi⏎"),
    ("branch_fix", At::Branch, Step("chains-crossed"), "2"),
    ("branch_stop_reading", At::Branch, Step("tongue-weight"), "b1600 lb⏎"),
    ("remark", At::Remark, Step("reverse-lamp"), "2new bulb by friday"),
    ("put_off", At::Words, Step("reverse-lamp"), "p"),
    ("put_right", At::Words, Step("chains-crossed"), "2runder the tongue, crossed"),
    ("section_end", At::SectionEnd, Step("trailer-weight"), "a6300 lb⏎⏎"),
    ("pause", At::Reading, Step("jack-clear"), ""),
    ("held", At::Held, Step("latch"), "⇥⌛"),
    ("unsure", At::Unsure, Step("latch"), "]"),
    ("settle", At::Words, Step("latch"), "]s"),
    ("taken_up", At::Held, Step("ball-stamp"), "⇥q⌛1"),
    ("look_again", At::Next, Step("latch"), "⇥⌛⏎"),
    ("take_back", At::TakeBack, Step("latch"), "t"),
    ("take_back_why", At::Words, Step("latch"), "ta"),
    ("note", At::Words, Step("latch"), "nfrost on the drawbar"),
    ("give_over", At::GiveOver, Step("latch"), "ga"),
    ("end_as", At::Words, Step("latch"), "e"),
    ("end_why", At::Words, Step("latch"), "enot fit⏎"),
    ("ended_not_fit", At::Signer, Step("latch"), "enot fit⏎the axle is cracked⏎"),
    ("sealed_not_fit", At::Sealed, Step("latch"), "enot fit⏎the axle is cracked⏎1demo⏎"),
    ("finished", At::Finished, Finished, ""),
    ("signer", At::Signer, Finished, "f"),
    ("start_unsigned", At::RigPage, Finished, "fq"),
    ("passphrase", At::Passphrase, Finished, "f1demo"),
    ("consent_hardware", At::Passphrase, Hardware, "f1ye"),
    ("sealed", At::Sealed, Finished, "f1demo⏎"),
    ("record", At::Record, Finished, "f1demo⏎o"),
    ("rig", At::RigValues, Fresh, "r"),
    ("rig_changed", At::RigValues, Fresh, "r→→↓↓↓→"),
    ("rig_value", At::RigValue, Fresh, "r↓↓⏎950 kg"),
    ("rig_figures", At::RigFigures, Fresh, "r→→→→⇥↓s"),
    ("rig_why", At::Why, Fresh, "r⇥="),
    ("lookout_month", At::Days, Over, ""),
    ("lookout_reading", At::Days, Reading, ""),
    ("lookout_day", At::Days, Over, "→→"),
    ("lookout_list", At::Trips, Over, "⏎↓↓"),
    ("lookout_filtered", At::Days, Over, "rrpggo"),
    ("lookout_closed", At::ClosedTrips, Over, "w"),
    ("trends", At::Series, Followed, "t"),
    ("trends_chart", At::Chart, Followed, "t⏎"),
    ("trends_leak", At::Chart, Followed, "t↓↓↓⏎"),
    ("trends_untold", At::Chart, Followed, "t⇲⏎"),
    ("trip_opened", At::Exceptions, Over, "→⏎⏎"),
    ("trip_exception", At::Exception, Over, "→⏎⏎⏎"),
    ("trip_some_opened", At::Exceptions, Over, "→⏎⏎⏎q↓↓⏎q"),
    ("trip_rest", At::TripRest, Over, "→⏎⏎⏎q⇥"),
    ("trip_all_opened", At::Exceptions, Over, "→⏎⏎⏎q↓⏎q↓⏎q↓⏎q"),
    ("trip_remarks", At::Remarks, Over, "→⏎⏎aWho was it that"),
    ("trip_manager", At::Countersigner, Over, "→⏎⏎⏎q↓⏎q↓⏎q↓⏎qs⏎"),
    ("trip_key", At::Countersigning, Over, "→⏎⏎⏎q↓⏎q↓⏎q↓⏎qsA clean walk.⏎1demo"),
    ("trip_countersigned", At::Countersigned, Over, "→⏎⏎⏎q↓⏎q↓⏎q↓⏎qsA clean walk.⏎1demo⏎"),
    ("help", At::Help, Step("latch"), "?"),
    ("help_found", At::Help, Step("ball-size"), "2?take"),
    ("read_only", At::Sighting, Step("socket"), "⛔3"),
];

/// Every screen, made once.
pub(crate) fn stations() -> &'static [Station] {
    static STATIONS: LazyLock<Vec<Station>> = LazyLock::new(|| {
        let drills =
            DRILL_ROUTES.map(|(name, context, made, keys)| (name, context, Made(made), keys));
        ROUTES.into_iter().chain(drills).map(reach).collect()
    });
    &STATIONS
}

/// The screen of this name.
pub(crate) fn station(name: &str) -> &'static Station {
    stations().iter().find(|one| one.name == name).unwrap()
}

/// A good walk to its last key but one.
pub(crate) fn finished() -> Bench {
    static FINISHED: LazyLock<Bench> = LazyLock::new(|| {
        Bench::walking().until(|bench| bench.model.context() == Context::Finished)
    });
    FINISHED.clone()
}

fn reach((name, context, from, keys): (&'static str, At, Reached, &str)) -> Station {
    let bench = match from {
        Fresh => Bench::new(),
        Earlier => Bench::earlier(),
        Barn => Bench::barn(true),
        Quiet => Bench::barn(false),
        Told => Bench::troubled(false),
        Asked => Bench::arranged(|desk| desk.questions = put_questions()),
        Barred => Bench::troubled(true),
        Hardware => {
            let mut bench = finished();
            bench.desk.key_lies = hames::desk::KeyLies::InHardware;
            bench
        }
        Begun => Bench::walking(),
        Carried => Bench::carried(),
        FromPaper => Bench::from_paper(),
        Over => lookout::barn(),
        Followed => lookout::followed(),
        Reading => lookout::reading(),
        Step(step) => Bench::walking().at_step(step),
        Finished => finished(),
        Made(made) => made(),
    };
    let bench = bench.play(keys);
    assert_eq!(
        bench.model.context(),
        context,
        "{name}:\n{}",
        bench.text(80, 24)
    );
    Station {
        name,
        context,
        bench,
    }
}
