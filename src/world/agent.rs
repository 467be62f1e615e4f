//! The only agent: whatever holds keys behind the Unix socket that OpenSSH's programs use.
//!
//! One question, one answer, each with its length in four bytes before it. What is asked and
//! answered is not looked at here.

use std::fmt;
use std::path::PathBuf;
use std::time::Duration;

/// Most bytes of an answer: OpenSSH's own limit for a message of an agent.
const LONGEST: u32 = 256 * 1024;

/// An agent, asked anew each time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Agent {
    socket: PathBuf,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AgentTrouble {
    /// Nobody listens at the socket.
    NotThere(PathBuf),
    /// No whole answer came in so many seconds.
    Late(u64),
    /// The answer ended before its end.
    CutOff,
    /// The answer says that it has so many bytes.
    Long(u32),
    /// This system has no such sockets.
    NotHere,
}

impl Agent {
    /// The agent at a socket.
    pub const fn at(socket: PathBuf) -> Self {
        Self { socket }
    }

    /// Asks, and waits so long for the whole answer.
    ///
    /// # Errors
    /// [`AgentTrouble`] with what to do.
    pub fn ask(&self, question: &[u8], patience: Duration) -> Result<Vec<u8>, AgentTrouble> {
        self.asked(question, patience)
    }

    #[cfg(not(unix))]
    fn asked(&self, _question: &[u8], _patience: Duration) -> Result<Vec<u8>, AgentTrouble> {
        Err(AgentTrouble::NotHere)
    }

    #[cfg(unix)]
    fn asked(&self, question: &[u8], patience: Duration) -> Result<Vec<u8>, AgentTrouble> {
        let mut line = line::Line::open(&self.socket, patience)
            .map_err(|_| AgentTrouble::NotThere(self.socket.clone()))?;
        let length = u32::try_from(question.len()).map_err(|_| AgentTrouble::Long(u32::MAX))?;
        line.send(&length.to_be_bytes())?;
        line.send(question)?;
        let mut length = [0; 4];
        line.receive(&mut length)?;
        let length = u32::from_be_bytes(length);
        if length > LONGEST {
            return Err(AgentTrouble::Long(length));
        }
        let mut answer = vec![0; usize::try_from(length).unwrap_or_default()];
        line.receive(&mut answer)?;
        Ok(answer)
    }
}

#[cfg(unix)]
mod line {
    use super::AgentTrouble;
    use std::io::{self, ErrorKind, Read, Write};
    use std::os::unix::net::UnixStream;
    use std::path::Path;
    use std::time::{Duration, Instant};

    /// The line to an agent, with an end to the waiting.
    pub(super) struct Line {
        stream: UnixStream,
        patience: Duration,
        since: Instant,
    }

    impl Line {
        #[expect(
            clippy::disallowed_methods,
            reason = "this is the one place that waits for an agent"
        )]
        pub(super) fn open(socket: &Path, patience: Duration) -> io::Result<Self> {
            Ok(Self {
                stream: UnixStream::connect(socket)?,
                patience,
                since: Instant::now(),
            })
        }

        pub(super) fn send(&mut self, bytes: &[u8]) -> Result<(), AgentTrouble> {
            let left = self.left()?;
            let limited = self.stream.set_write_timeout(Some(left));
            let sent = limited.and_then(|()| self.stream.write_all(bytes));
            sent.map_err(|error| self.trouble(&error))
        }

        pub(super) fn receive(&mut self, mut into: &mut [u8]) -> Result<(), AgentTrouble> {
            while !into.is_empty() {
                let left = self.left()?;
                let limited = self.stream.set_read_timeout(Some(left));
                match limited.and_then(|()| self.stream.read(into)) {
                    Ok(0) => return Err(AgentTrouble::CutOff),
                    Ok(read) => into = into.get_mut(read..).unwrap_or_default(),
                    Err(error) if error.kind() == ErrorKind::Interrupted => {}
                    Err(error) => return Err(self.trouble(&error)),
                }
            }
            Ok(())
        }

        fn left(&self) -> Result<Duration, AgentTrouble> {
            let left = self.patience.checked_sub(self.since.elapsed());
            left.filter(|left| !left.is_zero()).ok_or(self.late())
        }

        fn trouble(&self, error: &io::Error) -> AgentTrouble {
            match error.kind() {
                ErrorKind::WouldBlock | ErrorKind::TimedOut => self.late(),
                _ => AgentTrouble::CutOff,
            }
        }

        fn late(&self) -> AgentTrouble {
            AgentTrouble::Late(self.patience.as_secs())
        }
    }
}

impl fmt::Display for AgentTrouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotThere(socket) => write!(
                f,
                "no ssh-agent answers at {}, which SSH_AUTH_SOCK names; start one, add the key \
                 with ssh-add, then try again",
                socket.display()
            ),
            Self::Late(seconds) => write!(
                f,
                "the ssh-agent did not answer within {seconds} s; look whether it or a hardware \
                 key waits for something, then try again"
            ),
            Self::CutOff => f.write_str(
                "the ssh-agent broke off in the middle; start it anew, add the key with ssh-add, \
                 then try again",
            ),
            Self::Long(bytes) => write!(
                f,
                "the ssh-agent announces an answer of {bytes} bytes, which is none; start it anew"
            ),
            Self::NotHere => f.write_str(
                "Hames does not reach an ssh-agent on this kind of system; use a key file",
            ),
        }
    }
}
