//! What is said of a path that is no folder of records: above all of an archive, which has to be
//! unpacked first.

use crate::cli::command::{is_plain, quoted};
use crate::store::Local;
use std::io::Read;
use std::path::Path;

/// A header of a tar archive is so long.
const HEADER: u64 = 512;

/// Why nothing below this path can be judged, and what to do.
pub(super) fn no_folder(path: &Path) -> String {
    let shown = path.display();
    let Some(start) = start_of(path) else {
        return format!(
            "There is neither a logbook nor a trip in {shown}. Name the folder of one."
        );
    };
    match Archive::of(&start) {
        Some(archive) => archive.how_to_unpack(path),
        None => format!(
            "{shown} is a file, and what is checked is a folder: that of a trip, with all its \
             files, or that of the logbook. Name the folder it lies in."
        ),
    }
}

/// How a file begins; nothing where it is none, or cannot be read.
fn start_of(path: &Path) -> Option<Vec<u8>> {
    let mut start = Vec::new();
    let file = Local.stream(path).ok()?;
    file.take(HEADER).read_to_end(&mut start).ok()?;
    Some(start)
}

/// A kind of archive, told by how it begins, whatever its name is.
#[derive(Debug, PartialEq, Eq)]
enum Archive {
    /// With the folder everything lies in.
    Tar(Option<String>),
    /// A tar archive, or another file, made smaller.
    Packed,
    /// With the folder everything lies in.
    Zip(Option<String>),
}

impl Archive {
    fn of(start: &[u8]) -> Option<Self> {
        if start.starts_with(b"PK\x03\x04") {
            Some(Self::Zip(start.get(30..).and_then(first_folder)))
        } else if start.get(257..262) == Some(b"ustar") {
            Some(Self::Tar(first_folder(start)))
        } else {
            let packed: [&[u8]; 4] = [b"\x1f\x8b", b"BZh", b"\xfd7zXZ", b"\x28\xb5\x2f\xfd"];
            packed
                .iter()
                .any(|magic| start.starts_with(magic))
                .then_some(Self::Packed)
        }
    }

    fn how_to_unpack(&self, path: &Path) -> String {
        let archive = quoted(path);
        let (unpack, folder) = match self {
            Self::Tar(folder) => (format!("tar -xf {archive}"), folder.as_deref()),
            Self::Packed => (format!("tar -xf {archive}"), None),
            Self::Zip(folder) => (format!("unzip {archive}"), folder.as_deref()),
        };
        let then = match folder {
            Some(folder) => format!("hames verify {}", quoted(Path::new(folder))),
            None => "hames verify, with the folder that comes out".to_owned(),
        };
        format!(
            "{} is an archive, and what is checked is the folder in it. Unpack it first: {unpack}; \
             then: {then}",
            path.display()
        )
    }
}

/// The first folder of the first name in an archive, where a shell takes it as it stands.
fn first_folder(name: &[u8]) -> Option<String> {
    let end = name.iter().position(|byte| *byte == b'/')?;
    let name = str::from_utf8(name.get(..end)?).ok()?;
    (is_plain(name) && !name.starts_with(['.', '-'])).then(|| name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_archive_is_known_by_how_it_begins_and_its_folder_by_the_first_name_in_it() {
        let mut tar = b"hames-export/.gitattributes".to_vec();
        tar.resize(257, 0);
        tar.extend(b"ustar\x0000");
        let zip = [
            b"PK\x03\x04".as_slice(),
            &[0; 26],
            b"barn/crew/allowed_signers",
        ]
        .concat();
        let named = |name: &str| Some(name.to_owned());
        for (start, archive) in [
            (tar.as_slice(), Some(Archive::Tar(named("hames-export")))),
            (&zip, Some(Archive::Zip(named("barn")))),
            (b"\x1f\x8b\x08", Some(Archive::Packed)),
            (b"BZh9", Some(Archive::Packed)),
            (b"{\"v\":1", None),
            (b"", None),
        ] {
            assert_eq!(Archive::of(start), archive);
        }
        for hostile in ["../x/y", "-rf/x", "a b/x", "$(reboot)/x", "/etc/x", "none"] {
            assert_eq!(first_folder(hostile.as_bytes()), None, "{hostile}");
        }
        assert_eq!(quoted(Path::new("my barn's.tar")), r"'my barn'\''s.tar'");
    }
}
