//! A home as several tests need it, laid once. Each has a copy of its own to do harm to.

use crate::harness::home::Home;
use std::collections::BTreeMap;
use std::fs::{self, Permissions};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};

/// What lay in a home: each folder before what is in it, and a file with its bytes.
type Laid = Vec<(PathBuf, Permissions, Option<Vec<u8>>)>;

/// In memory, since nobody would remove a folder that all of them share.
static LAID: Mutex<BTreeMap<String, Arc<OnceLock<Laid>>>> = Mutex::new(BTreeMap::new());

impl Home {
    /// What comes of a home by this, under a name that stands for nothing else. Homes of one name hold
    /// the same trips of the same laptop, so a test with two of them wants one laid by itself.
    pub(crate) fn laid(
        name: impl Into<String>,
        from: impl FnOnce() -> Self,
        lay: impl FnOnce(&Self),
    ) -> Self {
        let cell = Arc::clone(LAID.lock().unwrap().entry(name.into()).or_default());
        let laid = cell.get_or_init(|| {
            let home = from();
            lay(&home);
            let mut laid = Laid::new();
            read(&home.path(""), Path::new(""), &mut laid);
            laid
        });
        let home = Self::new();
        for (below, permissions, bytes) in laid {
            let at = home.path("").join(below);
            match bytes {
                Some(bytes) => fs::write(&at, bytes).unwrap(),
                None => fs::create_dir(&at).unwrap(),
            }
            fs::set_permissions(&at, permissions.clone()).unwrap();
        }
        home
    }
}

fn read(root: &Path, below: &Path, laid: &mut Laid) {
    for entry in fs::read_dir(root.join(below)).unwrap() {
        let entry = entry.unwrap();
        let (below, meta) = (below.join(entry.file_name()), entry.metadata().unwrap());
        let bytes = meta.is_file().then(|| fs::read(entry.path()).unwrap());
        laid.push((below.clone(), meta.permissions(), bytes));
        if meta.is_dir() {
            read(root, &below, laid);
        }
    }
}
