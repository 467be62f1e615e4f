//! What is on the pretended disk: what readers see, what is certain, and the changes between.

use hames::store::Mode;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

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

#[derive(Debug, Default)]
pub(super) struct State {
    pub(super) calls: usize,
    pub(super) trouble: Option<(usize, Trouble)>,
    pub(super) dead: bool,
    /// How many of the calls could change something.
    pub(super) changes: usize,
    /// Which ones.
    pub(super) changing: Vec<usize>,
    pub(super) nodes: Vec<Node>,
    pub(super) names: BTreeMap<PathBuf, usize>,
    pub(super) certain: BTreeMap<PathBuf, usize>,
    pub(super) moves: Vec<Move>,
    pub(super) locked: BTreeSet<usize>,
    /// Goes on with every change of a file.
    pub(super) time: u64,
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
        let node = self.names.get(path).copied();
        node.ok_or_else(|| ErrorKind::NotFound.into())
    }

    pub(super) fn add(&mut self, path: &Path, folder: bool, mode: Mode) -> io::Result<usize> {
        if self.names.contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        self.node(path.parent().expect("the root is there"))?;
        let node = self.nodes.len();
        let mode = Some(mode);
        self.nodes.push(Node {
            folder,
            mode,
            ..Node::default()
        });
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
        change.carry_out(&mut self.names);
        self.moves.push(change);
    }

    pub(super) fn write(&mut self, node: usize, at: usize, bytes: &[u8]) {
        let change = Change::Write(at, bytes.to_vec());
        let changed = self.tick();
        let node = &mut self.nodes[node];
        change.carry_out(&mut node.seen);
        node.pending.push(change);
        node.changed = changed;
    }

    pub(super) fn tick(&mut self) -> u64 {
        self.time += 1;
        self.time
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
