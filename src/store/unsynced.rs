//! This computer's disk, except that nobody waits until anything is on it: for what is invented and
//! can be made again. Records of a barn never go this way.

use crate::store::{Disk, Entry, Local, Mode, Stamp};
use std::fs::File;
use std::io;
use std::path::Path;

/// The files are real; when what was written is on the disk is left to the system.
#[derive(Clone, Copy, Debug)]
pub struct Unsynced;

impl Disk for Unsynced {
    type File = File;

    fn sync(&self, _file: &mut File) -> io::Result<()> {
        Ok(())
    }

    fn sync_folder(&self, _path: &Path) -> io::Result<()> {
        Ok(())
    }

    fn create_new(&self, path: &Path, mode: Mode) -> io::Result<File> {
        Local.create_new(path, mode)
    }

    fn open(&self, path: &Path) -> io::Result<File> {
        Local.open(path)
    }

    fn try_lock(&self, file: &File) -> io::Result<bool> {
        Local.try_lock(file)
    }

    fn read_back(&self, file: &mut File, most: usize) -> io::Result<Vec<u8>> {
        Local.read_back(file, most)
    }

    fn write_at(&self, file: &mut File, at: u64, bytes: &[u8]) -> io::Result<()> {
        Local.write_at(file, at, bytes)
    }

    fn cut(&self, file: &mut File, length: u64) -> io::Result<()> {
        Local.cut(file, length)
    }

    fn make_folder(&self, path: &Path, mode: Mode) -> io::Result<()> {
        Local.make_folder(path, mode)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        Local.rename(from, to)
    }

    fn rename_new(&self, from: &Path, to: &Path) -> io::Result<()> {
        Local.rename_new(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        Local.remove(path)
    }

    fn read(&self, path: &Path, most: usize) -> io::Result<Vec<u8>> {
        Local.read(path, most)
    }

    fn exists(&self, path: &Path) -> io::Result<bool> {
        Local.exists(path)
    }

    fn stamp(&self, path: &Path) -> io::Result<Stamp> {
        Local.stamp(path)
    }

    fn list(&self, path: &Path) -> io::Result<Vec<Entry>> {
        Local.list(path)
    }
}
