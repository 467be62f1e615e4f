//! Damage to statements, to the crew file, and keys used when they had left.

use super::{Damage, SOUND, changed, file};
use crate::barn50::making::{Left, fifty, people};
use hames::record::{Changed, Mode, Opinion};

pub(super) const ALL: &[Damage] = &[
    Damage {
        what: "a statement in the middle removed",
        make: || changed(|barn| barn.lose(&barn.statement(4))),
        word: "gap",
        told: &[
            "gap: statement 4 of odile.marsh is not here",
            "of laptop-0a11 quotes a statement that is not here, or cannot be relied on",
        ],
    },
    Damage {
        what: "every statement removed",
        make: || changed(|barn| barn.files.retain(|path, _| !path.starts_with("mgr/"))),
        word: "unknown-signer",
        told: &["gap: trip 1 of laptop-0a11 quotes a statement that is not here"],
    },
    Damage {
        what: "one byte of a countersign changed",
        make: || {
            changed(|barn| {
                let folder = barn.statement(4);
                let text = file(barn, &folder, "statement.json");
                let at = text.windows(6).position(|part| part == b"agreed").unwrap();
                text[at + 4] ^= 1;
            })
        },
        word: "unreadable",
        told: &["a statement cannot be read: "],
    },
    Damage {
        what: "one letter of a countersign changed",
        make: || {
            changed(|barn| {
                let folder = barn.statement(4);
                let text = file(barn, &folder, "statement.json");
                let at = text
                    .windows(7)
                    .position(|part| part == b"\"latch\"")
                    .unwrap();
                text[at + 1] = b'm';
            })
        },
        word: "altered",
        told: &["altered: statement 4 of odile.marsh does not count"],
    },
    Damage {
        what: "a statement's signature removed",
        make: || {
            changed(|barn| {
                let folder = barn.statement(4);
                barn.files.remove(&format!("{folder}/statement.sig"));
            })
        },
        word: "gap",
        told: &["unsealed: statement 4 of odile.marsh is not signed"],
    },
    Damage {
        what: "a crew file of the roster changed",
        make: || {
            changed(|barn| {
                let folder = barn.statement(3);
                let crew = file(barn, &folder, "allowed_signers");
                let text = String::from_utf8(crew.clone()).unwrap();
                *crew = text.replace("role:groom", "role:manager").into_bytes();
            })
        },
        word: "altered",
        told: &["statement 3 of odile.marsh puts no crew file in force: its crew file was changed"],
    },
    Damage {
        what: "a line added to the crew file by hand",
        make: || {
            changed(|barn| {
                let crew = barn.files.get_mut("crew/allowed_signers").unwrap();
                *crew = people(true)
                    .text()
                    .replace("role:groom", "role:driver")
                    .into_bytes();
            })
        },
        word: "altered",
        told: &["crew/allowed_signers was changed, and no manager has signed that"],
    },
    Damage {
        what: "an older crew file put back",
        make: || {
            changed(|barn| {
                let folder = barn.statement(3);
                let older = file(barn, &folder, "allowed_signers").clone();
                barn.files.insert("crew/allowed_signers".to_owned(), older);
            })
        },
        word: "gap",
        told: &["crew/allowed_signers is crew file 2, an earlier one. In force is crew file 3"],
    },
    Damage {
        what: "a crew file that cannot be read, beside a roster",
        make: || {
            changed(|barn| {
                barn.files
                    .insert("crew/allowed_signers".to_owned(), b"?\n".to_vec());
            })
        },
        word: "altered",
        told: &[
            "crew/allowed_signers is damaged, line 1: ",
            "In force is crew file 3, by statement 6 of Odile Marsh",
        ],
    },
    Damage {
        what: "a drill among real trips",
        make: || {
            changed(|barn| {
                barn.mode = Mode::Drill;
                barn.walk(0, "wren.ashdown", Left::Sealed);
            })
        },
        word: "unknown-signer",
        told: &["this is a drill record in a real logbook"],
    },
    Damage {
        what: "a trip signed by someone who has left, by the crew file of today",
        make: || {
            changed(|barn| {
                barn.walk(0, "tobias.fenn", Left::Sealed);
            })
        },
        word: "unknown-signer",
        told: &["nobody in the crew is called tobias.fenn"],
    },
    Damage {
        what: "a trip signed with a retired key, by the crew file it was in",
        make: || {
            changed(|barn| {
                barn.walk_as(0, "tobias.fenn", Left::Sealed, people(true).revision());
            })
        },
        word: "outside-bracket",
        told: &[
            "trip 21 of laptop-0a11 is signed with the key of tobias.fenn, which statement 6 of Odile Marsh retired",
        ],
    },
    Damage {
        what: "a trip signed with a revoked key, by the crew file it was in",
        make: || {
            let mut barn = fifty(Changed::Revoked);
            barn.walk_as(0, "tobias.fenn", Left::Sealed, people(true).revision());
            barn.files
        },
        word: "revoked-signer",
        told: &[
            "trip 21 of laptop-0a11 is signed with the key of tobias.fenn, which statement 6 of Odile Marsh revoked",
        ],
    },
    Damage {
        what: "a manager who countersigns her own trip",
        make: || {
            changed(|barn| {
                let own = barn.walk(2, "odile.marsh", Left::Sealed);
                barn.countersign(own, Opinion::Agreed);
            })
        },
        word: SOUND,
        told: &[
            "statement 7 of Odile Marsh countersigns trip 11 of laptop-0c33, which Odile Marsh signed, read, did or checked",
        ],
    },
];
