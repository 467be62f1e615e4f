//! A request to be let into the crew: one line with the public half of a new key, carried to a
//! manager by hand, by stick or by mail. It is a public key file whose comment says whose it is.

use crate::record::{Id, NotAPublicKey, PrintedName, PublicKey};
use std::fmt;

/// Who wants to be in the crew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// Their key.
    pub key: PublicKey,
    /// Id and printed name, where the line says them.
    pub who: Option<(Id, PrintedName)>,
}

impl Request {
    /// Reads the line, or any other public key file.
    ///
    /// # Errors
    /// [`NotAPublicKey`] with the reason.
    pub fn read(file: &str) -> Result<Self, NotAPublicKey> {
        let key = PublicKey::read_file(file)?;
        let mut parts = file.trim_end_matches(['\n', '\r']).splitn(4, ' ').skip(2);
        let id = parts.next().and_then(|id| Id::read(id).ok());
        let name = parts.next().and_then(|name| PrintedName::read(name).ok());
        Ok(Self {
            key,
            who: id.zip(name),
        })
    }
}

impl fmt::Display for Request {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.key)?;
        match &self.who {
            Some((id, name)) => write!(f, " {id} {name}"),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KEY: &str =
        "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAILM+rvN+ot98qgEN796jTiQfZfG1KaT0PtFDJ/XFSqti";

    #[test]
    fn a_request_reads_back_and_a_foreign_comment_names_nobody() {
        let line = format!("{KEY} laptop-7f3a Laptop in the tack room");
        let request = Request::read(&format!("{line}\r\n")).unwrap();
        assert_eq!(request.to_string(), line);
        for foreign in ["", " wren@tack-room", " Wren Ashdown", " wren.ashdown"] {
            let request = Request::read(&format!("{KEY}{foreign}\n")).unwrap();
            assert_eq!(request.who, None, "{foreign}");
        }
        assert!(Request::read("laptop-7f3a\n").is_err());
    }
}
