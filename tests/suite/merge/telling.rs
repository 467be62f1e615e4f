//! What a merge tells is what it did: each trip once, nothing as done where it only looked, and only what
//! lay in quarantine before as set aside before.

use super::barn::{
    Files, Way, bring, crew, disk_with, kinds, office, put, stated, take, text, trips, whole,
};
use hames::cli::merge::merge;
use hames::store::Disk;
use std::path::Path;

#[test]
fn a_trip_of_which_a_file_lay_here_is_told_once() {
    let trip = trips("laptop-two", 1);
    let folder = Way::of("laptop-two", 1).folder();
    for name in ["checklist.yaml", "rig.yaml", "crew.allowed_signers"] {
        let mut here = trip.clone();
        here.retain(|path, _| path.ends_with(name));
        let disk = disk_with(&here);
        let told = text(&bring(&disk, "stick", &trip));
        let place = format!("came: trip 1 of laptop-two\n  /barn/{folder}\n");
        assert_eq!(told.matches(&place).count(), 1, "{name}: {told}");
        assert_eq!(told.matches("came: ").count(), 1, "{name}: {told}");
        assert!(told.contains("From /stick: 1 trip came; "), "{told}");
    }
}

#[test]
fn a_trip_that_is_here_already_is_counted_once_however_often_it_lies_on_the_stick() {
    let trip = trips("laptop-two", 1);
    let disk = disk_with(&trip);
    put(&disk, "/stick", &trip);
    put(&disk, "/stick/older", &trip);
    let journals = trip.iter().filter(|(name, _)| name.ends_with("trip.jsonl"));
    let copies = journals.map(|(name, bytes)| (name.replace("trip.", "trip (1)."), bytes.clone()));
    put(&disk, "/stick/odd", &copies.collect());
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.known, 1, "{}", text(&merged));
}

#[test]
fn a_signature_that_is_set_aside_is_told_with_the_trip_it_lay_beside() {
    let trip = trips("laptop-two", 2);
    let (first, second) = (Way::of("laptop-two", 1), Way::of("laptop-two", 2));
    let name = |way: &Way| format!("{}/seal.person.sig", way.folder());
    let mut stick = trip.clone();
    let armor = String::from_utf8(stick[&name(&second)].clone()).unwrap();
    let (from, to) = (armor.lines().nth(4).unwrap(), "AAAA".repeat(17));
    let forged = armor.replace(from, &to[..from.len()]);
    stick.insert(name(&second), forged.into_bytes());
    stick.retain(|path, _| !path.starts_with(&first.folder()));
    let disk = disk_with(&Files::new());
    let told = text(&bring(&disk, "stick", &stick));
    let lay = "; it lay beside trip 2 of laptop-two\n";
    assert!(told.contains(lay), "{told}");
}

#[test]
fn two_histories_that_come_are_one_trip_in_two_histories() {
    let disk = disk_with(&Files::new());
    let told = text(&bring(&disk, "stick", &whole()));
    assert!(
        told.contains("came: another history of trip 2 of laptop-one"),
        "{told}"
    );
    assert!(
        told.contains("From /stick: 5 trips and 1 statement came; "),
        "{told}"
    );
}

#[test]
fn where_a_merge_only_looks_nothing_is_told_as_done() {
    let mut here = trips("laptop-one", 1);
    let folder = Way::of("laptop-one", 1).folder();
    let journal = here.get_mut(&format!("{folder}/trip.jsonl")).unwrap();
    journal.truncate(journal.len() - 40);
    let disk = disk_with(&here);
    let mut stick = whole();
    stick.insert(
        "mgr/odile.marsh/statement (1).json".to_owned(),
        b"# ours\n".to_vec(),
    );
    put(&disk, "/stick", &stick);
    let (root, from) = (Path::new("/barn"), Path::new("/stick"));
    let looked = merge(&disk, root, from, true).unwrap();
    let told = text(&looked);
    for done in [
        "came: ",
        " came",
        "  kept in",
        ", kept beside",
        "is whole again",
        "\nhealed",
        "\nset aside",
        "were put in order",
        "was put in order",
    ] {
        assert!(!told.contains(done), "{done}: {told}");
    }
    for would in [
        "would come: ",
        "  to be kept in /barn/quarantine/",
        "would be healed: ",
        "would be set aside: ",
        ", to be kept beside the one here",
        "would be put in order",
        "This was only looked at: nothing was written.",
    ] {
        assert!(told.contains(would), "{would}: {told}");
    }
    let done = |merged| {
        let mut kinds = kinds(&merged);
        kinds.retain(|kind| ["came", "healed", "set aside"].contains(&kind.as_str()));
        kinds
    };
    assert_eq!(done(looked), done(take(&disk, "/stick").unwrap()));
}

#[test]
fn what_a_merge_sets_aside_itself_did_not_lie_there_before() {
    let mut office = office();
    office.change_crew("odile.marsh", crew(), &[]);
    let disk = disk_with(&stated(&office));
    let place = Path::new("/barn/crew/allowed_signers");
    disk.remove(place).unwrap();
    disk.place(place, &crew().text().as_bytes()[..300]);
    put(&disk, "/stick", &stated(&office));
    let told = text(&take(&disk, "/stick").unwrap());
    assert!(told.contains("healed: crew file 1"), "{told}");
    assert!(!told.contains("set aside before"), "{told}");
    let told = text(&take(&disk, "/stick").unwrap());
    assert!(told.contains("set aside before: 1 file lies"), "{told}");
}
