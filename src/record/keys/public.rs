//! Public keys: Ed25519, of a file or of a hardware key, in the one spelling of OpenSSH.

use crate::record::sshsig;
use crate::record::{Namespace, NotAPublicKey, SignatureFault};
use ssh_key::public::{Ed25519PublicKey, KeyData};
use ssh_key::{Algorithm, HashAlg};
use std::fmt;

/// An Ed25519 public key: of a key file, or of a hardware key that signs when it is touched.
#[derive(Clone, PartialEq, Eq, Hash)]
pub struct PublicKey(ssh_key::PublicKey);

/// The y coordinates, in wire order with the sign bit off, of the points of order 1, 2, 4 and 8
/// and their second spellings. Under such a key one signature passes for many messages.
const WEAK: [[u8; 32]; 7] = [
    edge(0x00, 0x00, 0x00),
    edge(0x01, 0x00, 0x00),
    [
        0x26, 0xe8, 0x95, 0x8f, 0xc2, 0xb2, 0x27, 0xb0, 0x45, 0xc3, 0xf4, 0x89, 0xf2, 0xef, 0x98,
        0xf0, 0xd5, 0xdf, 0xac, 0x05, 0xd3, 0xc6, 0x33, 0x39, 0xb1, 0x38, 0x02, 0x88, 0x6d, 0x53,
        0xfc, 0x05,
    ],
    [
        0xc7, 0x17, 0x6a, 0x70, 0x3d, 0x4d, 0xd8, 0x4f, 0xba, 0x3c, 0x0b, 0x76, 0x0d, 0x10, 0x67,
        0x0f, 0x2a, 0x20, 0x53, 0xfa, 0x2c, 0x39, 0xcc, 0xc6, 0x4e, 0xc7, 0xfd, 0x77, 0x92, 0xac,
        0x03, 0x7a,
    ],
    edge(0xec, 0xff, 0x7f),
    edge(0xed, 0xff, 0x7f),
    edge(0xee, 0xff, 0x7f),
];

/// A coordinate next to 0 or to the prime 2^255 − 19: its bytes differ only at the ends.
const fn edge(first: u8, between: u8, last: u8) -> [u8; 32] {
    let mut bytes = [between; 32];
    let [head, .., top] = &mut bytes;
    *head = first;
    *top = last;
    bytes
}

/// The kinds of key taken.
const KINDS: [Algorithm; 2] = [Algorithm::Ed25519, Algorithm::SkEd25519];

/// What a hardware key made for OpenSSH is bound to begins so; another could have signed in to a
/// web page with the same key.
const APPLICATION: &str = "ssh:";

impl PublicKey {
    /// Reads `ssh-ed25519 AAAA…` or `sk-ssh-ed25519@openssh.com AAAA…`, nothing behind it.
    ///
    /// # Errors
    /// [`NotAPublicKey`] with the reason.
    pub fn read(text: &str) -> Result<Self, NotAPublicKey> {
        let kind = text.split(' ').next().unwrap_or_default();
        if KINDS.iter().all(|known| known.as_str() != kind) {
            return Err(NotAPublicKey::Kind(kind.chars().take(40).collect()));
        }
        let key = ssh_key::PublicKey::from_openssh(text).map_err(|_| NotAPublicKey::Unreadable)?;
        let key = Self::of(key.key_data())?;
        if key.to_string() == text {
            Ok(key)
        } else {
            Err(NotAPublicKey::Unreadable)
        }
    }

    pub(crate) fn of(key: &KeyData) -> Result<Self, NotAPublicKey> {
        if let KeyData::SkEd25519(hardware) = key {
            let application = hardware.application();
            let plain = |letter: char| letter.is_ascii_graphic();
            if !application.starts_with(APPLICATION) || !application.chars().all(plain) {
                let shown = application.chars().take(40).collect();
                return Err(NotAPublicKey::Application(shown));
            }
        }
        let mut point = point(key)
            .ok_or_else(|| NotAPublicKey::Kind(key.algorithm().to_string()))?
            .0;
        let [.., top] = &mut point;
        *top &= 0x7f;
        if WEAK.contains(&point) {
            return Err(NotAPublicKey::Weak);
        }
        Ok(Self(key.clone().into()))
    }

    /// Reads a public key file as `ssh-keygen` writes it: the key, and perhaps a comment, which
    /// says nothing that counts.
    ///
    /// # Errors
    /// [`NotAPublicKey`] with the reason.
    pub fn read_file(file: &str) -> Result<Self, NotAPublicKey> {
        let line = file.strip_suffix('\n').unwrap_or(file);
        let line = line.strip_suffix('\r').unwrap_or(line);
        if line.contains(['\n', '\r']) {
            return Err(NotAPublicKey::Unreadable);
        }
        let mut parts = line.splitn(3, ' ');
        let (kind, key) = (parts.next(), parts.next());
        Self::read(&format!(
            "{} {}",
            kind.unwrap_or_default(),
            key.unwrap_or_default()
        ))
    }

    /// Reads the bytes of a key as agents pass them on.
    ///
    /// # Errors
    /// [`NotAPublicKey`] with the reason.
    pub(crate) fn read_bytes(bytes: &[u8]) -> Result<Self, NotAPublicKey> {
        let key = ssh_key::PublicKey::from_bytes(bytes).map_err(|_| NotAPublicKey::Unreadable)?;
        let key = Self::of(key.key_data())?;
        match key.bytes() {
            Some(again) if again == bytes => Ok(key),
            _ => Err(NotAPublicKey::Unreadable),
        }
    }

    /// The bytes of the key as agents pass them on. `None` when the library cannot.
    pub(crate) fn bytes(&self) -> Option<Vec<u8>> {
        self.0.to_bytes().ok()
    }

    /// Whether it lies in a hardware key, which signs when it is touched.
    pub fn is_hardware(&self) -> bool {
        matches!(self.0.key_data(), KeyData::SkEd25519(_))
    }

    /// Whether both stand for one secret, however each is written down.
    pub(crate) fn is_one_with(&self, other: &Self) -> bool {
        point(self.0.key_data()) == point(other.0.key_data())
    }

    pub(crate) const fn inner(&self) -> &ssh_key::PublicKey {
        &self.0
    }

    /// Whether `armor`, the text of an OpenSSH signature file, is this key's signature over
    /// exactly these bytes in exactly this namespace.
    ///
    /// # Errors
    /// [`SignatureFault`] with the first reason.
    pub fn verify(
        &self,
        namespace: Namespace,
        bytes: &[u8],
        armor: &str,
    ) -> Result<(), SignatureFault> {
        sshsig::verify(self, namespace, bytes, armor)
    }

    /// The fingerprint as `ssh-keygen -l` shows it, to be compared over the phone.
    pub fn fingerprint(&self) -> String {
        self.0.fingerprint(HashAlg::Sha256).to_string()
    }
}

/// The point of a kind that is taken.
fn point(key: &KeyData) -> Option<&Ed25519PublicKey> {
    match key {
        KeyData::Ed25519(point) => Some(point),
        KeyData::SkEd25519(hardware) => Some(hardware.public_key()),
        _ => None,
    }
}

impl fmt::Display for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0.to_openssh().map_err(|_| fmt::Error)?)
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PublicKey({})", self.fingerprint())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Deed, Mode};
    use ssh_key::public::Ed25519PublicKey;
    use ssh_key::{LineEnding, Signature, SshSig};

    const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);

    /// A signature nobody made: the point of order 1 and the number 0.
    fn made_up(key: &KeyData) -> String {
        let mut nothing = [0; 64];
        nothing[0] = 1;
        let nothing = Signature::new(Algorithm::Ed25519, nothing).unwrap();
        let signature = SshSig::new(key.clone(), DONE.name(), HashAlg::Sha512, nothing).unwrap();
        signature.to_pem(LineEnding::LF).unwrap()
    }

    #[test]
    fn every_key_under_which_a_made_up_signature_passes_is_refused() {
        let mut points: Vec<[u8; 32]> = WEAK.to_vec();
        for point in WEAK {
            let mut mirrored = point;
            mirrored[31] |= 0x80;
            points.push(mirrored);
        }
        let mut passed = 0;
        for point in points {
            let data = KeyData::Ed25519(Ed25519PublicKey(point));
            assert_eq!(PublicKey::of(&data), Err(NotAPublicKey::Weak));
            // The library alone takes the made-up signature for some message out of a few dozen.
            let signature: SshSig = made_up(&data).parse().unwrap();
            let key = ssh_key::PublicKey::from(data);
            let takes = |message: u8| key.verify(DONE.name(), &[message], &signature).is_ok();
            passed += usize::from((0..100).any(takes));
        }
        assert!(passed >= 8, "{passed}");
    }

    #[test]
    fn a_key_has_one_spelling_and_one_kind() {
        const KEY: &str =
            "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAILM+rvN+ot98qgEN796jTiQfZfG1KaT0PtFDJ/XFSqti";
        assert_eq!(PublicKey::read(KEY).unwrap().to_string(), KEY);
        for wrong in [
            format!("{KEY} wren"),
            format!("{KEY}="),
            format!(" {KEY}"),
            KEY.replace("AAAAIL", "AAAAHL"),
            KEY[..40].to_owned(),
            KEY.replacen("ed25519", "rsa", 1),
        ] {
            assert!(PublicKey::read(&wrong).is_err(), "{wrong}");
        }
    }
}
