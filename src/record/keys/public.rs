//! Public keys: Ed25519, in the one spelling of OpenSSH.

use crate::record::sshsig;
use crate::record::{Namespace, NotAPublicKey, SignatureFault};
use ssh_key::public::KeyData;
use ssh_key::{Algorithm, HashAlg};
use std::fmt;

/// An Ed25519 public key.
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

impl PublicKey {
    /// Reads `ssh-ed25519 AAAA…`, nothing behind it.
    ///
    /// # Errors
    /// [`NotAPublicKey`] with the reason.
    pub fn read(text: &str) -> Result<Self, NotAPublicKey> {
        let kind = text.split(' ').next().unwrap_or_default();
        if kind != Algorithm::Ed25519.as_str() {
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
        let mut point = key
            .ed25519()
            .ok_or_else(|| NotAPublicKey::Kind(key.algorithm().to_string()))?
            .0;
        let [.., top] = &mut point;
        *top &= 0x7f;
        if WEAK.contains(&point) {
            return Err(NotAPublicKey::Weak);
        }
        Ok(Self(key.clone().into()))
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
