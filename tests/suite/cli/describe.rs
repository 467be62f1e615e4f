//! `hames rig FILE --describe`: the file on the disk.

use crate::harness::home::Home;

const BEGUN: &str = "my-rig\nMy rig\nBlue truck\nstop\n";

#[test]
fn a_rig_is_described_into_a_file_and_taken_up_where_it_stopped() {
    let home = Home::new();
    let first = home.hames("rig rig.yaml --describe").typed(BEGUN).run();
    assert_eq!((first.status, first.err.as_str()), (0, ""), "{}", first.out);
    let text = std::fs::read_to_string(home.path("rig.yaml")).unwrap();
    assert!(text.ends_with("truck:\n  name: Blue truck\n"), "{text}");
    assert_eq!(home.files(), ["rig.yaml"]);
    let second = home
        .hames("rig rig.yaml --describe")
        .typed("7150 lb\nplate\ndoor\nstop\n")
        .run();
    assert!(
        second.out.contains("What is the most the truck may weigh"),
        "{}",
        second.out
    );
    assert!(
        !second.out.contains("A short name for records?"),
        "{}",
        second.out
    );
    let text = std::fs::read_to_string(home.path("rig.yaml")).unwrap();
    assert!(
        text.contains("gvwr: { is: 7150 lb, by: plate, at: door }"),
        "{text}"
    );
}

#[test]
fn stopped_before_the_first_answer_no_file_is_made() {
    let home = Home::new();
    let ended = home.hames("rig rig.yaml --describe").typed("stop\n").run();
    assert_eq!(ended.status, 0, "{}", ended.err);
    assert!(home.files().is_empty());
}

#[test]
fn a_file_in_which_something_is_wrong_is_left_as_it_is() {
    let home = Home::new();
    let wrong = "format: hames-rig/1\ntruck: { gvwr: { is: 7150 in, by: plate, at: door } }\n";
    home.put("rig.yaml", wrong);
    home.hames("rig rig.yaml --describe").typed(BEGUN).run().is(
        1,
        "",
        "rig.yaml:2:22: truck.gvwr.is: “in” is not a unit of weight; type a weight such as 7000 lb \
         or 3175 kg\nMend this first. Nothing was changed.\n",
    );
    assert_eq!(
        std::fs::read_to_string(home.path("rig.yaml")).unwrap(),
        wrong
    );
    std::fs::write(home.path("rig.yaml"), b"name: \xff\n").unwrap();
    let ended = home.hames("rig rig.yaml --describe").typed(BEGUN).run();
    assert_eq!(ended.status, 3, "{}", ended.err);
    assert_eq!(
        std::fs::read(home.path("rig.yaml")).unwrap(),
        b"name: \xff\n"
    );
}

#[test]
fn a_rig_is_described_into_a_file_and_not_into_an_id() {
    let home = Home::new();
    home.hames("rig my-rig --describe").run().is(
        2,
        "",
        "A rig is described into a file. Name one with its ending: ./my-rig.yaml\n",
    );
}

#[test]
fn a_folder_that_is_not_there_is_a_matter_of_the_disk() {
    let home = Home::new();
    let ended = home
        .hames("rig none/rig.yaml --describe")
        .typed(BEGUN)
        .run();
    assert_eq!(ended.status, 3, "{}", ended.out);
    assert!(
        ended.out.contains("The last answer is not saved."),
        "{}",
        ended.out
    );
}
