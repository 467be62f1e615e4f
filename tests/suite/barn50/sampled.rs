//! Any file taken away and any byte changed is found, or is of a kind that proves nothing.

use super::damage::SOUND;
use super::found::verified;
use super::making::{Files, barn};
use crate::harness::home::Ended;

/// Files that prove nothing: what they say is said elsewhere, or is nobody's word.
const PROVES_NOTHING: [&str; 2] = [".gitattributes", "crew.allowed_signers"];

/// So many files are taken away, and so many bytes changed.
const SAMPLES: usize = 16;

/// Numbers that look drawn, and are the same in every run.
struct Drawn(u64);

impl Drawn {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % most
    }
}

/// Whether anything is told that is not told of the sound barn.
fn is_found(ended: &Ended, sound: &Ended) -> bool {
    let known: Vec<&str> = sound.out.lines().collect();
    ended.status != sound.status || ended.out.lines().any(|line| !known.contains(&line))
}

fn is_of(path: &str, kinds: &[&str]) -> bool {
    kinds.iter().any(|kind| path.ends_with(kind))
}

#[test]
fn any_file_taken_away_and_any_byte_changed_is_found_or_proves_nothing() {
    let whole = barn().files;
    let sound = verified(&whole);
    assert!(
        sound.out.ends_with(&format!(": {SOUND}\n")),
        "{}",
        sound.out
    );
    let paths: Vec<&String> = whole.keys().collect();
    let mut drawn = Drawn(20_261_126);
    let mut damaged: Vec<(String, Files)> = Vec::new();
    for _ in 0..SAMPLES {
        let path = paths[drawn.below(paths.len())];
        let mut files = whole.clone();
        files.remove(path);
        damaged.push((format!("{path} taken away"), files));
        let path = paths[drawn.below(paths.len())];
        let mut files = whole.clone();
        let bytes = files.get_mut(path).unwrap();
        let at = drawn.below(bytes.len());
        bytes[at] ^= 1 << drawn.below(8);
        damaged.push((format!("{path}, byte {at}"), files));
    }
    let unseen: Vec<&str> = damaged
        .iter()
        .filter(|(_, files)| !is_found(&verified(files), &sound))
        .map(|(what, _)| what.as_str())
        .collect();
    let proves = |what: &&&str| {
        let path = what.split([' ', ',']).next().unwrap();
        !is_of(path, &PROVES_NOTHING)
    };
    let proves: Vec<_> = unseen.iter().filter(proves).collect();
    assert!(proves.is_empty(), "{proves:?}");
}
