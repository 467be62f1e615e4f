//! Scenarios and sights, held against what lies beside them: rigs, lists and sights of the barn's
//! own, in the same call or in folders beside the file.

use crate::barn::Policies;
use crate::checklist::put_together;
use crate::cli::lint::{Kind, kind};
use crate::cli::supply::{shared_beside, text, yaml_files};
use crate::drill::{Finding, Known, Offered, Scenario, check, check_sights};
use std::path::Path;

/// Folders beside a file of scenarios or sights that are looked into.
const FOLDERS: [&str; 3] = ["rigs", "checklists", "sights"];

/// What the files of one call are held against.
pub(super) struct Beside {
    /// What the other files of the call bring along.
    known: Known,
}

impl Beside {
    pub(super) fn of(files: &[(&Path, String)]) -> Self {
        let mut known = Known::default();
        let drills = |text: &str| matches!(kind(text), Kind::Scenarios | Kind::Sights);
        // Nothing else is held against them.
        if files.iter().any(|(_, text)| drills(text)) {
            for (file, text) in files {
                take_in(&mut known, file, text);
            }
        }
        Self { known }
    }

    /// Every finding of a file of scenarios. Their ids are taken for the files behind it.
    pub(super) fn scenarios(&mut self, file: &Path, text: &str) -> Vec<Finding> {
        let found = check(text, &self.with_folders(file)).err();
        for scenario in Scenario::read_all(text).unwrap_or_default() {
            self.known.add_taken(&scenario.id);
        }
        found.unwrap_or_default()
    }

    /// The scenarios of a file, where each can be played.
    pub(super) fn offered(&self, file: &Path, text: &str) -> Result<Offered, Vec<Finding>> {
        Offered::of_file(text, self.with_folders(file))
    }

    /// Every finding of a file of sights.
    pub(super) fn sights(&self, file: &Path, text: &str) -> Vec<Finding> {
        let found = check_sights(text, &self.with_folders(file)).err();
        found.unwrap_or_default()
    }

    fn with_folders(&self, file: &Path) -> Known {
        let mut known = self.known.clone();
        let here = file.parent().unwrap_or(Path::new(""));
        let folders = FOLDERS.iter().map(|folder| here.join(folder));
        for path in folders.flat_map(|folder| yaml_files(&folder)) {
            if let Ok(text) = text(&path) {
                take_in(&mut known, &path, &text);
            }
        }
        known
    }
}

/// What does not read is left away; linting that file tells why.
fn take_in(known: &mut Known, file: &Path, text: &str) {
    match kind(text) {
        Kind::Rig => known.add_rig(text),
        Kind::Sights => known.add_sights(text),
        Kind::List => {
            if let Ok(list) = put_together(text, &shared_beside(file), &Policies::default()) {
                known.add_list(list);
            }
        }
        Kind::Steps | Kind::Barn | Kind::Scenarios => {}
    }
}
