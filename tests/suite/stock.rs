//! The stock `ssh-keygen`: what a manager without Hames would check a record with.

use std::ffi::OsStr;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// What the tool answered.
#[derive(Debug)]
pub(crate) struct Answer {
    pub(crate) good: bool,
    pub(crate) said: String,
}

/// A folder of its own, gone at the end, in which the tool runs.
pub(crate) struct Bench(tempfile::TempDir);

impl Bench {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub(crate) fn put(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }

    /// A private key file, which the tool only takes when nobody else can read it.
    pub(crate) fn put_secret(&self, name: &str, text: &str) -> PathBuf {
        let path = self.put(name, text);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o600)).unwrap();
        }
        path
    }

    pub(crate) fn take(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// A key made by the tool, under `passphrase`.
    pub(crate) fn keygen(&self, name: &str, passphrase: &str) -> PathBuf {
        let path = self.path(name);
        let arguments = [
            "-q",
            "-t",
            "ed25519",
            "-C",
            "wren.ashdown",
            "-N",
            passphrase,
            "-f",
        ];
        let made = ssh_keygen(
            arguments
                .map(OsStr::new)
                .iter()
                .copied()
                .chain([path.as_ref()]),
            b"",
        );
        assert!(made.good, "{made:?}");
        path
    }

    /// `ssh-keygen -Y verify` with this crew file.
    pub(crate) fn verify(
        &self,
        crew: impl AsRef<[u8]>,
        who: &str,
        namespace: &str,
        bytes: &[u8],
        armor: &str,
    ) -> Answer {
        let crew = self.put("crew", crew);
        let signature = self.put("signature", armor);
        let arguments: [&OsStr; 10] = [
            "-Y".as_ref(),
            "verify".as_ref(),
            "-f".as_ref(),
            crew.as_ref(),
            "-I".as_ref(),
            who.as_ref(),
            "-n".as_ref(),
            namespace.as_ref(),
            "-s".as_ref(),
            signature.as_ref(),
        ];
        ssh_keygen(arguments, bytes)
    }

    /// `ssh-keygen -Y sign` with a key that has no passphrase.
    pub(crate) fn sign(&self, key: &Path, namespace: &str, bytes: &[u8]) -> String {
        let file = self.put("to-sign", bytes);
        let arguments: [&OsStr; 7] = [
            "-Y".as_ref(),
            "sign".as_ref(),
            "-f".as_ref(),
            key.as_ref(),
            "-n".as_ref(),
            namespace.as_ref(),
            file.as_ref(),
        ];
        let signed = ssh_keygen(arguments, b"");
        assert!(signed.good, "{signed:?}");
        let signature = self.take("to-sign.sig");
        std::fs::remove_file(self.path("to-sign.sig")).unwrap();
        signature
    }
}

/// Runs the tool. A machine without it fails the test: what it would show is then not shown.
pub(crate) fn ssh_keygen<'a>(
    arguments: impl IntoIterator<Item = &'a OsStr>,
    input: &[u8],
) -> Answer {
    let mut child = Command::new("ssh-keygen")
        .args(arguments)
        .env_remove("SSH_AUTH_SOCK")
        .env_remove("SSH_ASKPASS")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("these tests need ssh-keygen on the path; install OpenSSH and run them again");
    // A tool that refuses early closes its input; that is its answer, not a failure.
    let _ = child.stdin.take().unwrap().write_all(input);
    let Output {
        status,
        stdout,
        stderr,
    } = child.wait_with_output().unwrap();
    Answer {
        good: status.success(),
        said: String::from_utf8_lossy(&[stdout, stderr].concat()).into_owned(),
    }
}
