//! Agents that hold keys: the stock one, and one of our own that can lie.

use crate::harness::hardware::Hardware;
use std::io::{Read, Write};
use std::os::unix::fs::PermissionsExt;
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

/// The stock `ssh-agent`, gone at the end.
pub(crate) struct StockAgent {
    child: Child,
    folder: tempfile::TempDir,
}

impl StockAgent {
    pub(crate) fn start() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let socket = folder.path().join("agent");
        let child = Command::new("ssh-agent")
            .args(["-D", "-a"])
            .arg(&socket)
            .stdout(Stdio::null())
            .spawn()
            .expect("these tests need ssh-agent on the path; install OpenSSH and run them again");
        let agent = Self { child, folder };
        let there = (0..200).any(|_| {
            std::thread::sleep(std::time::Duration::from_millis(20));
            UnixStream::connect(agent.socket()).is_ok()
        });
        assert!(there, "ssh-agent opened no socket");
        agent
    }

    pub(crate) fn socket(&self) -> PathBuf {
        self.folder.path().join("agent")
    }

    /// Adds the key of a file under this passphrase.
    pub(crate) fn add(&self, key: &Path, passphrase: &str) {
        let ask = self.folder.path().join("ask");
        std::fs::write(&ask, format!("#!/bin/sh\necho '{passphrase}'\n")).unwrap();
        std::fs::set_permissions(&ask, std::fs::Permissions::from_mode(0o700)).unwrap();
        let added = Command::new("ssh-add")
            .arg("-q")
            .arg(key)
            .env("SSH_AUTH_SOCK", self.socket())
            .env("SSH_ASKPASS", &ask)
            .env("SSH_ASKPASS_REQUIRE", "force")
            .stdin(Stdio::null())
            .status()
            .unwrap();
        assert!(added.success());
    }

    /// Locks it, so that it holds on to its keys and signs nothing.
    pub(crate) fn lock(&self) {
        let mut line = UnixStream::connect(self.socket()).unwrap();
        // SSH_AGENTC_LOCK with a passphrase.
        line.write_all(&framed(&[&[22][..], &field(b"locked")].concat()))
            .unwrap();
        let mut answer = [0; 5];
        line.read_exact(&mut answer).unwrap();
        assert_eq!(answer, [0, 0, 0, 1, 6]);
    }
}

impl Drop for StockAgent {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// How an agent of our own answers.
pub(crate) enum Answers {
    /// With this hardware key, whose flags are these.
    With(Hardware, u8),
    /// It lists the first key and signs with the second.
    WithAnother(Hardware, Hardware),
    /// It lists the key and refuses to sign.
    No(Hardware),
    /// With these very bytes, whatever is asked; then it hangs up.
    Bytes(Vec<u8>),
    /// Not at all.
    Never,
}

/// Opens a socket in `folder` that answers so until the test is over.
pub(crate) fn answering(folder: &Path, answers: Answers) -> PathBuf {
    let socket = folder.join("agent");
    let listener = UnixListener::bind(&socket).unwrap();
    std::thread::spawn(move || {
        let mut kept = Vec::new();
        for line in listener.incoming() {
            let mut line = line.unwrap();
            match &answers {
                Answers::Never => kept.push(line),
                Answers::Bytes(bytes) => {
                    let _ = question(&mut line);
                    let _ = line.write_all(bytes);
                }
                honest => {
                    let Some(question) = question(&mut line) else {
                        continue;
                    };
                    let _ = line.write_all(&framed(&answer(honest, &question)));
                }
            }
        }
    });
    socket
}

fn question(line: &mut UnixStream) -> Option<Vec<u8>> {
    let mut length = [0; 4];
    line.read_exact(&mut length).ok()?;
    let mut question = vec![0; usize::try_from(u32::from_be_bytes(length)).unwrap()];
    line.read_exact(&mut question).ok()?;
    Some(question)
}

fn answer(answers: &Answers, question: &[u8]) -> Vec<u8> {
    let (listed, signs) = match answers {
        Answers::With(key, flags) => (key, Some((key, *flags))),
        Answers::WithAnother(listed, signs) => (listed, Some((signs, 1))),
        Answers::No(listed) => (listed, None),
        Answers::Bytes(_) | Answers::Never => unreachable!("answered elsewhere"),
    };
    match (question[0], signs) {
        (11, _) => {
            let keys = [field(&listed.bytes()), field(b"hardware")].concat();
            [&[12, 0, 0, 0, 1][..], &keys].concat()
        }
        (13, Some((key, flags))) => {
            let (_key, rest) = taken(&question[1..]);
            let (data, rest) = taken(rest);
            assert_eq!(rest, [0; 4]);
            [&[14][..], &field(&key.blob(data, flags))].concat()
        }
        _ => vec![5],
    }
}

fn taken(rest: &[u8]) -> (&[u8], &[u8]) {
    let (length, rest) = rest.split_first_chunk().unwrap();
    rest.split_at(usize::try_from(u32::from_be_bytes(*length)).unwrap())
}

fn field(bytes: &[u8]) -> Vec<u8> {
    framed(bytes)
}

/// With the length before it.
pub(crate) fn framed(bytes: &[u8]) -> Vec<u8> {
    let length = u32::try_from(bytes.len()).unwrap();
    [&length.to_be_bytes()[..], bytes].concat()
}
