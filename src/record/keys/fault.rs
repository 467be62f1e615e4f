//! Why a key cannot be used, in facts; the sentences are made here.

use std::fmt;

/// Why a key cannot be read, made or used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeyFault {
    /// An empty passphrase.
    NoPassphrase,
    /// Not the passphrase of this key.
    WrongPassphrase,
    /// Not an OpenSSH private key file, or a damaged one.
    Unreadable,
    /// A person's key without a passphrase.
    NotLocked,
    /// A device's key with one.
    Locked,
    /// A passphrase hash that would run for very long.
    Rounds(u32),
    /// Its public half is not one Hames takes.
    Public(NotAPublicKey),
    /// A file that only says which hardware key to ask.
    Handle,
    /// The library could not make the key or the signature.
    NotMade,
}

/// Why a text is not a public key Hames takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotAPublicKey {
    /// Another kind of key than Ed25519.
    Kind(String),
    /// A hardware key that was not made for OpenSSH; what it was made for.
    Application(String),
    /// Not a key, or one spelt otherwise than OpenSSH spells it.
    Unreadable,
    /// A point under which a made-up signature can pass.
    Weak,
}

impl fmt::Display for KeyFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPassphrase => write!(f, "the passphrase is empty; type one"),
            Self::WrongPassphrase => write!(
                f,
                "this passphrase does not open the key; type it again, and look at caps lock and keyboard layout"
            ),
            Self::Unreadable => write!(
                f,
                "this is not an OpenSSH private key, or it is damaged; take the copy you keep elsewhere"
            ),
            Self::NotLocked => write!(
                f,
                "this key has no passphrase, so anyone with the file could sign; set one with ssh-keygen -p -f FILE, then try again"
            ),
            Self::Locked => write!(
                f,
                "this key has a passphrase, and a device signs without anyone to type it; use the device's own key"
            ),
            Self::Rounds(rounds) => write!(
                f,
                "this key asks for {rounds} rounds of the passphrase hash, which would take very long; set fewer with ssh-keygen -p -a 100"
            ),
            Self::Public(fault) => fault.fmt(f),
            Self::Handle => write!(
                f,
                "this file holds no key; it only says which hardware key to ask. Add it to the ssh-agent with ssh-add, and give its public half, the file that ends in .pub"
            ),
            Self::NotMade => write!(f, "the key could not be made or used; make a new one"),
        }
    }
}

impl fmt::Display for NotAPublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Kind(kind) => write!(
                f,
                "the key is of kind “{}”; Hames takes ssh-ed25519, and sk-ssh-ed25519@openssh.com of a hardware key. Make one with ssh-keygen -t ed25519, or -t ed25519-sk",
                kind.escape_debug()
            ),
            Self::Application(application) => write!(
                f,
                "the hardware key was made for “{}”, and could have signed elsewhere; make one for OpenSSH with ssh-keygen -t ed25519-sk",
                application.escape_debug()
            ),
            Self::Unreadable => write!(f, "the key is damaged or not spelt as OpenSSH spells it"),
            Self::Weak => write!(
                f,
                "under this key a made-up signature can pass; make a new one"
            ),
        }
    }
}
