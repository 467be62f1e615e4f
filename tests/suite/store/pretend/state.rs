//! The pretended disk under way: what goes wrong, what is open, and how each change is made.

use super::image::Image;
use hames::store::Mode;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// The call fails with this error and does nothing.
    Refuses(ErrorKind),
    /// From this call on, every call that would change something fails with this error.
    RefusesChanges(ErrorKind),
    /// Half of the bytes are written, then the disk is full. Other calls fail.
    WritesHalf,
    /// Power goes before the call, and nothing answers any more.
    StopsBefore,
    /// The call is done, power goes before its answer.
    StopsAfter,
}

/// What a disk calls synced that is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lie {
    /// What was written to files.
    Bytes,
    /// The names in folders.
    Names,
}

#[derive(Debug, Default)]
pub(super) struct State {
    pub(super) lie: Option<Lie>,
    pub(super) calls: usize,
    pub(super) trouble: Option<(usize, Trouble)>,
    pub(super) dead: bool,
    /// How many of the calls could change something.
    pub(super) changes: usize,
    /// Which ones.
    pub(super) changing: Vec<usize>,
    pub(super) locked: BTreeSet<usize>,
    /// What lay there before and after each call that could change something, if it is filmed.
    pub(super) film: Option<Vec<Image>>,
    pub(super) image: Image,
}

#[derive(Clone, Debug, Default)]
pub(super) struct Node {
    pub(super) folder: bool,
    pub(super) seen: Vec<u8>,
    pub(super) certain: Vec<u8>,
    pub(super) pending: Vec<Change>,
    pub(super) mode: Option<Mode>,
    pub(super) changed: u64,
}

#[derive(Clone, Debug)]
pub(super) enum Change {
    Write(usize, Vec<u8>),
    Cut(usize),
}

/// A change of names in a folder that is not certain yet: all of it happens, or none.
#[derive(Clone, Debug)]
pub(super) struct Move {
    pub(super) folder: PathBuf,
    pub(super) gone: Option<PathBuf>,
    pub(super) given: Option<(PathBuf, usize)>,
}

impl Node {
    /// Whether no loss of power can take any of it.
    pub(super) fn is_certain(&self) -> bool {
        self.pending.is_empty() && self.seen == self.certain
    }
}

impl State {
    /// What goes wrong with this call, if anything.
    pub(super) fn trouble_at(&self, call: usize, changes: bool) -> Option<Trouble> {
        let (from, trouble) = self.trouble?;
        let hit = match trouble {
            Trouble::RefusesChanges(_) => changes && call >= from,
            _ => call == from,
        };
        hit.then_some(trouble)
    }

    pub(super) fn node(&self, path: &Path) -> io::Result<usize> {
        let node = self.image.names.get(path).copied();
        node.ok_or_else(|| ErrorKind::NotFound.into())
    }

    pub(super) fn add(&mut self, path: &Path, folder: bool, mode: Mode) -> io::Result<usize> {
        if self.image.names.contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        self.node(path.parent().expect("the root is there"))?;
        let node = self.image.nodes.len();
        let mode = Some(mode);
        self.image.nodes.push(Arc::new(Node {
            folder,
            mode,
            ..Node::default()
        }));
        self.turn(None, Some((path.to_owned(), node)));
        Ok(node)
    }

    pub(super) fn turn(&mut self, gone: Option<PathBuf>, given: Option<(PathBuf, usize)>) {
        let path = given.as_ref().map(|(path, _)| path).or(gone.as_ref());
        let folder = path
            .and_then(|path| path.parent())
            .expect("a folder")
            .to_owned();
        let change = Move {
            folder,
            gone,
            given,
        };
        change.carry_out(Arc::make_mut(&mut self.image.names));
        self.image.moves.push(change);
    }

    pub(super) fn write(&mut self, node: usize, at: usize, bytes: &[u8]) {
        let change = Change::Write(at, bytes.to_vec());
        let changed = self.tick();
        let node = self.image.node(node);
        change.carry_out(&mut node.seen);
        node.pending.push(change);
        node.changed = changed;
    }

    pub(super) fn tick(&mut self) -> u64 {
        self.image.time += 1;
        self.image.time
    }
}

impl Change {
    pub(super) fn carry_out(&self, bytes: &mut Vec<u8>) {
        match self {
            Self::Write(at, new) => {
                let end = at + new.len();
                bytes.resize(bytes.len().max(end), 0);
                bytes[*at..end].copy_from_slice(new);
            }
            Self::Cut(length) => bytes.resize(*length, 0),
        }
    }
}

impl Move {
    pub(super) fn carry_out(&self, names: &mut BTreeMap<PathBuf, usize>) {
        if let Some(path) = &self.gone {
            names.remove(path);
        }
        if let Some((path, node)) = &self.given {
            names.insert(path.clone(), *node);
        }
    }
}
