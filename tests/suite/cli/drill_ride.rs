//! A check ride from its first step to the roster: ridden, signed by both, signed off by a manager,
//! and told by who may do what.

use crate::harness::home::Home;
use hames::cli::clerk::{Clerk, Place, Stock};
use hames::desk::{AskedDrill, Consent, Errand, Reply, WhichDrill};
use hames::drill::{Doing, Line, Run};
use hames::record::{Mode, Passphrase};
use hames::store::Local;
use hames::walk::Act;
use hames::world::Machine;

/// More acts than any list has.
const MOST: usize = 2000;

pub(super) fn clerk(home: &Home) -> Clerk<Local> {
    let place = Place {
        root: home.demo(),
        mode: Mode::Demo,
    };
    Clerk::new(Local, Machine::this(), place, Stock::demo())
}

fn asked(list: &str, learner: &str, examiner: &str) -> Errand {
    Errand::BeginDrill(AskedDrill {
        which: WhichDrill::CheckRide {
            list: list.to_owned(),
            examiner: examiner.to_owned(),
        },
        learner: learner.to_owned(),
        stage: None,
        seed: Some(3),
    })
}

/// Rides a whole list rightly; where `slips` says so, the first fault is taken for well. What the
/// record is called.
pub(super) fn ride(clerk: &mut Clerk<Local>, slips: bool) -> String {
    let reply = clerk.perform(asked("hitch-bumper", "Wren Ashdown", "odile.marsh"));
    let Reply::Drilling { run, trip, .. } = reply else {
        panic!("{reply:?}");
    };
    let mut run: Run = *run;
    for _ in 0..MOST {
        let Some(worked) = run.worked() else {
            return trip.unwrap();
        };
        let mut doing = worked.doing;
        if slips && let Doing::Walk(Act::PutRight { .. }) = doing {
            let (outcome, words) = (hames::walk::Ended::Incomplete, "enough".to_owned());
            doing = Doing::Walk(Act::End { outcome, words });
        }
        run.apply(&done(clerk, doing));
    }
    panic!("no end");
}

/// Does it, and gives the line it came to.
pub(super) fn done(clerk: &mut Clerk<Local>, doing: Doing) -> Line {
    let errand = match doing {
        Doing::Walk(act) => Errand::Record(act),
        doing => Errand::Drill(doing),
    };
    match clerk.perform(errand) {
        Reply::Drilled(line) => *line,
        Reply::Recorded(entry) => Line::of(&entry),
        other => panic!("{other:?}"),
    }
}

pub(super) fn signs(clerk: &mut Clerk<Local>, who: &str) -> Reply {
    let passphrase = Passphrase::new("demo".to_owned().into()).unwrap();
    clerk.perform(Errand::Seal {
        signer: who.to_owned(),
        consent: Consent::Passphrase(passphrase),
    })
}

fn sign_off(home: &Home, trip: &str) -> crate::harness::home::Ended {
    let said = format!("crew sign-off --demo wren.ashdown --check-ride {trip}");
    home.hames(&said).typed("demo\n").run()
}

#[test]
fn a_check_ride_that_was_passed_and_signed_by_both_lands_in_the_roster() {
    let home = Home::new();
    let mut clerk = clerk(&home);
    let trip = ride(&mut clerk, false);
    // The examiner signs after the rider, and nobody in their place.
    let refused = signs(&mut clerk, "odile.marsh");
    assert!(matches!(refused, Reply::Cannot(_)), "{refused:?}");
    assert!(matches!(
        signs(&mut clerk, "wren.ashdown"),
        Reply::Sealed(_)
    ));
    let ended = sign_off(&home, &trip);
    assert!(
        ended.err.contains("This drill signs nobody off: unsealed."),
        "{}",
        ended.err
    );
    let refused = signs(&mut clerk, "tobias.fenn");
    assert!(matches!(refused, Reply::Cannot(_)), "{refused:?}");
    assert!(matches!(signs(&mut clerk, "odile.marsh"), Reply::Sealed(_)));
    let ended = sign_off(&home, &trip);
    assert!(
        ended.out.contains("is to be signed off for: check ride of"),
        "{}",
        ended.out
    );
    assert_eq!((ended.status, ended.err.as_str()), (0, ""), "{}", ended.out);
    let people = home
        .hames("logbook people --plain")
        .argument("--logbook")
        .argument(home.demo().to_str().unwrap())
        .run();
    let told = people.out.replace("\n  ", " ");
    for said in [
        "Check ride of Hitch up a bumper pull, revision 5, bumper pull, on ",
        ", examined by Odile Marsh: passed, and in the roster.",
        "Drilled Hitch up a bumper pull, the last on ",
    ] {
        assert!(told.contains(said), "{said}: {}", people.out);
    }
    // Once more is nothing new.
    let again = sign_off(&home, &trip);
    assert_ne!(again.status, 0, "{}", again.out);
}

#[test]
fn a_check_ride_that_was_not_passed_signs_nobody_off() {
    let home = Home::new();
    let mut clerk = clerk(&home);
    let trip = ride(&mut clerk, true);
    assert!(matches!(
        signs(&mut clerk, "wren.ashdown"),
        Reply::Sealed(_)
    ));
    assert!(matches!(signs(&mut clerk, "odile.marsh"), Reply::Sealed(_)));
    let ended = sign_off(&home, &trip);
    assert!(
        ended
            .err
            .contains("This is no check ride that was passed, and signs nobody off."),
        "{} {}",
        ended.out,
        ended.err
    );
}

#[test]
fn nobody_examines_themselves_and_a_groom_examines_nobody() {
    let home = Home::new();
    let mut clerk = clerk(&home);
    for (learner, examiner) in [
        ("Odile Marsh", "odile.marsh"),
        ("Wren Ashdown", "tobias.fenn"),
        ("Wren Ashdown", "nobody"),
    ] {
        let reply = clerk.perform(asked("hitch-bumper", learner, examiner));
        let Reply::Cannot(why) = reply else {
            panic!("{reply:?}");
        };
        assert!(why.contains("may not examine"), "{why}");
    }
}

#[test]
fn the_pass_rule_and_the_examiner_are_said_before_the_first_step_and_nothing_is_told_on_the_way() {
    let home = Home::new();
    let ride = "drill --check-ride hitch-bumper --examiner odile.marsh --learner wren.ashdown \
                --seed 3 --plain";
    let ended = home.hames(ride).typed("look left\n1\n").run();
    let told = ended.out.replace('\n', " ");
    let rule = told.find("Examined by Odile Marsh. Passed when every hidden fault is called");
    let first = told.find("Step 1 of");
    assert!(rule.is_some() && rule < first, "{}", ended.out);
    assert!(!told.contains("If it is skipped:"), "{}", ended.out);
    assert!(!told.contains("It shows from"), "{}", ended.out);
}

#[test]
fn a_check_ride_is_chosen_in_the_room_and_begins_by_a_word_once_the_rule_is_said() {
    let home = Home::new();
    let ended = home
        .hames("drill --plain")
        .typed("1\n3\n1\n\nyes\nbegin\nlook left\n1\n")
        .run();
    let told = ended.out.replace('\n', " ");
    let places = [
        "3. A check ride",
        "Who examines: Odile Marsh.",
        "Passed when every hidden fault is called",
        "Odile Marsh is beside the rider, helps with nothing, and signs too.",
        "Nothing begins by that.",
        "Stage: check ride",
        "Examined by Odile Marsh.",
        "Step 1 of",
    ]
    .map(|said| told.find(said));
    assert!(
        places.iter().all(Option::is_some) && places.is_sorted(),
        "{places:?} {}",
        ended.out
    );
    assert_eq!(told.matches("Nothing begins by that.").count(), 2, "{told}");
}

#[test]
fn whoever_nobody_may_examine_is_told_so_and_who_says_who_may() {
    let home = Home::new();
    let ended = home.hames("drill --plain").typed("3\n3\n").run();
    let told = ended.out.replace('\n', " ");
    for said in [
        "Nobody of the crew may examine Odile Marsh: an examiner or a manager does, and nobody \
         examines themselves.",
        "hames crew roles --demo",
    ] {
        assert!(told.contains(said), "{said}: {}", ended.out);
    }
}

#[test]
fn a_drill_that_was_signed_is_opened_by_its_folder_and_its_receipt_and_told_as_what_it_is() {
    let home = Home::new();
    let mut clerk = clerk(&home);
    let trip = ride(&mut clerk, false);
    assert!(matches!(
        signs(&mut clerk, "wren.ashdown"),
        Reply::Sealed(_)
    ));
    let Reply::Sealed(sealed) = signs(&mut clerk, "odile.marsh") else {
        panic!("not signed");
    };
    let receipt = sealed.receipt.to_string();
    let opened = clerk.perform(Errand::Show {
        trip: format!("drill/{trip}"),
    });
    let Reply::Record(tale) = opened else {
        panic!("{opened:?}");
    };
    assert!(tale.heading[0].starts_with("Drill "), "{:?}", tale.heading);
    let demo = home.demo();
    let asks = |command: &str, what: &str| {
        let asked = home.hames(command).argument(what).argument("--logbook");
        asked.argument(demo.to_str().unwrap()).run()
    };
    for name in [format!("drill/{trip}"), trip.clone(), receipt.clone()] {
        let shown = asks("logbook show --plain", &name);
        assert_eq!((shown.status, shown.err.as_str()), (0, ""), "{name}");
        assert!(shown.out.contains("Drill "), "{}", shown.out);
        assert!(!shown.out.contains("rip "), "{}", shown.out);
    }
    let told = asks("logbook receipt", &receipt);
    assert!(told.out.contains("is of this drill:"), "{}", told.out);
    assert!(!told.out.contains("trip "), "{}", told.out);
    let json = asks("logbook receipt --json", &receipt);
    assert!(json.out.contains(r#""of_drills":true"#), "{}", json.out);
}
