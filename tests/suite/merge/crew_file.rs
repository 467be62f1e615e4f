//! A damaged crew file here: what managers stated has its bytes, and the rest of a merge goes on.

use super::barn::{Files, disk_with, founded, larger_crew, office, put, stated, take, text, trips};
use hames::cli::merge::{Status, Stopped};
use hames::record::Changed;
use std::path::Path;

fn statements() -> Files {
    let mut office = office();
    office.change_crew("odile.marsh", super::barn::crew(), &[]);
    office.change_crew(
        "odile.marsh",
        larger_crew(),
        &[("tobias.fenn", Changed::Added)],
    );
    stated(&office)
}

#[test]
fn a_damaged_crew_file_is_put_right_from_the_statement_in_force_and_the_merge_goes_on() {
    let whole = larger_crew().text().as_bytes().to_vec();
    let place = Path::new("/barn/crew/allowed_signers");
    let crlf = larger_crew().text().replace('\n', "\r\n").into_bytes();
    let mut flipped = whole.clone();
    let name = whole.windows(4).position(|part| part == b"Wren").unwrap();
    flipped[name + 1] ^= 1;
    let mut zeroed = whole.clone();
    zeroed[200..].fill(0);
    let cases: [(&str, Option<Vec<u8>>); 8] = [
        ("its line ends had been changed", Some(crlf)),
        (
            "a byte order mark",
            Some([b"\xef\xbb\xbf", whole.as_slice()].concat()),
        ),
        ("its end was missing", Some(whole[..300].to_vec())),
        (
            "its end was missing",
            Some(whole[..whole.len() - 1].to_vec()),
        ),
        ("there was nothing in it", Some(Vec::new())),
        ("bytes of it had been changed", Some(flipped)),
        ("a part of it had never been written", Some(zeroed)),
        ("it was missing", None),
    ];
    for (told, bytes) in cases {
        let mut files = statements();
        files.insert(
            "crew/allowed_signers".to_owned(),
            bytes.clone().unwrap_or_default(),
        );
        let disk = disk_with(&files);
        if bytes.is_none() {
            hames::store::Disk::remove(&disk, place).unwrap();
        }
        put(&disk, "/stick", &trips("laptop-one", 1));
        let changes = disk.changes();
        let looked = hames::cli::merge::merge(&disk, Path::new("/barn"), Path::new("/stick"), true);
        assert!(text(&looked.unwrap()).contains(told), "{told}");
        assert_eq!(disk.changes(), changes, "{told}");
        let merged = take(&disk, "/stick").unwrap();
        let said = text(&merged);
        assert_eq!(said.matches(told).count(), 1, "{told}: {said}");
        assert!(
            said.contains("healed: crew file 2 by Odile Marsh"),
            "{said}"
        );
        assert_eq!(disk.seen(place).unwrap(), whole, "{told}");
        assert_eq!(merged.came.len(), 1, "{said}");
        assert_eq!(merged.status(), Status::Fine, "{said}");
        let bytes = bytes.filter(|bytes| !bytes.is_empty());
        let kept = disk
            .files()
            .into_iter()
            .filter(|path| path.ends_with("as-found"));
        let kept: Vec<_> = kept.map(|path| disk.seen(&path).unwrap()).collect();
        assert!(bytes.is_none_or(|bytes| kept.contains(&bytes)), "{told}");
        let merged = take(&disk, "/stick").unwrap();
        assert!(merged.mended.is_empty(), "{}", text(&merged));
        assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
    }
}

#[test]
fn a_crew_file_that_is_another_and_not_a_damaged_one_stays() {
    let mut files = statements();
    let mut other = larger_crew()
        .text()
        .replace("Tobias Fenn", "Tobias R. Fenn");
    other.push_str("# written by hand\n");
    files.insert(
        "crew/allowed_signers".to_owned(),
        other.clone().into_bytes(),
    );
    let disk = disk_with(&files);
    put(&disk, "/stick", &founded());
    let merged = take(&disk, "/stick").unwrap();
    let place = Path::new("/barn/crew/allowed_signers");
    assert_eq!(disk.seen(place).unwrap(), other.as_bytes());
    assert_eq!(merged.status(), Status::Findings, "{}", text(&merged));
}

#[test]
fn a_folder_with_nothing_of_a_logbook_is_no_merge() {
    let disk = disk_with(&Files::new());
    put(&disk, "/empty", &Files::new());
    let photo = Files::from([("photo.jpg".to_owned(), b"\xff\xd8\xff".to_vec())]);
    put(&disk, "/photos", &photo);
    for from in ["/empty", "/photos"] {
        let Err(Stopped { status, sentence }) = take(&disk, from) else {
            panic!("{from} was merged");
        };
        assert_eq!(status, Status::Store);
        assert!(sentence.contains("There is no logbook in "), "{sentence}");
    }
}

#[test]
fn a_photo_beside_records_is_left_alone() {
    let disk = disk_with(&Files::new());
    let mut stick = trips("laptop-one", 1);
    let photo = b"\xff\xd8\xff".to_vec();
    stick.insert("photo.jpg".to_owned(), photo.clone());
    stick.insert("dev/laptop-one/t/photo.jpg".to_owned(), photo.clone());
    let beside = super::barn::Way::of("laptop-one", 1).folder();
    stick.insert(format!("{beside}/photo (1).jpg"), [photo, vec![1]].concat());
    put(&disk, "/stick", &stick);
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!(merged.status(), Status::Fine, "{}", text(&merged));
    assert!(merged.aside.is_empty(), "{}", text(&merged));
    assert_eq!(merged.left_alone.len(), 2, "{}", text(&merged));
}
