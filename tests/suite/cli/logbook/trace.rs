//! An instrument that read wrong: which readings relied on it, and which verdicts would not hold.

use crate::cli::demo::sealed;

#[test]
fn every_reading_of_a_gauge_is_listed_and_judged_again_as_if_it_had_read_wrong() {
    let home = sealed();
    let listed = home.hames("logbook trace gauge-100 --demo").run();
    assert_eq!(
        (listed.status, listed.err.as_str()),
        (0, ""),
        "{}",
        listed.out
    );
    let readings = listed
        .out
        .lines()
        .filter(|line| line.contains("  trip 1 of LAPTOP  "));
    let readings = readings.count();
    assert!(readings >= 4, "{}", listed.out);
    assert!(
        listed.out.ends_with(&format!(
            "{readings} readings on 1 trip taken with “gauge-100”.\n"
        )),
        "{}",
        listed.out
    );

    let wrong = home
        .hames("logbook trace gauge-100 --demo --error")
        .argument("30 psi")
        .run();
    assert_eq!(wrong.status, 1, "{}", wrong.out);
    assert!(
        wrong.out.contains("    wrong by 30 psi it may stand for ")
            && wrong.out.contains(": measure-again, ")
            && wrong.out.contains("the records stay as they are"),
        "{}",
        wrong.out
    );

    let none = home.hames("logbook trace gauge-7 --demo").run();
    assert_eq!(none.status, 1);
    assert!(
        none.out.starts_with(
            "No reading here was taken with “gauge-7”. Instruments of the rigs walked: "
        ),
        "{}",
        none.out
    );
    let later = home
        .hames("logbook trace gauge-100 --demo --since 2100-01-01")
        .run();
    assert_eq!(later.status, 1);
    let not = home.hames("logbook trace gauge-100 --error wide").run();
    assert_eq!(not.status, 2);
    assert!(
        not.err.contains("is no error an instrument could have"),
        "{}",
        not.err
    );
}
