//! `hames drill FILE`: a barn's own scenarios, played like those that come with the program.

use crate::harness::home::{Ended, Home};

/// Three scenarios, about the mount, the level and the tires.
const THREE: &str = include_str!("../../vectors/drill-small.yaml");
const LIST: &str = include_str!("../../vectors/checklist-small.yaml");

/// One scenario, on a list, a rig and sights of the barn's own.
const OWN: &str = "\
format: hames-drill/1
scenarios:
  - id: before-breakfast
    title: Hitched up before breakfast
    family: seat
    list: small
    sections: [join]
    rig: heron
    tale: Somebody hitched up before breakfast and has gone to feed.
    faults:
      - id: stands-up
        seen: [{ step: latch, state: proud }]
        call: { step: latch, verdict: stop }
        slip: { step: latch, state: down }
        why: From the left the jack hides the lever.
        would: The latch opens on the first rough mile.
    good:
      why: The lever lies flat, as is seen from above.
    source: common practice, no source
";
const SIGHTS: &str = "\
format: hames-sights/1
sights:
  - step: latch
    looks:
      - from: left
        sees:
          - { in: [proud, down], is: Our jack hides the lever }
      - from: above
        sees:
          - { in: [proud], is: Our lever points at the sky }
          - { in: [down], is: Our lever lies flat }
";

fn home() -> Home {
    let home = Home::new();
    for folder in ["checklists", "rigs", "sights"] {
        std::fs::create_dir_all(home.path("fair").join(folder)).unwrap();
    }
    home.put("fair/three.yaml", THREE);
    home.put("fair/own.yaml", OWN);
    home.put("fair/checklists/small.yaml", LIST);
    let rig = hames::rig::demo::JUNIPER.replacen("id: juniper", "id: heron", 1);
    home.put("fair/rigs/heron.yaml", &rig);
    home.put("fair/sights/latch.yaml", SIGHTS);
    home
}

fn played(home: &Home, arguments: &str, typed: &str) -> Ended {
    let arguments = format!("{arguments} --plain");
    home.hames(&arguments).typed(typed).run()
}

/// The commands of these lines, without the program's name.
fn command<'e>(ended: &'e Ended, begins: &str) -> &'e str {
    let mut lines = ended.out.lines();
    let found = lines.find_map(|line| line.strip_prefix(begins));
    found.unwrap_or_else(|| panic!("{begins}: {}", ended.out))
}

/// A seed at which the scenario has its fault.
fn seed() -> u64 {
    let own = hames::drill::Scenario::read_all(OWN).unwrap();
    (0..99).find(|seed| own[0].thrown(*seed).is_some()).unwrap()
}

#[test]
fn the_scenarios_of_a_file_are_listed_and_the_dice_choose_among_them_alone() {
    let home = home();
    let listed = played(&home, "drill fair/three.yaml --list", "");
    let ids: Vec<&str> = listed
        .out
        .lines()
        .map(|line| line.split(':').next().unwrap())
        .collect();
    assert_eq!(ids, ["last-week", "turned-drawbar", "on-the-tar"]);
    let about = played(
        &home,
        "drill fair/three.yaml --list --json --about tires",
        "",
    );
    assert!(about.out.starts_with("{\"") && about.out.contains("\"on-the-tar\""));
    assert_eq!(about.out.lines().count(), 1);
    let ended = played(&home, "drill fair/three.yaml --about tires --seed 3", "4\n");
    assert!(ended.out.contains("Parked on the tar."), "{}", ended.out);
    let again = command(&ended, "The same again: hames ");
    assert_eq!(again, "drill --demo fair/three.yaml --about tires --seed 3");
    let titles = (0..9).map(|seed| {
        let one = format!("drill fair/three.yaml --seed {seed}");
        played(&home, &one, "4\n").out
    });
    let titles: Vec<String> = titles.collect();
    let again = played(&home, "drill fair/three.yaml --seed 0", "4\n");
    assert_eq!(again.out, titles[0], "the same number is the same drill");
    for title in ["held last week.", "other way up.", "on the tar."] {
        assert!(titles.iter().any(|out| out.contains(title)), "{title}");
    }
}

#[test]
fn a_file_with_faults_is_told_with_every_place_and_nothing_is_begun() {
    let home = home();
    let wrong = THREE.replacen(
        "receiver-pin, state: no-clip",
        "receiver-pin, state: gone",
        1,
    );
    let wrong = wrong.replacen("family: tires", "family: tyres", 1);
    home.put("fair/wrong.yaml", &wrong);
    let before = home.files();
    let begun = "drill fair/wrong.yaml --learner wren.ashdown";
    let ended = played(&home, begun, "");
    let linted = home.hames("lint fair/wrong.yaml").run();
    assert_eq!((ended.status, ended.out.as_str()), (1, ""));
    assert!(linted.out.contains("tyres"), "{}", linted.out);
    let told = ended.err.strip_prefix(&linted.out).unwrap();
    assert_eq!(
        told.trim_end(),
        "Nothing is begun: a scenario is played fairly or not at all. Mend the file, then look \
         again: hames lint fair/wrong.yaml"
    );
    assert_eq!(home.files(), before);
    let taken = THREE.replacen("id: last-week", "id: receiver-pin", 1);
    home.put("fair/taken.yaml", &taken);
    let ended = played(&home, "drill fair/taken.yaml --list", "");
    assert_eq!(ended.status, 1);
    assert!(
        ended
            .err
            .contains("another scenario is called `receiver-pin`"),
        "{}",
        ended.err
    );
    for (file, status, said) in [
        (
            "fair/rigs/heron.yaml",
            1,
            "says format: hames-rig/1, and is no file of scenarios.",
        ),
        ("fair/none.yaml", 3, "none.yaml"),
    ] {
        let ended = played(&home, &format!("drill {file}"), "");
        assert_eq!(ended.status, status, "{}", ended.err);
        assert!(ended.err.contains(said), "{}", ended.err);
    }
}

#[test]
fn one_scenario_and_several_are_not_asked_for_at_once() {
    for flags in ["--about tires", "--list"] {
        let ended = played(&Home::new(), &format!("drill receiver-pin {flags}"), "");
        assert_eq!(ended.status, 2);
        assert!(
            ended.err.contains("“receiver-pin” names one scenario"),
            "{}",
            ended.err
        );
    }
}

#[test]
fn a_drill_on_the_barns_own_list_rig_and_sights_rests_on_its_record_alone() {
    let home = home();
    let begun = format!(
        "drill fair/own.yaml --seed {} --stage solo --learner wren.ashdown",
        seed()
    );
    let ended = played(&home, &begun, "look left\nlook above\n");
    for said in ["Our jack hides the lever", "Our lever points at the sky"] {
        assert!(ended.out.contains(said), "{said}: {}", ended.out);
    }
    // What it was played by is gone, and so is the program that was in the middle of it.
    std::fs::remove_dir_all(home.path("fair")).unwrap();
    let ended = home
        .hames("drill --plain")
        .typed("1\n1\nlook above\n")
        .run();
    assert!(
        ended.out.contains("Our lever points at the sky"),
        "{}",
        ended.out
    );
    assert!(!ended.out.contains("The same again:"), "{}", ended.out);
    let verified = home
        .hames(&format!("verify {}", home.demo().display()))
        .run();
    assert!(
        verified.out.contains("unsealed") && !verified.out.contains("altered"),
        "{}",
        verified.out
    );
}

#[test]
fn a_drill_of_a_file_counts_as_one_that_comes_with_the_program() {
    let home = home();
    let begun = format!(
        "drill fair/own.yaml --seed {} --stage watch --learner wren.ashdown",
        seed()
    );
    let typed = "next\n".repeat(40) + "sign\ndemo\n";
    let ended = played(&home, &begun, &typed);
    assert!(ended.out.contains("It counts."), "{}", ended.out);
    std::fs::remove_dir_all(home.path("fair")).unwrap();
    let room = home.hames("drill --plain").typed("1\nquit\n").run();
    assert!(
        room.out
            .contains("small, join: next is guided, with every hint."),
        "{}",
        room.out
    );
    let verified = home
        .hames(&format!("verify {}", home.demo().display()))
        .run();
    assert!(!verified.out.contains("altered"), "{}", verified.out);
}
