//! Backups put back, two histories of one laptop, and trips that are gone by a manager's word.

use super::{Damage, SOUND, branch, changed, forked, restored};
use crate::barn50::making::LAPTOPS;
use crate::record_trip::{id, words};
use hames::record::{ForkClosed, LossAccepted, Pruned, Says};

pub(super) const ALL: &[Damage] = &[
    Damage {
        what: "a backup put back, and a trip walked after it",
        make: || restored(1).files,
        word: "gap",
        told: &[
            "gap: trip 18 of laptop-0a11 is witnessed by statement 6 of Odile Marsh and not here",
        ],
    },
    Damage {
        what: "a backup put back, and walked on past what was witnessed",
        make: || restored(3).files,
        word: "fork",
        told: &[
            "fork: trip 18 of laptop-0a11 has another seal here than statement 6 of Odile Marsh says",
        ],
    },
    Damage {
        what: "two histories of one laptop",
        make: || forked().0.files,
        word: "fork",
        told: &[
            "fork: laptop-0a11 has 2 different trips 17:",
            "fork: laptop-0a11 has 2 different trips 18:",
        ],
    },
    Damage {
        what: "two histories, and a manager's word on which goes on",
        make: || {
            let (mut barn, one, other) = forked();
            barn.state(Says::ForkClosed(ForkClosed {
                device: id(LAPTOPS[0]),
                seq: 17,
                goes_on: branch(&barn, one),
                ended: vec![branch(&barn, other)],
                words: words("the disk was copied"),
            }));
            barn.files
        },
        word: SOUND,
        told: &["the fork at trip 17 of laptop-0a11 was closed by statement 7 of Odile Marsh: "],
    },
    Damage {
        what: "a closed fork, and the history that ended removed",
        make: || {
            let (mut barn, one, other) = forked();
            let ended = branch(&barn, other);
            barn.state(Says::ForkClosed(ForkClosed {
                device: id(LAPTOPS[0]),
                seq: 17,
                goes_on: branch(&barn, one),
                ended: vec![ended.clone()],
                words: words("the disk was copied"),
            }));
            let folders: Vec<String> = barn
                .trips
                .iter()
                .filter(|trip| trip.id == ended.trip.as_str())
                .map(|trip| trip.folder.clone())
                .collect();
            for folder in &folders {
                barn.lose(folder);
            }
            barn.files
        },
        word: "fork",
        told: &[
            "is a history that statement 7 of Odile Marsh closed a fork with, and it is not here",
        ],
    },
    Damage {
        what: "a trip lost, and a manager who accepts it",
        make: || {
            changed(|barn| {
                barn.lose(&barn.trip(2, 3).folder.clone());
                barn.state(Says::LossAccepted(LossAccepted {
                    device: id(LAPTOPS[2]),
                    from: 3,
                    to: 3,
                    words: words("the stick broke"),
                }));
            })
        },
        word: SOUND,
        told: &["trip 3 of laptop-0c33 is lost, as statement 7 of Odile Marsh accepts"],
    },
    Damage {
        what: "trips taken out by a manager's word",
        make: || {
            changed(|barn| {
                let stubs = (1..=3).map(|seq| {
                    let trip = barn.trip(2, seq).clone();
                    let read = crate::barn50::order::examined(barn, &barn.files, &trip.folder);
                    hames::logbook::order::stub(&read.trip.unwrap())
                });
                let trips = stubs.collect();
                for seq in 1..=3 {
                    barn.lose(&barn.trip(2, seq).folder.clone());
                }
                barn.state(Says::Pruned(Pruned {
                    trips,
                    words: words("older than the barn keeps them"),
                }));
            })
        },
        word: SOUND,
        told: &[
            "trips 1 to 3 of laptop-0c33 are taken out by statement 7 of Odile Marsh, which keeps what order needs",
        ],
    },
];
