//! Files that lie beside a trip under another name: what each is, by what is in it. A file sync
//! that meets two versions of a file keeps both and thinks up a name for one.

use crate::record::{Begun, Chain, Digest, Finding, Said, Seal, read_chain};
use std::fmt;

/// What a file beside a trip is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Copy {
    /// The same bytes as this file of the trip.
    Same(&'static str),
    /// The same but for its line ends, which were changed on the way.
    Transit(&'static str),
    /// The beginning of this file.
    Beginning(&'static str),
    /// The trip's journal, with more lines.
    Longer {
        /// How many more.
        more: usize,
    },
    /// A journal of this trip that parts with the one here.
    OtherHistory {
        /// The first line that differs, counted from 1.
        line: usize,
    },
    /// A journal of another trip.
    OtherTrip,
    /// Another seal of this trip.
    OtherSeal,
    /// Another signature.
    OtherSignature,
    /// A journal of this trip with damage in it.
    Damaged,
    /// Nothing of a record.
    Foreign,
}

/// Judges a file by the files of the trip it lies beside, the journal first.
pub fn copy(bytes: &[u8], trip: &[(&'static str, &[u8])]) -> Copy {
    let whole = |wanted: &[u8]| {
        let mut files = trip.iter();
        files
            .find(|(_, file)| *file == wanted)
            .map(|(name, _)| *name)
    };
    if let Some(name) = whole(bytes) {
        return Copy::Same(name);
    }
    if let Some(name) = whole(&as_written(bytes)) {
        return Copy::Transit(name);
    }
    let beginning = trip
        .iter()
        .find(|(_, file)| !bytes.is_empty() && file.starts_with(bytes));
    if let Some((name, _)) = beginning {
        return Copy::Beginning(name);
    }
    let journal = trip.first().map_or(&[][..], |(_, file)| *file);
    let (chain, own) = (read_chain(bytes), read_chain(journal));
    if begun(&chain).is_some() {
        let mut seals = trip.iter().filter_map(|(_, file)| Seal::read(file).ok());
        return of_journals(&chain, &own, seals.next().as_ref());
    }
    if let Ok(seal) = Seal::read(bytes) {
        let same = begun(&own).is_some_and(|begun| begun.trip == seal.trip);
        return if same {
            Copy::OtherSeal
        } else {
            Copy::OtherTrip
        };
    }
    if bytes.starts_with(b"-----BEGIN SSH SIGNATURE-----") {
        return Copy::OtherSignature;
    }
    if bytes.starts_with(b"{\"v\":") {
        return Copy::Damaged;
    }
    Copy::Foreign
}

fn of_journals(chain: &Chain, own: &Chain, seal: Option<&Seal>) -> Copy {
    let trip = |chain: &Chain| begun(chain).map(|begun| (begun.device, begun.seq, begun.trip));
    if own.links.is_empty()
        || trip(chain).map(|of| (of.0, of.1)) != trip(own).map(|of| (of.0, of.1))
    {
        return Copy::OtherTrip;
    }
    if !chain.faults.is_empty() {
        return Copy::Damaged;
    }
    let hashes =
        |chain: &Chain| -> Vec<Digest> { chain.links.iter().map(|link| link.hash).collect() };
    let (theirs, ours) = (hashes(chain), hashes(own));
    let same = theirs.iter().zip(&ours).take_while(|(a, b)| a == b).count();
    if same == ours.len() && own.faults.is_empty() {
        let more = theirs.len().saturating_sub(same);
        return Copy::Longer { more };
    }
    // Nothing stands on a last line, and here another was sealed in its place.
    let is_sealed = seal.is_some_and(|seal| Some(&seal.last) == ours.last());
    if is_sealed && theirs.len() == ours.len() && same + 1 == ours.len() {
        return Copy::Damaged;
    }
    Copy::OtherHistory { line: same + 1 }
}

fn begun(chain: &Chain) -> Option<Begun> {
    match &chain.links.first()?.said {
        Ok(Said::Begun(begun)) => Some((**begun).clone()),
        _ => None,
    }
}

/// Without what a text conversion adds.
fn as_written(bytes: &[u8]) -> Vec<u8> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let mut written = Vec::with_capacity(bytes.len());
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        match line.strip_suffix(b"\r\n") {
            Some(text) => {
                written.extend(text);
                written.push(b'\n');
            }
            None => written.extend(line),
        }
    }
    written
}

impl Copy {
    /// What it amounts to: a copy that says nothing else takes nothing away.
    pub const fn finding(&self) -> Finding {
        match self {
            Self::Same(_)
            | Self::Transit(_)
            | Self::Beginning(_)
            | Self::Longer { .. }
            | Self::Foreign => Finding::Intact,
            Self::OtherHistory { .. } | Self::OtherSeal => Finding::Fork,
            Self::OtherTrip | Self::OtherSignature | Self::Damaged => Finding::Altered,
        }
    }
}

impl fmt::Display for Copy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Same(name) => write!(f, "a harmless copy of {name}"),
            Self::Transit(name) => write!(
                f,
                "a harmless copy of {name}, its line endings changed in transit; put the line “* -text” into .gitattributes and turn off text conversion in the copying tool"
            ),
            Self::Beginning(name) => write!(f, "a beginning of {name}, which has more"),
            Self::Longer { more } => write!(
                f,
                "the journal with {more} more {}; hames logbook merge takes it in",
                if *more == 1 { "line" } else { "lines" }
            ),
            Self::OtherHistory { line } => write!(
                f,
                "another history of this trip, from line {line} on; both are kept, and neither is chosen"
            ),
            Self::OtherTrip => write!(f, "of another trip, and does not belong here"),
            Self::OtherSeal => write!(
                f,
                "another seal of this trip; both are kept, and neither is chosen"
            ),
            Self::OtherSignature => write!(f, "another signature than the one beside it"),
            Self::Damaged => write!(f, "a damaged copy of the record"),
            Self::Foreign => write!(f, "no part of the record, and was not looked at"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_is_told_by_what_is_in_it() {
        let files: [(&str, &[u8]); 2] = [
            ("trip.jsonl", b"{\"a\":1}\n{\"b\":2}\n"),
            ("rig.yaml", b"id: x\n"),
        ];
        for (bytes, is) in [
            (&b"id: x\n"[..], Copy::Same("rig.yaml")),
            (b"id: x\r\n", Copy::Transit("rig.yaml")),
            (b"\xef\xbb\xbfid: x\n", Copy::Transit("rig.yaml")),
            (b"{\"a\":1}\n{\"b", Copy::Beginning("trip.jsonl")),
            (b"", Copy::Foreign),
            (b"notes", Copy::Foreign),
            (b"{\"v\":1,\"i\":0\r\n", Copy::Damaged),
            (b"-----BEGIN SSH SIGNATURE-----\n", Copy::OtherSignature),
        ] {
            assert_eq!(copy(bytes, &files), is);
        }
    }
}
