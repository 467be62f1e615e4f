//! What stops walks, and what verification finds: the doctor names each with the command to type.

use crate::cli::crew::{barn, copy as copy_but, crew, done, list};
use crate::cli::demo::sealed;
use crate::cli::logbook::countersign::{AGREED, countersign, laptop, says, short_trips};
use crate::cli::logbook::forks::forked;
use crate::harness::home::{Home, trip};
use std::fs;
use std::path::Path;

/// A sickness: its name, how a logbook gets it, and lines that begin so and have all of this.
struct Sickness {
    name: &'static str,
    made: fn() -> Home,
    told: &'static [(&'static str, &'static [&'static str])],
}

fn edit(file: &Path, from: &str, to: &str) {
    let text = fs::read_to_string(file).unwrap();
    assert!(text.contains(from), "{text}");
    fs::write(file, text.replacen(from, to, 1)).unwrap();
}

fn one_trip() -> Home {
    short_trips(1)
}

/// Two trips, both seen by a manager.
fn seen() -> Home {
    let home = short_trips(2);
    assert_eq!(countersign(&home, 1, AGREED).status, 0);
    home
}

/// Two managers changed the crew apart, and the logbooks are one again.
fn crew_fork() -> Home {
    let (home, apart) = (barn(), Home::new());
    let roles = "roles tobias.fenn --role groom --role manager";
    done(&home, roles, &[], "demo\n");
    copy_but(&home.demo(), &apart.demo(), "");
    let one = "sign-off wren.ashdown --rig juniper --by odile.marsh";
    done(&home, one, &[], "demo\n");
    let other = "retire wren.ashdown --why gone --by tobias.fenn";
    done(&apart, other, &[], "demo\n");
    copy_but(&apart.demo().join("mgr"), &home.demo().join("mgr"), "");
    home
}

const SICKNESSES: &[Sickness] = &[
    Sickness {
        name: "two different trips have one number",
        made: || forked().0,
        told: &[
            (
                "wrong  device: ",
                &[
                    "it has two different trips 2",
                    "hames logbook close-fork --logbook HOME/share/hames/demo LAPTOP 2",
                ],
            ),
            (
                "wrong  trips: ",
                &[
                    "LAPTOP has 2 different trips 2",
                    "hames logbook close-fork --logbook HOME/share/hames/demo LAPTOP 2",
                ],
            ),
        ],
    },
    Sickness {
        name: "a backup was put back, and a statement names a later trip",
        made: || {
            let home = seen();
            fs::remove_dir_all(trip(&home.demo(), 2)).unwrap();
            home
        },
        told: &[
            (
                "wrong  device: ",
                &[
                    "trip 2 of LAPTOP, as Odile Marsh saw it on DATE, is not here",
                    "hames logbook merge",
                ],
            ),
            (
                "wrong  trips: ",
                &[
                    "trip 2 of LAPTOP is witnessed by",
                    "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
                    "hames logbook accept-loss --logbook HOME/share/hames/demo LAPTOP 2 --why",
                ],
            ),
        ],
    },
    Sickness {
        name: "a trip before the newest is not here",
        made: || {
            let home = short_trips(2);
            fs::remove_dir_all(trip(&home.demo(), 1)).unwrap();
            home
        },
        told: &[(
            "wrong  trips: ",
            &[
                "trip 1 of LAPTOP is not here",
                "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
                "hames logbook accept-loss --logbook HOME/share/hames/demo LAPTOP 1 --why",
            ],
        )],
    },
    Sickness {
        name: "a trip goes on from one that is not here",
        made: || {
            let home = sealed();
            let wheel = "1\n1\n8\n1\n2\n\nend\nabandoned\nrain\n1\ndemo\nquit\n";
            let ended = home.hames("--plain").typed(wheel).run();
            assert!(ended.out.contains("Sealed."), "{}", ended.out);
            fs::remove_dir_all(trip(&home.demo(), 1)).unwrap();
            home
        },
        told: &[
            (
                "look   trips: ",
                &[
                    "000002-TRIP of LAPTOP goes on from trip TRIP, which is not here",
                    "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
                ],
            ),
            ("wrong  trips: ", &["trip 1 of LAPTOP is not here"]),
        ],
    },
    Sickness {
        name: "a sealed trip was altered",
        made: || {
            let home = one_trip();
            let journal = trip(&home.demo(), 1).join("trip.jsonl");
            edit(&journal, "Tobias", "Tobios");
            home
        },
        told: &[(
            "wrong  trips: ",
            &[
                "000001-TRIP is altered: line 2 does not follow line 1",
                "hames verify HOME/share",
                "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
            ],
        )],
    },
    Sickness {
        name: "a manager's statement was altered",
        made: || {
            let home = barn();
            done(&home, "retire tobias.fenn --why gone", &[], "demo\n");
            let all = crate::cli::crew::statements(&home.demo());
            edit(&all[1].join("statement.json"), "gone", "left");
            home
        },
        told: &[(
            "wrong  statements: ",
            &[
                "statement 2 of odile.marsh does not count",
                "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
            ],
        )],
    },
    Sickness {
        name: "a statement is not here, and its signature is",
        made: || {
            let home = barn();
            done(&home, "retire tobias.fenn --why gone", &[], "demo\n");
            let all = crate::cli::crew::statements(&home.demo());
            fs::remove_file(all[1].join("statement.json")).unwrap();
            home
        },
        told: &[(
            "wrong  statements: ",
            &[
                "has a signature and no statement",
                "hames logbook merge --logbook HOME/share/hames/demo FOLDER",
            ],
        )],
    },
    Sickness {
        name: "two managers changed the crew apart",
        made: crew_fork,
        told: &[(
            "wrong  crew: ",
            &[
                "the crew was changed twice apart, so there are two crew files 3",
                "hames crew settle --demo",
            ],
        )],
    },
    Sickness {
        name: "no person has a key here",
        made: || {
            let home = one_trip();
            for key in fs::read_dir(home.demo().join("keys")).unwrap() {
                let key = key.unwrap();
                if !key.file_name().to_str().unwrap().starts_with("laptop-") {
                    fs::remove_file(key.path()).unwrap();
                }
            }
            home
        },
        told: &[(
            "look   keys: ",
            &[
                "Nobody in the crew could sign a walk on this laptop",
                "hames crew request --demo ID --import FILE",
            ],
        )],
    },
];

#[test]
fn each_sickness_of_the_records_is_told_with_its_command_and_none_by_verify_alone() {
    for Sickness { name, made, told } in SICKNESSES {
        let home = made();
        let ended = home.hames("doctor --demo").run();
        for (begins, has) in *told {
            let mut lines = ended.out.lines().filter(|line| line.starts_with(begins));
            let found = lines.any(|line| has.iter().all(|part| line.contains(part)));
            assert!(found, "{name}: {begins}{has:?}\n{}", ended.out);
        }
        let wrong = told.iter().any(|(begins, _)| begins.starts_with("wrong"));
        assert_eq!(ended.status, i32::from(wrong), "{name}: {}", ended.out);
        // Nobody has signed, or countersigned: neither is a sickness.
        let verified = home.hames("verify share/hames/demo").run().status;
        assert!(
            [0, 9, 10].contains(&verified) || wrong,
            "{name}: verify ends with {verified}\n{}",
            ended.out
        );
    }
}

#[test]
fn a_crew_changed_apart_is_told_with_one_next_step_wherever_it_is_met() {
    const NEXT: &str = "the crew was changed twice apart, so there are two crew files 3; both \
                        are kept and neither is in force. A manager says which one goes on, with: \
                        hames crew settle";
    let home = crew_fork();
    let trip = format!("{}/1", laptop(&home));
    for (command, typed) in [
        ("doctor --demo --read-only", ""),
        ("verify share/hames/demo", ""),
        ("--plain", "quit\n"),
        ("crew --demo list", ""),
        (
            "crew --demo add Linnet --role groom --by odile.marsh",
            "demo\n",
        ),
        (
            "crew --demo retire tobias.fenn --why x --by odile.marsh",
            "demo\n",
        ),
        (
            "crew --demo sign-off tobias.fenn --by tobias.fenn",
            "demo\n",
        ),
        (
            &format!("logbook --logbook share/hames/demo countersign {trip} --by odile.marsh"),
            "seen\nagreed\n\ndemo\n",
        ),
    ] {
        let ended = home.hames(command).typed(typed).run();
        let told = ended.out + &ended.err;
        assert!(told.contains(NEXT), "{command}\n{told}");
        for other in [
            "Put back",
            "put that in its place",
            "an earlier",
            "Merge from",
        ] {
            assert!(!told.contains(other), "{command}: {other}\n{told}");
        }
    }
    let settled = crew(&home, "settle", &[]).run();
    let hash = settled.out.split(' ').next().unwrap();
    assert_eq!(hash, "HASH", "{}", settled.out);
    says(
        &settled.out,
        &["by statement 3 of Odile Marsh: wren.ashdown signed off otherwise"],
    );
}

#[test]
fn each_key_left_among_the_keys_is_told_for_what_it_is() {
    let home = barn();
    let keys = home.demo().join("keys");
    let held = |name: &str| keys.join(name);
    // One waits for a manager, one has left, one was revoked, one is a crash's, one nobody's.
    let waits = crew(&home, "request", &["Bryn Ashdown"]);
    assert_eq!(waits.typed("hay and oats\nhay and oats\n").run().status, 0);
    done(&home, "retire tobias.fenn --why moved", &[], "demo\n");
    let new = "revoke wren.ashdown --why lost --new-key";
    done(&home, new, &[], "hay and oats\nhay and oats\ndemo\n");
    fs::write(held(".wren.ashdown.draft-1"), "half").unwrap();
    fs::write(held("notes"), "oats\n").unwrap();
    let ended = home.hames("doctor --demo --read-only").run();
    let folder = "HOME/share/hames/demo/keys";
    for told in [
        "bryn.ashdown is a key that nobody has been let into the crew with yet",
        "tobias.fenn is the key of Tobias Fenn, who has left the crew",
        "wren.ashdown is the key of Wren Ashdown that was revoked",
        ".wren.ashdown.draft-1 is what a crash left of a key in the making",
        "notes holds no key that this program can read",
    ] {
        let line = format!("look   keys: {folder}/{told}");
        assert!(ended.out.contains(&line), "{line}\n{}", ended.out);
    }
    assert!(list(&home).contains("wren.ashdown"));
}
