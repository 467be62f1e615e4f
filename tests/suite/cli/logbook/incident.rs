//! What is handed to an insurer: one trip told, the rig's trips before it, and nothing else.

use super::countersign::says;
use super::export::{commands, shell};
use super::report::book;
use crate::harness::home::files_below;
use crate::harness::tools::python;
use crate::second::bench::second;
use std::ffi::OsString;
use std::fs;
use std::path::Path;
use std::process::Command;

/// A hitch-up in the book, by its folder below the logbook.
const TRIP: &str = "laptop-2b1f/8";
const FOLDER: &str = "dev/laptop-2b1f/t/000008-";

#[test]
fn an_incident_is_told_and_can_be_checked_and_holds_no_secret_and_no_other_rig() {
    let home = book(36);
    let told = home
        .hames(&format!("logbook incident {TRIP} out --logbook book"))
        .run();
    assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
    says(
        &told.out,
        &[
            "Written to out: ",
            "each read back; ",
            " left out.",
            "begins with READ-THIS.txt.",
        ],
    );
    // The logbook is gone, and what was written stands alone.
    let (book, out) = (home.path("gone"), home.path("out"));
    fs::rename(home.path("book"), &book).unwrap();
    let files = files_below(&out);
    for of in ["trip", "rig"] {
        for ending in ["html", "txt", "json"] {
            assert!(
                files.contains(&format!("report/{of}.{ending}")),
                "{files:?}"
            );
        }
    }
    let kept = files_below(&book);
    for file in &files {
        assert!(!file.contains("keys"), "{file}");
        let bytes = fs::read(out.join(file)).unwrap();
        assert!(
            !String::from_utf8_lossy(&bytes).contains("PRIVATE KEY-----"),
            "{file}"
        );
        if kept.contains(file) {
            assert_eq!(bytes, fs::read(book.join(file)).unwrap(), "{file}");
        }
        if file.starts_with("dev/") {
            assert!(kept.contains(file), "{file}");
        }
    }
    let rigs = files.iter().filter(|file| file.ends_with("/rig.yaml"));
    for rig in rigs.clone() {
        let text = fs::read_to_string(out.join(rig)).unwrap();
        assert!(
            text.contains("Juniper") && !text.contains("Mesquite"),
            "{rig}"
        );
    }
    let trips = rigs.count();
    let all = kept
        .iter()
        .filter(|file| file.ends_with("/trip.jsonl"))
        .count();
    assert!(trips > 3 && trips < all, "{trips} of {all}");

    let page = fs::read_to_string(out.join("READ-THIS.txt")).unwrap();
    let left = format!("{} trips of this logbook are not here", all - trips);
    says(
        &page,
        &[
            "DEMO: AN INVENTED BARN.",
            "RECORDS ABOUT ONE TRIP",
            &left,
            "They cannot show that the pin was in the hitch",
        ],
    );
    assert!(
        page.lines()
            .all(|line| line.len() <= 115 || line.starts_with("    ")),
        "{page}"
    );
    let good = commands(&out)
        .into_iter()
        .filter(|line| line.starts_with("ssh-keygen"));
    let good: Vec<String> = good.map(|line| shell(&out, &line)).collect();
    assert!(
        good.len() >= 3 && good.iter().all(|told| told.starts_with("Good \"")),
        "{good:?}"
    );
    shell(&out, "sha256sum -c --quiet SHA256SUMS");
    the_second_verifier_finds_each_trip_as_it_was_and_that_others_are_not_here(&out, &files, trips);
}

fn the_second_verifier_finds_each_trip_as_it_was_and_that_others_are_not_here(
    out: &Path,
    files: &[String],
    trips: usize,
) {
    let one = files.iter().find(|file| file.starts_with(FOLDER)).unwrap();
    let one = out.join(one).parent().unwrap().to_owned();
    let judged = second(&[OsString::from(one)]);
    assert_eq!(judged.lines[0].1, "intact", "{}", judged.all);
    let whole = Command::new(python())
        .args(["-B", "second/logbook.py", "."])
        .current_dir(out)
        .output()
        .unwrap();
    let whole = String::from_utf8(whole.stdout).unwrap();
    let found = whole.lines().filter(|line| line.starts_with("0000"));
    assert_eq!(found.clone().count(), trips, "{whole}");
    for line in found {
        assert!(
            line.ends_with(" intact") || line.ends_with(" unsealed"),
            "{line}"
        );
    }
    assert!(
        whole.contains("\nstatements intact\n") && whole.contains("\norder gap "),
        "{whole}"
    );
}

#[test]
fn a_folder_with_something_in_it_is_left_alone_and_no_other_trip_is_taken_for_the_one_meant() {
    let home = book(36);
    fs::create_dir(home.path("full")).unwrap();
    home.put("full/mine.txt", "x");
    let told = home
        .hames(&format!("logbook incident {TRIP} full --logbook book"))
        .run();
    assert_eq!((told.status, told.out.as_str()), (3, ""), "{}", told.err);
    assert_eq!(files_below(&home.path("full")), ["mine.txt"]);
    let told = home
        .hames("logbook incident laptop-2b1f/800 out --logbook book")
        .run();
    assert_eq!((told.status, told.out.as_str()), (2, ""), "{}", told.err);
    assert!(!home.path("out").exists());
}
