//! A home of its own for the program: an empty environment but for what is said here.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use tempfile::TempDir;

/// A home folder, gone at the end.
pub(crate) struct Home(TempDir);

/// A program about to be run.
#[must_use = "run it and say how it ends"]
pub(crate) struct Program {
    home: PathBuf,
    command: Command,
    input: String,
}

/// How a program ended.
#[must_use = "say what it should have been"]
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Ended {
    pub(crate) status: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Home {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub(crate) fn path(&self, below: &str) -> PathBuf {
        self.0.path().join(below)
    }

    pub(crate) fn demo(&self) -> PathBuf {
        self.path("share/hames/demo")
    }

    /// The program with these arguments, parted at blanks.
    pub(crate) fn hames(&self, arguments: &str) -> Program {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hames"));
        command
            .args(arguments.split_whitespace())
            .env_clear()
            .env("HOME", self.0.path())
            .env("XDG_DATA_HOME", self.path("share"))
            .env("LC_ALL", "C.UTF-8")
            .current_dir(self.0.path());
        Program {
            home: self.0.path().to_owned(),
            command,
            input: String::new(),
        }
    }

    /// Writes a file of the home folder.
    pub(crate) fn put(&self, name: &str, text: &str) {
        fs::write(self.path(name), text).unwrap();
    }

    /// Every file below the home folder.
    pub(crate) fn files(&self) -> Vec<String> {
        files_below(self.0.path())
    }
}

/// The folder of the one trip of a logbook, or of that with this number.
pub(crate) fn trip(logbook: &Path, number: usize) -> PathBuf {
    let start = format!("{number:06}-");
    let trips = files_below(logbook)
        .into_iter()
        .filter(|file| file.contains("/t/"));
    let mut folders: Vec<PathBuf> = trips
        .map(|file| logbook.join(file).parent().unwrap().to_owned())
        .filter(|folder| {
            folder
                .file_name()
                .unwrap()
                .to_str()
                .unwrap()
                .starts_with(&start)
        })
        .collect();
    folders.dedup();
    assert_eq!(folders.len(), 1, "{folders:?}");
    folders.remove(0)
}

/// Every file below a folder, by its path from there.
pub(crate) fn files_below(root: &Path) -> Vec<String> {
    let mut files = Vec::new();
    let mut folders = vec![root.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let entry = entry.unwrap();
            if entry.file_type().unwrap().is_dir() {
                folders.push(entry.path());
            } else {
                let path = entry.path();
                files.push(
                    path.strip_prefix(root)
                        .unwrap()
                        .to_str()
                        .unwrap()
                        .to_owned(),
                );
            }
        }
    }
    files.sort();
    files
}

impl Program {
    /// One more argument, blanks and all.
    pub(crate) fn argument(mut self, argument: &str) -> Self {
        self.command.arg(argument);
        self
    }

    /// What is piped in.
    pub(crate) fn typed(mut self, input: &str) -> Self {
        input.clone_into(&mut self.input);
        self
    }

    /// With this in its environment.
    pub(crate) fn with(mut self, name: &str, value: impl AsRef<std::ffi::OsStr>) -> Self {
        self.command.env(name, value);
        self
    }

    pub(crate) fn without(mut self, names: &[&str]) -> Self {
        for name in names {
            self.command.env_remove(name);
        }
        self
    }

    /// Starts it with open pipes.
    pub(crate) fn start(mut self) -> Child {
        let command = self.command.stdin(Stdio::piped());
        let command = command.stdout(Stdio::piped()).stderr(Stdio::piped());
        command.spawn().unwrap()
    }

    /// Runs it to its end. What differs from run to run is told by a word in capitals.
    pub(crate) fn run(self) -> Ended {
        let (home, input) = (self.home.clone(), self.input.clone());
        let mut child = self.start();
        let mut pipe = child.stdin.take().unwrap();
        // It may end before it has read all of it.
        let writer = std::thread::spawn(move || drop(pipe.write_all(input.as_bytes())));
        let output = child.wait_with_output().unwrap();
        writer.join().unwrap();
        let text = |bytes: &[u8]| {
            let text = String::from_utf8(bytes.to_vec()).unwrap();
            steady(&text.replace(home.to_str().unwrap(), "HOME"))
        };
        Ended {
            status: output.status.code().unwrap_or(-1),
            out: text(&output.stdout),
            err: text(&output.stderr),
        }
    }
}

impl Ended {
    /// It ended so, wrote this, and said this on the side.
    #[track_caller]
    pub(crate) fn is(&self, status: i32, out: &str, err: &str) {
        assert_eq!(
            (self.status, self.out.as_str(), self.err.as_str()),
            (status, out, err)
        );
    }

    /// It ended so, its last lines were these, and it said this on the side.
    #[track_caller]
    pub(crate) fn ends(&self, status: i32, last: &str, err: &str) {
        let count = last.lines().count();
        let lines: Vec<&str> = self.out.lines().collect();
        let tail = lines[lines.len().saturating_sub(count)..].join("\n");
        assert_eq!(
            (self.status, tail.trim_end(), self.err.as_str()),
            (status, last.trim_end(), err),
            "\n{}",
            self.out
        );
    }
}

/// Words that differ from run to run, told by what they are.
pub(crate) fn steady(text: &str) -> String {
    let part = |letter: char| letter.is_alphanumeric() || letter == '-' || letter == ':';
    let mut steady = String::new();
    let mut word = String::new();
    for letter in text.chars().chain(['\n']) {
        if part(letter) {
            word.push(letter);
            continue;
        }
        steady.push_str(&named(&word));
        word.clear();
        steady.push(letter);
    }
    steady.pop();
    steady
}

fn named(word: &str) -> String {
    let hex = |text: &str| text.bytes().all(|byte| byte.is_ascii_hexdigit());
    let shape: String = word
        .chars()
        .map(|letter| if letter.is_ascii_digit() { '9' } else { letter })
        .collect();
    if let Some((number, id)) = word.split_once('-')
        && number.len() == 6
        && id.len() == 8
        && hex(id)
    {
        return format!("{number}-TRIP");
    }
    match word {
        _ if word.len() == 64 && hex(word) => "HASH".to_owned(),
        _ if word.len() == 16 && hex(word) => "TRIP".to_owned(),
        _ if word.len() == 11 && word.starts_with("laptop-") => "LAPTOP".to_owned(),
        _ if shape == "9999-99-99" => "DATE".to_owned(),
        _ if shape == "99:99" => "TIME".to_owned(),
        _ if is_receipt(word) => "RECEIPT".to_owned(),
        _ => word.to_owned(),
    }
}

fn is_receipt(word: &str) -> bool {
    let alphabet = |part: &str| {
        part.len() == 5
            && part
                .bytes()
                .all(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase())
    };
    word.split_once('-')
        .is_some_and(|(left, right)| alphabet(left) && alphabet(right))
}
