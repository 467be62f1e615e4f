//! The union: order, repeats and grouping decide nothing, and no byte of a valid trip is lost.

use super::barn::{Files, bring, contents, disk_with, put, take, trips, whole};
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
        _ => format!("LOST.DIR/{how}/{}", file.to_uppercase()),
    }
}

/// Copies of parts of a barn's logbook: which file goes into which copy, and under what name.
fn copies() -> impl Strategy<Value = Vec<Files>> {
    let count = whole().len();
    let one = (1_u8..8, 0_usize..64);
    prop::collection::vec(one, count).prop_map(|choices| {
        let mut copies = vec![Files::new(); 3];
        for ((name, bytes), (into, how)) in whole().into_iter().zip(choices) {
            for (at, copy) in copies.iter_mut().enumerate() {
                if into & (1 << at) != 0 {
                    copy.insert(renamed(&name, how + at), bytes.clone());
                }
            }
        }
        copies
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn any_order_any_repeat_and_any_grouping_come_to_the_same(
        copies in copies(),
        order in Just(vec![0_usize, 1, 2]).prop_shuffle(),
        again in 0_usize..3,
    ) {
        let every: std::collections::BTreeSet<Vec<u8>> = whole()
            .into_iter()
            .filter(|(name, _)| name != "crew/allowed_signers")
            .map(|(_, bytes)| bytes)
            .collect();
        let one_by_one = disk_with(&Files::new());
        for at in order.iter().chain([&again]) {
            bring(&one_by_one, &format!("copy-{at}"), &copies[*at]);
        }
        prop_assert_eq!(&contents(&one_by_one), &every);

        let together = disk_with(&Files::new());
        for (at, copy) in copies.iter().enumerate() {
            put(&together, &format!("/pile/{at}"), copy);
        }
        take(&together, "/pile").unwrap();
        prop_assert_eq!(&contents(&together), &every);

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
