//! The chain: every line names the hash of the exact bytes before it.

use crate::record::wire::{self, Said};
use crate::record::{
    Body, Digest, Envelope, Heading, Id, Tag, Unreadable, Version, Wall, split_torn,
};
use crate::walk::Words;
use memchr::memchr_iter;
use std::fmt;

/// Most bytes of a journal.
pub const MAX_TRIP: usize = 16 * 1024 * 1024;

/// A journal as found: what can be relied on, what is wrong, and how it ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// The lines before the first fault.
    pub links: Vec<Link>,
    /// How the file ends.
    pub tail: Tail,
    /// Everything wrong with whole lines, in the order of the file.
    pub faults: Vec<ChainFault>,
}

/// A line that stands where it says it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// What stands before its body.
    pub heading: Heading,
    /// What it says, or why that cannot be read.
    pub said: Result<Said, Unreadable>,
    /// The hash the next line, or the seal, has to name.
    pub hash: Digest,
}

/// How a journal ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tail {
    /// With a line end.
    Whole,
    /// With these bytes of a line that was not finished: without a line end, or with a NUL where a
    /// part of it never arrived.
    Torn(Vec<u8>),
}

/// What is wrong with a journal. Lines are counted from 1, as `sed -n 7p` counts them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChainFault {
    /// More bytes than a journal may have; nothing was read.
    Long(usize),
    /// A line that cannot be read.
    Unreadable(usize, Unreadable),
    /// A line that says it stands in another place.
    Place {
        /// The line.
        line: usize,
        /// The index it gives, from 0.
        says: u64,
    },
    /// A line that was not written after the line now before it.
    Broken(usize),
}

/// What a new line is made of; index and hash come from the [`Tip`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parts {
    /// The version it is written in.
    pub version: Version,
    /// The wall clock.
    pub wall: Wall,
    /// Milliseconds since the machine started.
    pub mono: u64,
    /// Which start of the machine that was.
    pub boot: Words,
    /// Who acted.
    pub actor: Words,
    /// What kind of act it is.
    pub kind: Id,
    /// The parts.
    pub body: Body,
}

/// Where the next line goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tip {
    /// Lines so far.
    pub lines: u64,
    /// Hash of the last of them.
    pub last: Digest,
}

/// Reads a journal. Every line is looked at, whatever stands before it; it never panics.
pub fn read_chain(bytes: &[u8]) -> Chain {
    let mut chain = Chain {
        links: Vec::new(),
        tail: Tail::Whole,
        faults: Vec::new(),
    };
    if bytes.len() > MAX_TRIP {
        chain.faults.push(ChainFault::Long(bytes.len()));
        return chain;
    }
    let (whole, torn) = split_torn(bytes);
    if !torn.is_empty() {
        chain.tail = Tail::Torn(torn.to_vec());
    }
    let mut tip = Tip::START;
    chain.links.reserve(memchr_iter(b'\n', whole).count());
    let mut start = 0;
    for (number, end) in (1..).zip(memchr_iter(b'\n', whole)) {
        let line = whole.get(start..end).unwrap_or_default();
        start = end + 1;
        let hash = Digest::tagged(Tag::Line, line);
        match link(line, number, tip, hash) {
            Ok(next) if chain.faults.is_empty() => chain.links.push(next),
            Ok(_) => {}
            Err(fault) if chain.is_more_of_the_same(&fault) => {}
            Err(fault) => chain.faults.push(fault),
        }
        tip = tip.after(hash);
    }
    chain
}

fn link(line: &[u8], number: usize, tip: Tip, hash: Digest) -> Result<Link, ChainFault> {
    let read = wire::read(line).map_err(|reason| ChainFault::Unreadable(number, reason));
    let (heading, said) = read?;
    if heading.index != tip.lines {
        let says = heading.index;
        return Err(ChainFault::Place { line: number, says });
    }
    if heading.prev != tip.last {
        return Err(ChainFault::Broken(number));
    }
    Ok(Link {
        heading,
        said,
        hash,
    })
}

impl Chain {
    /// Whether there is at least one line, and all are whole, readable and in their place.
    ///
    /// A journal cut between two lines is intact too: only its seal can say that it is complete.
    pub fn is_intact(&self) -> bool {
        !self.links.is_empty() && self.faults.is_empty() && self.tail == Tail::Whole
    }

    /// Where the next line goes, after the lines that can be relied on.
    pub fn tip(&self) -> Tip {
        self.links
            .iter()
            .fold(Tip::START, |tip, link| tip.after(link.hash))
    }

    /// A copying tool changes every line end; the first says it all.
    fn is_more_of_the_same(&self, fault: &ChainFault) -> bool {
        let transit = |fault: &ChainFault| match fault {
            ChainFault::Unreadable(_, reason) => reason == &Unreadable::CarriageReturn,
            _ => false,
        };
        transit(fault) && self.faults.iter().any(transit)
    }
}

impl Tip {
    /// The tip of a journal without lines.
    pub const START: Self = Self {
        lines: 0,
        last: Digest::ZERO,
    };

    /// The exact bytes to append for a line of these parts, line end included, and the tip once they are stored.
    ///
    /// # Errors
    /// [`Unreadable`] when the line would be too long.
    pub fn append(self, parts: Parts) -> Result<(Vec<u8>, Self), Unreadable> {
        let heading = Heading {
            version: parts.version,
            index: self.lines,
            prev: self.last,
            wall: parts.wall,
            mono: parts.mono,
            boot: parts.boot,
            actor: parts.actor,
            kind: parts.kind,
        };
        let body = parts.body;
        let mut bytes = Envelope { heading, body }.write()?;
        let next = self.after(Digest::tagged(Tag::Line, &bytes));
        bytes.push(b'\n');
        Ok((bytes, next))
    }

    pub(crate) const fn after(self, last: Digest) -> Self {
        Self {
            lines: self.lines.saturating_add(1),
            last,
        }
    }
}

impl ChainFault {
    /// The line the fault is on, from 1; a fault of the whole file is on its first.
    pub const fn line(&self) -> usize {
        match self {
            Self::Long(_) => 1,
            Self::Unreadable(line, _) | Self::Place { line, .. } | Self::Broken(line) => *line,
        }
    }
}

impl fmt::Display for ChainFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Long(bytes) => write!(
                f,
                "the journal has {bytes} bytes and {MAX_TRIP} is the most; it was not read"
            ),
            Self::Unreadable(line, reason) => write!(f, "line {line} cannot be read: {reason}"),
            Self::Place { line, says } => write!(
                f,
                "line {line} says it is line {}; a line was put in, taken out or moved",
                says.saturating_add(1)
            ),
            Self::Broken(1) => write!(
                f,
                "line 1 says that another line came before it; the start of the journal is missing"
            ),
            Self::Broken(line) => write!(
                f,
                "line {line} does not follow line {}: one of the two was changed after it was written",
                line.saturating_sub(1)
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> Parts {
        Parts {
            version: Version::V1,
            wall: Wall::read("2026-11-25T07:14:03.250-05:00").unwrap(),
            mono: 5,
            boot: Words::read("5f0c").unwrap(),
            actor: Words::read("Wren Ashdown").unwrap(),
            kind: Id::read("note").unwrap(),
            body: Body::read(&format!("{{\"text\":\"{text}\"}}")).unwrap(),
        }
    }

    fn journal(notes: &[&str]) -> Vec<Vec<u8>> {
        let mut tip = Tip::START;
        let append = |note: &&str| {
            let (bytes, next) = tip.append(parts(note)).unwrap();
            tip = next;
            bytes
        };
        notes.iter().map(append).collect()
    }

    fn faults(lines: &[Vec<u8>]) -> Vec<String> {
        let chain = read_chain(&lines.concat());
        chain.faults.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn what_was_appended_reads_back_as_an_intact_chain() {
        let lines = journal(&["pin in", "chains crossed", "lights good"]);
        let chain = read_chain(&lines.concat());
        assert!(chain.is_intact());
        assert_eq!(chain.links.len(), 3);
        assert_eq!(chain.links[2].heading.index, 2);
        assert_eq!(chain.tip().last, chain.links[2].hash);
        assert_eq!(
            chain.links[1].heading.prev,
            Digest::of(&[b"hames-line/1\0", lines[0].trim_ascii_end()].concat())
        );
    }

    #[test]
    fn a_line_put_in_taken_out_moved_or_changed_is_named() {
        let lines = journal(&["a", "b", "c", "d"]);
        let of =
            |order: &[usize]| -> Vec<_> { order.iter().map(|at| lines[*at].clone()).collect() };
        assert_eq!(faults(&of(&[0, 1, 2, 3])), [""; 0]);
        assert_eq!(
            faults(&of(&[0, 2, 3])),
            [
                "line 2 says it is line 3; a line was put in, taken out or moved",
                "line 3 says it is line 4; a line was put in, taken out or moved"
            ]
        );
        assert_eq!(faults(&of(&[0, 1, 1, 2, 3])).len(), 3);
        assert_eq!(faults(&of(&[0, 2, 1, 3])).len(), 3);
        let mut changed = lines.clone();
        changed[1] = String::from_utf8(changed[1].clone())
            .unwrap()
            .replace("\"b\"", "\"x\"")
            .into();
        assert_eq!(
            faults(&changed),
            ["line 3 does not follow line 2: one of the two was changed after it was written"]
        );
    }

    #[test]
    fn every_fault_is_told_not_only_the_first() {
        let mut lines = journal(&["a", "b", "c", "d", "e"]);
        lines[1] = b"{}\n".to_vec();
        lines[3] = b"\n".to_vec();
        let told = faults(&lines);
        let places: Vec<_> = told.iter().map(|fault| &fault[..6]).collect();
        assert_eq!(places, ["line 2", "line 3", "line 4", "line 5"]);
        assert_eq!(told[2], "line 4 cannot be read: it is blank");
    }

    #[test]
    fn a_torn_last_line_is_set_aside_and_the_others_stand() {
        let lines = journal(&["a", "b"]);
        let mut bytes = lines.concat();
        bytes.truncate(bytes.len() - 1);
        let chain = read_chain(&bytes);
        assert_eq!(chain.tail, Tail::Torn(lines[1].trim_ascii_end().to_vec()));
        assert_eq!((chain.links.len(), chain.faults.len()), (1, 0));
        assert!(!chain.is_intact());
    }

    #[test]
    fn changed_line_ends_are_told_once() {
        let lines = journal(&["a", "b", "c"]);
        let crlf = String::from_utf8(lines.concat())
            .unwrap()
            .replace('\n', "\r\n");
        let chain = read_chain(crlf.as_bytes());
        assert_eq!(chain.faults.len(), 1);
        assert!(chain.faults[0].to_string().contains("changed in transit"));
        assert!(chain.links.is_empty());
    }

    #[test]
    fn nothing_and_too_much_are_not_intact() {
        assert!(!read_chain(b"").is_intact());
        let long = read_chain(&vec![b'\n'; MAX_TRIP + 1]);
        assert_eq!(long.faults, [ChainFault::Long(MAX_TRIP + 1)]);
    }
}
