//! The records of the year: the same seed the same bytes, and what verification finds is what is
//! meant. A part of the year stands for the whole, which takes long to write where nothing is
//! optimised.

use super::YEAR;
use crate::harness::home::{Home, files_below};
use crate::second::bench::second;
use hames::cli::year::{FOLDER, SEED, made, put_in_place};
use hames::year::{Look, Trip};
use std::cell::Cell;
use std::ffi::OsString;
use std::fs;

/// So many trips from the first on; one of them nobody signed.
const TRIPS: usize = 40;

#[test]
fn the_same_seed_comes_to_the_same_bytes_of_every_file() {
    let home = Home::new();
    let (one, two) = (home.path("one"), home.path("two"));
    made(&one, SEED, 12).unwrap();
    made(&two, SEED, 12).unwrap();
    let files = files_below(&one);
    assert_eq!(files, files_below(&two));
    assert!(files.len() > 12 * 7, "{} files", files.len());
    for file in files {
        let read = |root: &std::path::Path| fs::read(root.join(&file)).unwrap();
        assert_eq!(read(&one), read(&two), "{file}");
    }
}

#[test]
fn verification_finds_what_is_meant_and_the_second_verifier_the_same() {
    let home = Home::new();
    made(&home.path("book"), SEED, TRIPS).unwrap();
    let told = home.hames("verify book").run();
    let count = |word: &str| {
        let word = format!("  {word}  DEMO");
        told.out.lines().filter(|line| line.contains(&word)).count()
    };
    let trips = &YEAR[..TRIPS];
    let meant = |is: fn(&Trip) -> bool| trips.iter().filter(|trip| is(trip)).count();
    let unsigned = meant(|trip| trip.signed.is_none());
    let agreed = meant(|trip| trip.look == Look::Agreed);
    assert_eq!((count("unsealed"), unsigned), (1, 1), "{}", told.out);
    assert_eq!(count("intact"), agreed);
    assert_eq!(count("not-countersigned"), TRIPS - agreed - unsigned);
    let ends = format!("{TRIPS} trips: unsealed");
    assert!(told.out.trim_end().ends_with(&ends), "{}", told.out);

    let second = second(&[OsString::from(home.path("book"))]);
    assert_eq!(
        second.lines.last().unwrap(),
        &("whole".to_owned(), "unsealed".to_owned())
    );
    let whole = ["intact", "unsealed"];
    assert!(
        second
            .lines
            .iter()
            .all(|(_, word)| whole.contains(&word.as_str())),
        "{}",
        second.all
    );
}

#[test]
fn it_is_made_once_and_never_stands_half_made() {
    let home = Home::new();
    let data = home.path("data");
    let made_so_often = Cell::new(0);
    let make = |draft: &std::path::Path| {
        made_so_often.set(made_so_often.get() + 1);
        assert!(!data.join(FOLDER).exists());
        made(draft, SEED, 2)
    };
    // What a crash left of an earlier one is passed by.
    fs::create_dir_all(data.join("demo-year.draft-1").join("crew")).unwrap();
    let root = put_in_place(&data, make).unwrap();
    assert_eq!(root, data.join(FOLDER));
    assert!(root.join("crew/allowed_signers").exists());
    assert_eq!(put_in_place(&data, make).unwrap(), root);
    assert_eq!(made_so_often.get(), 1);
    assert!(!data.join("demo-year.draft-2").exists());

    let foreign = home.path("foreign");
    fs::create_dir_all(foreign.join(FOLDER).join("something of mine")).unwrap();
    let refused = put_in_place(&foreign, |draft| made(draft, SEED, 2)).unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("Move what lies there out of the way")
    );
}
