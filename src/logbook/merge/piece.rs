//! What a file is, by its content alone. Names and dates mean nothing: a sync tool gives a copy
//! whatever name it likes.

use crate::record::{
    Approved, Begun, Crew, Digest, Envelope, Id, Mode, Said, Seal, Statement, TRANSIT, Tag,
    Unreadable, said,
};
use std::fmt;

/// A trip as every file of it names it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct TripKey {
    /// The device.
    pub device: Id,
    /// Its place there.
    pub seq: u64,
    /// The trip.
    pub trip: Id,
}

/// What a file is.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A journal: its first line begins a walk.
    Journal(Box<Beginning>),
    /// A seal.
    Seal(Box<Seal>),
    /// A manager's statement.
    Statement(Box<Statement>),
    /// An approval of a checklist.
    Approval(Box<Approved>),
    /// An OpenSSH signature, of whatever.
    Signature,
    /// A crew file.
    Crew(Box<Crew>),
    /// A checklist, a rig, or nothing of ours.
    Other,
    /// One line that was not finished: what a crash left. Nobody ever called it recorded.
    Torn,
    /// Nothing: its bytes have not arrived.
    Empty,
    /// What was a record, and is none any more.
    Damaged(Damage),
}

/// What the first line of a journal binds, as far as files are put together by it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beginning {
    /// The trip.
    pub key: TripKey,
    /// Whether it counts.
    pub mode: Mode,
    /// The plain hashes of checklist, rig and crew file.
    pub texts: [Digest; 3],
    /// The hash of the line.
    pub line: Digest,
}

/// What became of a file that was a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Damage {
    /// Its line endings were changed, or a byte order mark was put in front.
    InTransit,
    /// It cannot be read.
    Unreadable(Unreadable),
    /// A journal without its beginning.
    NoBeginning,
}

const MARK: &[u8] = b"\xef\xbb\xbf";

/// Tells what a file is.
pub(super) fn what(bytes: &[u8]) -> What {
    if bytes.is_empty() {
        return What::Empty;
    }
    match plain(bytes) {
        What::Other => {}
        known => return known,
    }
    // Only what a copying tool did is undone to look; what is kept stays as it was found.
    match untouched(bytes).map(|bytes| plain(&bytes)) {
        None | Some(What::Other | What::Empty | What::Torn) => What::Other,
        Some(_) => What::Damaged(Damage::InTransit),
    }
}

/// The bytes as they were before a tool changed line endings or put a mark in front; nothing where
/// no tool did.
pub(super) fn untouched(bytes: &[u8]) -> Option<Vec<u8>> {
    let rest = bytes.strip_prefix(MARK).unwrap_or(bytes);
    let mut lines = rest.split_inclusive(|byte| *byte == b'\n');
    let mut before = Vec::with_capacity(rest.len());
    for line in &mut lines {
        match line.strip_suffix(b"\r\n") {
            Some(line) => before.extend(line.iter().chain(b"\n")),
            None => before.extend(line),
        }
    }
    (before != bytes).then_some(before)
}

fn plain(bytes: &[u8]) -> What {
    if bytes.starts_with(b"{\"v\":") {
        return record(bytes);
    }
    if bytes.starts_with(b"-----BEGIN SSH SIGNATURE-----\n") {
        return What::Signature;
    }
    match Crew::read(bytes) {
        Ok(crew) if !crew.signers().is_empty() => What::Crew(Box::new(crew)),
        _ => What::Other,
    }
}

/// One line or more of JSON in our own spelling.
fn record(bytes: &[u8]) -> What {
    let Some(end) = bytes.iter().position(|byte| *byte == b'\n') else {
        return What::Torn;
    };
    let (first, rest) = bytes.split_at(end);
    if first.ends_with(b"\r") {
        return What::Other;
    }
    let journal = Envelope::read(first).and_then(|line| said(&line));
    match journal {
        Ok(Said::Begun(begun)) => return What::Journal(Box::new(Beginning::of(&begun, first))),
        Ok(Said::Happened(_) | Said::Drilled(_)) => return What::Damaged(Damage::NoBeginning),
        Err(_) => {}
    }
    if let Ok(seal) = Seal::read(bytes) {
        return What::Seal(Box::new(seal));
    }
    let statement = match Statement::read(bytes) {
        Ok(statement) => return What::Statement(Box::new(statement)),
        Err(reason) => reason,
    };
    if let Ok(approval) = Approved::read(bytes) {
        return What::Approval(Box::new(approval));
    }
    // Which of the four it was can only be guessed, and the reason is told in its terms.
    let holds = |word: &[u8]| first.windows(word.len()).any(|window| window == word);
    What::Damaged(Damage::Unreadable(match journal {
        Err(reason) if rest.len() > 1 || holds(b"\"kind\":\"begun\"") => reason,
        _ if holds(b"\"counts\":") => Seal::read(bytes).err().unwrap_or(statement),
        _ if holds(b"\"checklist\":") => Approved::read(bytes).err().unwrap_or(statement),
        _ => statement,
    }))
}

/// Whether the bytes are a whole record, or begin one, whatever they are called.
pub fn is_record(bytes: &[u8]) -> bool {
    let what = what(bytes);
    what.is_record() && !matches!(what, What::Damaged(_))
}

/// The trip that a file says it is of, damaged or not: a journal by its first line, or a seal.
pub fn says_it_is_of(bytes: &[u8]) -> Option<TripKey> {
    let written = untouched(bytes).unwrap_or_else(|| bytes.to_vec());
    match plain(&written) {
        What::Journal(beginning) => Some(beginning.key),
        What::Seal(seal) => Some(TripKey::sealed(&seal)),
        _ => None,
    }
}

impl Beginning {
    fn of(begun: &Begun, line: &[u8]) -> Self {
        Self {
            key: TripKey::of(begun),
            mode: begun.mode,
            texts: [begun.checklist.hash, begun.rig.hash, begun.crew],
            line: Digest::tagged(Tag::Line, line),
        }
    }
}

impl TripKey {
    /// The trip a seal says it closes.
    pub fn sealed(seal: &Seal) -> Self {
        Self {
            device: seal.device.clone(),
            seq: seal.seq,
            trip: seal.trip.clone(),
        }
    }

    /// The trip that begins so.
    pub fn of(begun: &Begun) -> Self {
        Self {
            device: begun.device.clone(),
            seq: begun.seq,
            trip: begun.trip.clone(),
        }
    }
}

impl What {
    /// Whether it is one of the files a logbook is made of, so that what lies beside it may be one.
    pub const fn is_record(&self) -> bool {
        !matches!(self, Self::Other | Self::Empty | Self::Torn | Self::Crew(_))
    }
}

impl fmt::Display for TripKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "trip {} of {}", self.seq, self.device)
    }
}

impl fmt::Display for Damage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::InTransit => f.write_str(TRANSIT),
            Self::Unreadable(reason) => write!(f, "it looks like a record, and {reason}"),
            Self::NoBeginning => f.write_str("it is a journal without its first lines"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIGNATURE: &[u8] = b"-----BEGIN SSH SIGNATURE-----\nU1NI\n-----END SSH SIGNATURE-----\n";

    #[test]
    fn what_a_copying_tool_did_to_a_record_is_known_by_its_bytes() {
        assert_eq!(what(SIGNATURE), What::Signature);
        let text = std::str::from_utf8(SIGNATURE).unwrap();
        let carried = text.replace('\n', "\r\n");
        assert_eq!(what(carried.as_bytes()), What::Damaged(Damage::InTransit));
        let marked = [MARK, SIGNATURE].concat();
        assert_eq!(what(&marked), What::Damaged(Damage::InTransit));
        assert_eq!(untouched(carried.as_bytes()).unwrap(), SIGNATURE);
        assert_eq!(untouched(SIGNATURE), None);
    }

    #[test]
    fn what_is_no_record_is_left_to_be_a_text_or_nothing_of_ours() {
        assert_eq!(what(b""), What::Empty);
        assert_eq!(what(b"{\"v\":1,\"i\":3,\"pr"), What::Torn);
        for other in [
            &b"id: bench\n"[..],
            b"\xff\xd8\xff",
            b"\n",
            b"# crew\n",
            b"a\r\nb\r\n",
        ] {
            assert_eq!(what(other), What::Other);
        }
        let odd = what(b"{\"v\":1}\n");
        assert!(matches!(odd, What::Damaged(Damage::Unreadable(_))));
    }
}
