//! A disk in memory that fails or loses power at a chosen call, and then shows what is left.
//!
//! It keeps no more than POSIX promises: bytes are certain after the file's sync, names after the
//! folder's, and until then each write, each part of a write and each name may be lost or kept on
//! its own. A failed sync loses what it should have kept, yet readers go on seeing it.

mod fate;
mod image;
mod state;

pub(crate) use fate::Fate;
use hames::store::{Disk, Entry, Kind, Mode, Stamp};
pub(crate) use image::Image;
use state::{Change, Move, Node, State};
pub(crate) use state::{Lie, Trouble};
use std::cell::RefCell;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

/// The disk. Clones are the same disk.
#[derive(Clone, Debug, Default)]
pub(crate) struct Pretend(Rc<RefCell<State>>);

/// An open file of the disk; dropping it gives up its lock.
#[derive(Debug)]
pub(crate) struct Open {
    node: usize,
    holds: RefCell<bool>,
    disk: Pretend,
}

impl Drop for Open {
    fn drop(&mut self) {
        if *self.holds.borrow() {
            self.disk.0.borrow_mut().locked.remove(&self.node);
        }
    }
}

impl Pretend {
    /// A disk with nothing but a root folder.
    pub(crate) fn empty() -> Self {
        let folder = true;
        let root = Node {
            folder,
            ..Node::default()
        };
        let names = Arc::new([(PathBuf::from("/"), 0)].into());
        Self::with(Image {
            nodes: vec![Arc::new(root)],
            certain: Arc::clone(&names),
            names,
            ..Image::default()
        })
    }

    /// A disk on which this lies.
    pub(crate) fn with(image: Image) -> Self {
        Self(Rc::new(RefCell::new(State {
            image,
            ..State::default()
        })))
    }

    /// The same disk, which lies from now on.
    pub(crate) fn lying(self, lie: Lie) -> Self {
        self.0.borrow_mut().lie = Some(lie);
        self
    }

    /// What lies on the disk now.
    pub(crate) fn image(&self) -> Image {
        self.0.borrow().image.clone()
    }

    /// From now on it is kept what lay there before and after each call.
    pub(crate) fn film(&self) {
        let mut state = self.0.borrow_mut();
        state.film = Some(vec![state.image.clone()]);
    }

    /// What was filmed. Of a call that only looks there is no picture of its own: it is that after
    /// the call before it.
    pub(crate) fn filmed(&self) -> Vec<Image> {
        self.0.borrow_mut().film.take().unwrap_or_default()
    }

    /// From now on, the call after `calls` more goes wrong.
    pub(crate) fn trouble_after(&self, calls: usize, trouble: Trouble) {
        let mut state = self.0.borrow_mut();
        state.trouble = Some((state.calls + calls, trouble));
    }

    /// Nothing goes wrong any more.
    pub(crate) fn mend(&self) {
        self.0.borrow_mut().trouble = None;
    }

    /// Whether something may still go wrong, or is going wrong.
    pub(crate) fn is_troubled(&self) -> bool {
        self.0.borrow().trouble.is_some()
    }

    /// Whether the power went.
    pub(crate) fn is_dead(&self) -> bool {
        self.0.borrow().dead
    }

    /// How many calls there were.
    pub(crate) fn calls(&self) -> usize {
        self.0.borrow().calls
    }

    /// How many of them could change something.
    pub(crate) fn changes(&self) -> usize {
        self.0.borrow().changes
    }

    /// Which of the calls could change something, by their number.
    pub(crate) fn changing_calls(&self) -> Vec<usize> {
        self.0.borrow().changing.clone()
    }

    /// The disk as another process finds it after this one died with the power on.
    pub(crate) fn after_death(&self) -> Self {
        Self::with(self.image())
    }

    /// The disk as it is found when the power is back.
    pub(crate) fn after_power_loss(&self, fate: Fate) -> Self {
        Self::with(self.0.borrow().image.after_power_loss(fate))
    }

    /// Every file that a loss of power may take or change.
    pub(crate) fn uncertain(&self) -> Vec<PathBuf> {
        self.0.borrow().image.uncertain()
    }

    /// The bytes a reader sees, if the file is there.
    pub(crate) fn seen(&self, path: &Path) -> Option<Vec<u8>> {
        let image = &self.0.borrow().image;
        let node = image.names.get(path)?;
        Some(image.nodes[*node].seen.clone())
    }

    /// The bytes of a file that no loss of power can take, if its name is certain too.
    pub(crate) fn certain(&self, path: &Path) -> Option<Vec<u8>> {
        let image = &self.0.borrow().image;
        let named = path
            .ancestors()
            .all(|above| image.certain.contains_key(above));
        let node = image.certain.get(path).filter(|_| named)?;
        Some(image.nodes[*node].certain.clone())
    }

    /// Who may read what lies there.
    pub(crate) fn mode(&self, path: &Path) -> Option<Mode> {
        let image = &self.0.borrow().image;
        image.nodes[*image.names.get(path)?].mode
    }

    /// Every file, by name.
    pub(crate) fn files(&self) -> Vec<PathBuf> {
        let image = &self.0.borrow().image;
        let is_file = |node: &usize| !image.nodes[*node].folder;
        let files = image.names.iter().filter(|(_, node)| is_file(node));
        files.map(|(path, _)| path.clone()).collect()
    }

    /// Makes a file with these bytes, and the folders it lies in, all certain.
    pub(crate) fn place(&self, path: &Path, bytes: &[u8]) {
        let mut state = self.0.borrow_mut();
        let changed = state.tick();
        let image = &mut state.image;
        for above in path.ancestors().skip(1) {
            if !image.names.contains_key(above) {
                let folder = true;
                image.put(
                    above,
                    Node {
                        folder,
                        ..Node::default()
                    },
                );
            }
        }
        image.put(
            path,
            Node {
                seen: bytes.to_vec(),
                certain: bytes.to_vec(),
                changed,
                ..Node::default()
            },
        );
    }

    /// Takes a folder away, with all below it, as one pulls out a stick.
    pub(crate) fn take_away(&self, folder: &Path) {
        let image = &mut self.0.borrow_mut().image;
        Arc::make_mut(&mut image.names).retain(|path, _| !path.starts_with(folder));
        Arc::make_mut(&mut image.certain).retain(|path, _| !path.starts_with(folder));
    }

    /// One call: counts it, lets the trouble happen, or does it. `half` is what a half-done
    /// write does.
    fn call<T>(
        &self,
        changes: bool,
        half: impl FnOnce(&mut State),
        act: impl FnOnce(&mut State) -> io::Result<T>,
    ) -> io::Result<T> {
        let state = &mut *self.0.borrow_mut();
        if state.dead {
            return Err(io::Error::other("no power"));
        }
        let now = state.calls;
        state.calls += 1;
        state.changes += usize::from(changes);
        state.changing.extend(changes.then_some(now));
        match state.trouble_at(now, changes) {
            None => {
                let answer = act(state);
                if changes && let Some(film) = &mut state.film {
                    film.push(state.image.clone());
                }
                answer
            }
            Some(Trouble::Refuses(kind) | Trouble::RefusesChanges(kind)) => {
                half(state);
                Err(kind.into())
            }
            Some(Trouble::WritesHalf) => {
                half(state);
                Err(ErrorKind::StorageFull.into())
            }
            Some(Trouble::StopsBefore) => {
                state.dead = true;
                Err(io::Error::other("no power"))
            }
            Some(Trouble::StopsAfter) => {
                drop(act(state));
                state.dead = true;
                Err(io::Error::other("no power"))
            }
        }
    }

    fn change<T>(&self, act: impl FnOnce(&mut State) -> io::Result<T>) -> io::Result<T> {
        self.call(true, |_| (), act)
    }

    fn look<T>(&self, act: impl FnOnce(&mut State) -> io::Result<T>) -> io::Result<T> {
        self.call(false, |_| (), act)
    }

    fn opened(&self, node: usize) -> Open {
        let holds = RefCell::new(false);
        let disk = self.clone();
        Open { node, holds, disk }
    }
}

impl Disk for Pretend {
    type File = Open;

    fn create_new(&self, path: &Path, mode: Mode) -> io::Result<Open> {
        let node = self.change(|state| state.add(path, false, mode))?;
        Ok(self.opened(node))
    }

    fn open(&self, path: &Path) -> io::Result<Open> {
        let node = self.look(|state| state.node(path))?;
        Ok(self.opened(node))
    }

    fn try_lock(&self, file: &Open) -> io::Result<bool> {
        let got = self.look(|state| Ok(state.locked.insert(file.node)))?;
        *file.holds.borrow_mut() |= got;
        Ok(got)
    }

    fn read_back(&self, file: &mut Open, most: usize) -> io::Result<Vec<u8>> {
        self.look(|state| at_most(&state.image.nodes[file.node], most))
    }

    fn write_at(&self, file: &mut Open, at: u64, bytes: &[u8]) -> io::Result<()> {
        let at = usize::try_from(at).expect("a small file");
        let halves = matches!(self.0.borrow().trouble, Some((_, Trouble::WritesHalf)));
        let part = if halves {
            &bytes[..bytes.len() / 2]
        } else {
            &[][..]
        };
        self.call(
            true,
            |state| state.write(file.node, at, part),
            |state| {
                state.write(file.node, at, bytes);
                Ok(())
            },
        )
    }

    fn cut(&self, file: &mut Open, length: u64) -> io::Result<()> {
        let length = usize::try_from(length).expect("a small file");
        self.change(|state| {
            let changed = state.tick();
            let node = state.image.node(file.node);
            node.seen.resize(length, 0);
            node.pending.push(Change::Cut(length));
            node.changed = changed;
            Ok(())
        })
    }

    fn sync(&self, file: &mut Open) -> io::Result<()> {
        self.call(
            true,
            |state| state.image.node(file.node).pending.clear(),
            |state| {
                if state.lie == Some(Lie::Bytes) {
                    return Ok(());
                }
                let node = state.image.node(file.node);
                for change in std::mem::take(&mut node.pending) {
                    change.carry_out(&mut node.certain);
                }
                Ok(())
            },
        )
    }

    fn make_folder(&self, path: &Path, mode: Mode) -> io::Result<()> {
        self.change(|state| state.add(path, true, mode).map(drop))
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.change(|state| {
            state.node(path)?;
            if state.lie == Some(Lie::Names) {
                return Ok(());
            }
            let image = &mut state.image;
            let moves = std::mem::take(&mut image.moves);
            let (here, elsewhere) = moves.into_iter().partition(|change| change.folder == path);
            let here: Vec<Move> = here;
            image.moves = elsewhere;
            for change in here {
                change.carry_out(Arc::make_mut(&mut image.certain));
            }
            Ok(())
        })
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.change(|state| {
            let node = state.node(from)?;
            state.turn(Some(from.to_owned()), Some((to.to_owned(), node)));
            Ok(())
        })
    }

    fn rename_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.change(|state| {
            let node = state.node(from)?;
            if state.image.names.contains_key(to) {
                return Err(ErrorKind::AlreadyExists.into());
            }
            state.turn(None, Some((to.to_owned(), node)));
            state.turn(Some(from.to_owned()), None);
            Ok(())
        })
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.change(|state| {
            state.node(path)?;
            let mut below = state.image.names.range(path.to_owned()..).skip(1);
            if below.next().is_some_and(|(name, _)| name.starts_with(path)) {
                return Err(ErrorKind::DirectoryNotEmpty.into());
            }
            state.turn(Some(path.to_owned()), None);
            Ok(())
        })
    }

    fn read(&self, path: &Path, most: usize) -> io::Result<Vec<u8>> {
        self.look(|state| at_most(a_file(&state.image.nodes[state.node(path)?])?, most))
    }

    fn exists(&self, path: &Path) -> io::Result<bool> {
        self.look(|state| Ok(state.image.names.contains_key(path)))
    }

    fn stamp(&self, path: &Path) -> io::Result<Stamp> {
        self.look(|state| {
            let node = a_file(&state.image.nodes[state.node(path)?])?;
            Ok(Stamp {
                bytes: node.seen.len().try_into().expect("a small file"),
                changed: node.changed,
            })
        })
    }

    fn list(&self, path: &Path) -> io::Result<Vec<Entry>> {
        self.look(|state| {
            state.node(path)?;
            let below = state.image.names.range(path.to_owned()..);
            let below = below.take_while(|(name, _)| name.starts_with(path));
            let here = below.filter(|(name, _)| name.parent() == Some(path));
            Ok(here
                .map(|(name, node)| Entry {
                    name: name.file_name().expect("not the root").to_owned(),
                    kind: if state.image.nodes[*node].folder {
                        Kind::Folder
                    } else {
                        Kind::File
                    },
                })
                .collect())
        })
    }
}

/// A folder is not read as a file.
fn a_file(node: &Node) -> io::Result<&Node> {
    (!node.folder)
        .then_some(node)
        .ok_or_else(|| ErrorKind::InvalidInput.into())
}

fn at_most(node: &Node, most: usize) -> io::Result<Vec<u8>> {
    if node.seen.len() > most {
        return Err(ErrorKind::FileTooLarge.into());
    }
    Ok(node.seen.clone())
}
