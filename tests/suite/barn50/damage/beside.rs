//! What lies beside trips under other names.

use super::{Damage, SOUND, beside, changed, file, journal, lines_of, restored};
use crate::barn50::making::barn;
use hames::record::Seal;

pub(super) const ALL: &[Damage] = &[
    Damage {
        what: "a harmless copy of a journal",
        make: || beside("trip.sync-conflict-20260101-120000.jsonl", journal),
        word: SOUND,
        told: &["trip.sync-conflict-20260101-120000.jsonl is a harmless copy of trip.jsonl"],
    },
    Damage {
        what: "a copy of the beginning of a journal",
        make: || {
            beside("trip (1).jsonl", |barn, folder| {
                lines_of(&journal(barn, folder))[..2].concat()
            })
        },
        word: SOUND,
        told: &["trip (1).jsonl is a beginning of trip.jsonl, which has more"],
    },
    Damage {
        what: "a copy of a journal with more lines",
        make: || {
            let mut files = beside("trip.jsonl.orig", journal);
            let barn = barn();
            let path = format!("{}/trip.jsonl", barn.trip(1, 20).folder);
            let longer = files.remove(&path).unwrap();
            for name in ["seal.json", "seal.person.sig", "seal.device.sig"] {
                files.remove(&path.replace("trip.jsonl", name));
            }
            files.insert(path.clone(), lines_of(&longer)[..3].concat());
            files.insert(format!("{path}~"), longer);
            files
        },
        word: SOUND,
        told: &["trip.jsonl~ is the journal with 2 more lines; hames logbook merge takes it in"],
    },
    Damage {
        what: "a copy of a journal that goes another way",
        make: || {
            let mut files = barn().files;
            let path = format!("{}/trip.jsonl", barn().trip(0, 17).folder);
            let other = restored(1);
            let other = journal(&other, &other.trip(0, 17).folder);
            files.insert(
                path.replace("trip.jsonl", "trip (conflicted copy).jsonl"),
                other,
            );
            files
        },
        word: "fork",
        told: &["trip (conflicted copy).jsonl is another history of this trip, from line 1 on"],
    },
    Damage {
        what: "a damaged copy of a journal",
        make: || {
            beside("trip.jsonl.bak", |barn, folder| {
                let mut copy = journal(barn, folder);
                copy[400] ^= 1;
                copy
            })
        },
        word: "altered",
        told: &["trip.jsonl.bak is a damaged copy of the record"],
    },
    Damage {
        what: "a copy of a sealed journal with another last line",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let mut copy = journal(barn, &folder);
                let actor = copy.windows(9).rposition(|part| part == b"\"actor\":\"");
                copy[actor.unwrap() + 9] ^= 1;
                barn.files.insert(format!("{folder}/trip.jsonl.bak"), copy);
            })
        },
        word: "altered",
        told: &["trip.jsonl.bak is a damaged copy of the record"],
    },
    Damage {
        what: "another seal beside a seal",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let mut seal = Seal::read(file(barn, &folder, "seal.json")).unwrap();
                seal.role = hames::record::Role::Manager;
                barn.files
                    .insert(format!("{folder}/seal (1).json"), seal.write().unwrap());
            })
        },
        word: "fork",
        told: &["seal (1).json is another seal of this trip"],
    },
    Damage {
        what: "a copy of a whole trip under another name",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let inside: Vec<_> = barn
                    .files
                    .iter()
                    .filter(|(path, _)| path.starts_with(&folder))
                    .map(|(path, bytes)| {
                        (
                            path.replacen(&folder, &format!("{folder} (1)"), 1),
                            bytes.clone(),
                        )
                    })
                    .collect();
                barn.files.extend(inside);
            })
        },
        word: SOUND,
        told: &["(1) is a copy of trip 8 of laptop-0a11, judged by what is in it"],
    },
];
