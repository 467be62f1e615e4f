//! The union: order, repeats and grouping decide nothing, and no byte of a valid trip is lost.

use super::barn::{Files, bring, contents, disk_with, names, put, take, text, trips, whole};
use hames::cli::merge::Status;
use proptest::prelude::*;

/// The name a sync tool, a file manager or an editor gives a second copy.
fn renamed(name: &str, how: usize) -> String {
    let (folder, file) = name.rsplit_once('/').unwrap_or(("", name));
    let (stem, end) = file.rsplit_once('.').unwrap_or((file, ""));
    match how % 8 {
        0 => name.to_owned(),
        1 => format!("{folder}/{stem}.sync-conflict-20261125-071403-K7Q2M4N.{end}"),
        2 => format!("{folder}/{stem} (conflicted copy 2026-11-25).{end}"),
        3 => format!("{folder}/{stem} (1).{end}"),
        4 => format!("{folder}/{file}~"),
        5 => format!("{folder}/{file}.orig"),
        6 => format!("{folder} - Copy/{file}"),
        _ => format!("LOST.DIR/{}", name.replace('/', "-").to_uppercase()),
    }
}

/// Copies of parts of a barn's logbook: which file goes into which copy, and under what name.
fn copies(choices: &[(u8, usize)]) -> Vec<Files> {
    let mut copies = vec![Files::new(); 3];
    for ((name, bytes), (into, how)) in whole().into_iter().zip(choices) {
        for (at, copy) in copies.iter_mut().enumerate() {
            if into & (1 << at) != 0 {
                copy.insert(renamed(&name, how + at), bytes.clone());
            }
        }
    }
    copies
}

/// The names in the barn of these files.
fn named(files: &std::collections::BTreeSet<Vec<u8>>) -> Vec<String> {
    let name = |bytes: &Vec<u8>| {
        let barn = whole();
        let found = barn.iter().find(|(_, same)| *same == bytes);
        found.map_or_else(|| "none of it".to_owned(), |(name, _)| name.clone())
    };
    files.iter().map(name).collect()
}

/// What a bad disk or a sync makes of a file. Nothing that is left of a journal goes on otherwise.
fn spoilt(bytes: &[u8], how: usize) -> Vec<u8> {
    let middle = bytes.len() / 2;
    match how % 4 {
        0 => bytes[..middle].to_vec(),
        1 => [bytes, b"more\n"].concat(),
        2 => [&bytes[..middle], b"\0\0", &bytes[middle + 2..]].concat(),
        _ => String::from_utf8(bytes.to_vec())
            .unwrap()
            .replace('\n', "\r\n")
            .into_bytes(),
    }
}

/// Of a file: in which of three copies it is whole, in which others it is damaged, and how.
type Choice = (usize, u8, usize);

fn choices() -> impl Strategy<Value = Vec<Choice>> {
    prop::collection::vec((0_usize..3, 0_u8..8, 0_usize..64), whole().len())
}

fn damaged_copies(choices: &[Choice]) -> Vec<Files> {
    let mut copies = vec![Files::new(); 3];
    for ((name, bytes), (whole, damaged, how)) in whole().into_iter().zip(choices) {
        for (at, copy) in copies.iter_mut().enumerate() {
            if at == *whole || name == "crew/allowed_signers" {
                copy.insert(name.clone(), bytes.clone());
            } else if damaged & (1 << at) != 0 {
                // A line more in a trip nobody sealed may have been one, so that one is left out.
                let open = name.contains("/000003-") && (how + at) % 4 == 1;
                let how = if open { 0 } else { how + at };
                copy.insert(name.clone(), spoilt(&bytes, how));
            }
        }
    }
    copies
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]
    #[test]
    fn damage_here_and_there_comes_to_the_same_whole_in_any_order(
        choices in choices(),
        order in Just(vec![0_usize, 1, 2]).prop_shuffle(),
    ) {
        let every: std::collections::BTreeSet<Vec<u8>> = whole()
            .into_iter()
            .filter(|(name, _)| name != "crew/allowed_signers")
            .map(|(_, bytes)| bytes)
            .collect();
        let copies = damaged_copies(&choices);
        // The first is what lies here, damage and all.
        let mut here = copies[order[0]].clone();
        here.retain(|name, _| !name.contains("-copy"));
        let disk = disk_with(&here);
        for at in order.iter().skip(1).chain(&order) {
            bring(&disk, &format!("copy-{at}"), &copies[*at]);
        }
        let changes = disk.changes();
        let merged = take(&disk, &format!("/copy-{}", order[0])).unwrap();
        let missing: std::collections::BTreeSet<Vec<u8>> =
            every.difference(&contents(&disk)).cloned().collect();
        let told = text(&merged);
        prop_assert!(missing.is_empty(), "{:?}: {:?}: {}", named(&missing), names(&disk), told);
        prop_assert_eq!(disk.changes(), changes, "{}", text(&merged));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn any_order_any_repeat_and_any_grouping_come_to_the_same(
        choices in prop::collection::vec((1_u8..8, 0_usize..64), whole().len()),
        order in Just(vec![0_usize, 1, 2]).prop_shuffle(),
        again in 0_usize..3,
    ) {
        let copies = copies(&choices);
        let every: std::collections::BTreeSet<Vec<u8>> = whole()
            .into_iter()
            .filter(|(name, _)| name != "crew/allowed_signers")
            .map(|(_, bytes)| bytes)
            .collect();
        let one_by_one = disk_with(&Files::new());
        for at in order.iter().chain([&again]) {
            bring(&one_by_one, &format!("copy-{at}"), &copies[*at]);
        }
        prop_assert!(named(&contents(&one_by_one)) == named(&every), "{:?}", names(&one_by_one));

        let together = disk_with(&Files::new());
        for (at, copy) in copies.iter().enumerate() {
            put(&together, &format!("/pile/{at}"), copy);
        }
        take(&together, "/pile").unwrap();
        prop_assert!(named(&contents(&together)) == named(&every), "{:?}", names(&together));

        // By way of another laptop.
        let by_way = disk_with(&Files::new());
        bring(&by_way, "first", &copies[order[0]]);
        bring(&by_way, "second", &copies[order[1]]);
        bring(&by_way, "third", &copies[order[2]]);
        let changes = by_way.changes();
        let merged = take(&by_way, "/third").unwrap();
        prop_assert!(!merged.is_new());
        prop_assert_eq!(by_way.changes(), changes, "a second merge writes nothing");
    }
}

#[test]
fn what_is_here_already_is_known_by_its_bytes_and_nothing_is_written() {
    let disk = disk_with(&trips("laptop-one", 3));
    put(&disk, "/stick", &trips("laptop-one", 3));
    let changes = disk.changes();
    let merged = take(&disk, "/stick").unwrap();
    assert_eq!((merged.known, merged.is_new()), (3, false));
    assert_eq!(merged.status(), Status::Fine);
    assert_eq!(disk.changes(), changes);
}

#[test]
fn a_logbook_merged_with_itself_stays_as_it_is() {
    let disk = disk_with(&trips("laptop-one", 2));
    let changes = disk.changes();
    let merged = take(&disk, "/barn").unwrap();
    assert_eq!((merged.known, merged.status()), (2, Status::Fine));
    assert_eq!(disk.changes(), changes);
}

#[test]
fn looking_tells_the_same_and_writes_nothing() {
    let disk = disk_with(&Files::new());
    put(&disk, "/stick", &whole());
    let changes = disk.changes();
    let (root, stick) = (
        std::path::Path::new("/barn"),
        std::path::Path::new("/stick"),
    );
    let looked = hames::cli::merge::merge(&disk, root, stick, true).unwrap();
    assert_eq!(disk.changes(), changes);
    let merged = take(&disk, "/stick").unwrap();
    let keys = |merged: &hames::cli::merge::Merged| {
        let came = merged.came.iter();
        came.map(|came| (came.key.clone(), came.how))
            .collect::<Vec<_>>()
    };
    assert_eq!(keys(&looked), keys(&merged));
    assert_eq!(looked.statements, merged.statements);
}
