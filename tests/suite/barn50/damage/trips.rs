//! Damage to single trips: taken away, changed, cut, moved.

use super::{Damage, SOUND, changed, cut, file, lines_of, one_byte, rename};
use crate::barn50::making::barn;

pub(super) const ALL: &[Damage] = &[
    Damage {
        what: "nothing",
        make: || barn().files,
        word: SOUND,
        told: &[
            "abandoned: trip 5 of laptop-0b22 (",
            "nothing after trip 18 of laptop-0a11 is witnessed; the newest here is trip 20; the last witness is statement 6 of Odile Marsh",
            "the newest statement of Odile Marsh here is 6; later ones may be missing",
            "  agreed to by statement 2 of Odile Marsh",
            "  asked about by statement 5 of Odile Marsh: why so late?",
            "  later than statement 3 of Odile Marsh (clock 2026-11-25 18:00), earlier than statement 4 of Odile Marsh (clock 2026-11-25 18:00)",
            "  later than statement 6 of Odile Marsh (clock 2026-11-25 18:00), and witnessed by no statement yet",
        ],
    },
    Damage {
        what: "the first trip of a laptop removed",
        make: || changed(|barn| barn.lose(&barn.trip(2, 1).folder.clone())),
        word: "gap",
        told: &[
            "gap: trip 1 of laptop-0c33 is not here, or cannot be relied on; behind stands trip 2 (",
        ],
    },
    Damage {
        what: "a trip in the middle removed",
        make: || changed(|barn| barn.lose(&barn.trip(0, 8).folder.clone())),
        word: "gap",
        told: &[
            "gap: trip 8 of laptop-0a11 is not here, or cannot be relied on; before stands trip 7 (",
        ],
    },
    Damage {
        what: "the newest trips removed, as far as they are witnessed",
        make: || changed(|barn| barn.put_back(2, 7)),
        word: "gap",
        told: &[
            "gap: trips 8 to 9 of laptop-0c33 are witnessed by statement 6 of Odile Marsh and not here",
        ],
    },
    Damage {
        what: "the newest trips removed that nothing witnesses",
        make: || changed(|barn| barn.put_back(0, 18)),
        word: SOUND,
        told: &["nothing after trip 18 of laptop-0a11 is witnessed"],
    },
    Damage {
        what: "one byte of a journal changed",
        make: || one_byte("trip.jsonl"),
        word: "altered",
        told: &["000008-"],
    },
    Damage {
        what: "one figure of a seal changed",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let seal = file(barn, &folder, "seal.json");
                let at = seal
                    .windows(6)
                    .position(|part| part == b"\"fix\":")
                    .unwrap();
                seal[at + 6] ^= 1;
            })
        },
        word: "altered",
        told: &["the signed bytes or the signature were changed after signing"],
    },
    Damage {
        what: "one byte of the person's signature changed",
        make: || one_byte("seal.person.sig"),
        word: "altered",
        told: &["this is not a good signature of wren.ashdown"],
    },
    Damage {
        what: "one byte of the laptop's signature changed",
        make: || one_byte("seal.device.sig"),
        word: "altered",
        told: &["this is not a good signature of laptop-"],
    },
    Damage {
        what: "one byte of a checklist changed",
        make: || one_byte("checklist.yaml"),
        word: "altered",
        told: &["the checklist beside the record is not the one that was walked"],
    },
    Damage {
        what: "one byte of a rig changed",
        make: || one_byte("rig.yaml"),
        word: "altered",
        told: &["the rig file beside the record is not the one the walk was judged by"],
    },
    Damage {
        what: "one byte of the crew file beside a trip changed",
        make: || one_byte("crew.allowed_signers"),
        word: "altered",
        told: &["the crew file beside the record is not the one that was in force"],
    },
    Damage {
        what: "two lines of a journal in each other's place",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let journal = file(barn, &folder, "trip.jsonl");
                let mut lines = lines_of(journal);
                lines.swap(1, 2);
                *journal = lines.concat();
            })
        },
        word: "altered",
        told: &["line 2 says it is line 3"],
    },
    Damage {
        what: "two trips in each other's folder",
        make: || {
            changed(|barn| {
                let (one, other) = (
                    barn.trip(0, 8).folder.clone(),
                    barn.trip(1, 9).folder.clone(),
                );
                rename(barn, &one, "dev/between");
                rename(barn, &other, &one);
                rename(barn, "dev/between", &other);
            })
        },
        word: "altered",
        told: &["the record is trip 9 of laptop-0b22, and lies in the folder of another"],
    },
    Damage {
        what: "a trip under another number",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 20).folder.clone();
                rename(barn, &folder, &folder.replace("/000020-", "/000021-"));
            })
        },
        word: "altered",
        told: &["the record is trip 20 of laptop-0a11, and lies in the folder of another"],
    },
    Damage {
        what: "a trip under a name of no trip",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 20).folder.clone();
                rename(barn, &folder, &format!("{folder} (1)"));
            })
        },
        word: "gap",
        told: &["(1) holds trip 20 of laptop-0a11, which lies nowhere else"],
    },
    Damage {
        what: "a sealed trip cut short",
        make: || changed(|barn| cut(barn, &barn.trip(0, 8).folder.clone(), 1)),
        word: "truncated",
        told: &["the seal counts 5 lines and the journal has 4"],
    },
    Damage {
        what: "a trip that was never sealed cut short",
        make: || changed(|barn| cut(barn, &barn.trip(1, 5).folder.clone(), 1)),
        word: "truncated",
        told: &["trip 5 of laptop-0b22 is shorter here than when the next one began"],
    },
    Damage {
        what: "a seal removed that the next trip quotes",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                barn.files.remove(&format!("{folder}/seal.json"));
            })
        },
        word: "truncated",
        told: &["trip 8 of laptop-0a11 is shorter here than when the next one began"],
    },
    Damage {
        what: "a journal sent through a text conversion",
        make: || {
            changed(|barn| {
                let folder = barn.trip(0, 8).folder.clone();
                let journal = file(barn, &folder, "trip.jsonl");
                let text = String::from_utf8(journal.clone()).unwrap();
                *journal = text.replace('\n', "\r\n").into_bytes();
            })
        },
        word: "altered",
        told: &[
            "the line endings were changed in transit; put the line “* -text” into .gitattributes",
        ],
    },
];
