//! Signatures in OpenSSH's own format, over stored bytes, in a namespace.

use crate::record::{Namespace, PublicKey};
use ssh_key::encoding::Encode;
use ssh_key::{HashAlg, LineEnding, PrivateKey, Signature, SshSig};
use std::fmt;

/// Why a signature is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SignatureFault {
    /// Not the text of an OpenSSH signature.
    Unreadable,
    /// Readable, but not spelt as OpenSSH spells it, or of another version.
    Spelling,
    /// Made with another key; its fingerprint.
    OtherKey(String),
    /// Made in another namespace.
    OtherNamespace {
        /// The one asked for.
        wanted: Namespace,
        /// The one it was made in.
        found: String,
    },
    /// Made over another hash than SHA-512.
    OtherHash,
    /// Key and namespace are right, and the bytes or the signature were changed.
    Changed,
    /// A good signature of a hardware key that nobody touched.
    Untouched,
}

/// Largest signature file looked at. One of ours has about 300 bytes.
const LARGEST: usize = 4 * 1024;

/// Signs with an open key. `None` when the library cannot.
pub(super) fn sign(key: &PrivateKey, namespace: Namespace, bytes: &[u8]) -> Option<String> {
    let signature = key.sign(namespace.name(), HashAlg::Sha512, bytes).ok()?;
    signature.to_pem(LineEnding::LF).ok()
}

/// The bytes that a key signs for `bytes` in `namespace`. `None` when the library cannot.
pub(super) fn to_sign(namespace: Namespace, bytes: &[u8]) -> Option<Vec<u8>> {
    SshSig::signed_data(namespace.name(), HashAlg::Sha512, bytes).ok()
}

/// The signature file around a signature made elsewhere, not yet verified. `None` when that is
/// none, or is spelt in another way than it is kept.
pub(super) fn armor(key: &PublicKey, namespace: Namespace, signature: &[u8]) -> Option<String> {
    let read = Signature::try_from(signature).ok()?;
    if read.encode_vec().ok()? != signature {
        return None;
    }
    let key = key.inner().key_data().clone();
    let signature = SshSig::new(key, namespace.name(), HashAlg::Sha512, read).ok()?;
    signature.to_pem(LineEnding::LF).ok()
}

/// The whole check: spelling, key, namespace, hash and signature.
pub(super) fn verify(
    key: &PublicKey,
    namespace: Namespace,
    bytes: &[u8],
    armor: &str,
) -> Result<(), SignatureFault> {
    let signature = parsed(armor)?;
    if signature.public_key() != key.inner().key_data() {
        let found = signature.public_key().fingerprint(HashAlg::Sha256);
        return Err(SignatureFault::OtherKey(found.to_string()));
    }
    if signature.namespace() != namespace.name() {
        return Err(SignatureFault::OtherNamespace {
            wanted: namespace,
            found: signature.namespace().chars().take(80).collect(),
        });
    }
    if signature.hash_alg() != HashAlg::Sha512 {
        return Err(SignatureFault::OtherHash);
    }
    if signature.algorithm() != key.inner().algorithm() {
        return Err(SignatureFault::Changed);
    }
    key.inner()
        .verify(namespace.name(), bytes, &signature)
        .map_err(|_| SignatureFault::Changed)?;
    if key.is_hardware() && !touched(&signature) {
        return Err(SignatureFault::Untouched);
    }
    Ok(())
}

/// Whether the hardware key saw somebody touch it, by the flags that it signs behind the 64 bytes
/// of the signature: bit 0 is "user present" (Web Authentication, W3C, section 6.1).
fn touched(signature: &SshSig) -> bool {
    let flags = signature.signature_bytes().get(64);
    flags.is_some_and(|flags| flags & 1 == 1)
}

/// Reads a signature that has exactly one spelling.
///
/// The version and the spelling of the armor stand outside what the key signs, so they are held
/// to the letter here; otherwise a changed file could still pass.
fn parsed(armor: &str) -> Result<SshSig, SignatureFault> {
    if armor.len() > LARGEST {
        return Err(SignatureFault::Unreadable);
    }
    let signature = SshSig::from_pem(armor).map_err(|_| SignatureFault::Unreadable)?;
    let again = signature.to_pem(LineEnding::LF);
    if again.is_ok_and(|again| again == armor)
        && signature.version() == SshSig::VERSION
        && signature.reserved().is_empty()
    {
        Ok(signature)
    } else {
        Err(SignatureFault::Spelling)
    }
}

impl fmt::Display for SignatureFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable => write!(f, "this is not an OpenSSH signature, or it is damaged"),
            Self::Spelling => write!(
                f,
                "the signature file is not spelt as OpenSSH spells it; something changed it on its way"
            ),
            Self::OtherKey(found) => write!(f, "it was made with another key, {found}"),
            Self::OtherNamespace { wanted, found } => write!(
                f,
                "it was made as “{}” and cannot stand for “{wanted}”",
                found.escape_debug()
            ),
            Self::OtherHash => write!(f, "it was made over another hash than SHA-512"),
            Self::Changed => write!(
                f,
                "the signed bytes or the signature were changed after signing"
            ),
            Self::Untouched => write!(
                f,
                "the hardware key signed without being touched, so a program may have signed unseen; sign again with a key made without the option no-touch-required"
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Deed, DeviceKey, Dice, Id, Mode};
    use ssh_key::encoding::Decode;

    const MESSAGE: &[u8] = b"{\"v\":1}\n";
    const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);

    fn key(byte: u8) -> DeviceKey {
        DeviceKey::make(&Dice::new([byte; 52]), &Id::read("wren.ashdown").unwrap()).unwrap()
    }

    #[test]
    fn a_signature_holds_for_its_key_namespace_and_bytes_and_nothing_else() {
        for made_in in Namespace::all() {
            let armor = key(1).sign(made_in, MESSAGE).unwrap();
            for asked in Namespace::all() {
                let judged = key(1).public().verify(asked, MESSAGE, &armor);
                let other = SignatureFault::OtherNamespace {
                    wanted: asked,
                    found: made_in.name().to_owned(),
                };
                let expected = if asked == made_in { Ok(()) } else { Err(other) };
                assert_eq!(judged, expected);
            }
        }
        let armor = key(1).sign(DONE, MESSAGE).unwrap();
        assert_eq!(
            key(2).public().verify(DONE, MESSAGE, &armor),
            Err(SignatureFault::OtherKey(key(1).public().fingerprint()))
        );
        assert_eq!(
            key(1).public().verify(DONE, b"{\"v\":1}", &armor),
            Err(SignatureFault::Changed)
        );
    }

    #[test]
    fn every_one_bit_change_of_a_signature_file_is_refused() {
        let armor = key(1).sign(DONE, MESSAGE).unwrap();
        for at in 0..armor.len() {
            for bit in 0..8 {
                let mut changed = armor.clone().into_bytes();
                changed[at] ^= 1 << bit;
                if let Ok(changed) = String::from_utf8(changed) {
                    assert!(
                        key(1).public().verify(DONE, MESSAGE, &changed).is_err(),
                        "byte {at}, bit {bit}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_signature_file_cut_or_lengthened_anywhere_is_refused() {
        let armor = key(1).sign(DONE, MESSAGE).unwrap();
        for end in 0..armor.len() {
            assert!(
                key(1)
                    .public()
                    .verify(DONE, MESSAGE, &armor[..end])
                    .is_err()
            );
        }
        for longer in [
            format!("{armor}\n"),
            format!("\n{armor}"),
            format!("{armor}{armor}"),
            armor.replace('\n', "\r\n"),
        ] {
            assert!(key(1).public().verify(DONE, MESSAGE, &longer).is_err());
        }
    }

    #[test]
    fn another_hash_is_refused_though_the_signature_is_good() {
        let file = key(1).file().unwrap();
        let private = PrivateKey::from_openssh(file.as_str()).unwrap();
        let signature = private.sign(DONE.name(), HashAlg::Sha256, MESSAGE).unwrap();
        let armor = signature.to_pem(LineEnding::LF).unwrap();
        assert_eq!(
            key(1).public().verify(DONE, MESSAGE, &armor),
            Err(SignatureFault::OtherHash)
        );
    }

    /// Signs as the format allows it, with something in the field kept for later versions.
    fn with_reserved(key: &impl ssh_key::SigningKey, reserved: &[u8]) -> String {
        let field = |bytes: &[u8]| {
            let length = u32::try_from(bytes.len()).unwrap();
            [&length.to_be_bytes()[..], bytes].concat()
        };
        let inner = [
            field(DONE.name().as_bytes()),
            field(reserved),
            field(b"sha512"),
        ]
        .concat();
        let hash = HashAlg::Sha512.digest(MESSAGE);
        let signed = [b"SSHSIG", &inner[..], &field(&hash)].concat();
        let signature = key.try_sign(&signed).unwrap().encode_vec().unwrap();
        let public = key.public_key().encode_vec().unwrap();
        let blob = [
            b"SSHSIG\0\0\0\x01",
            &field(&public)[..],
            &inner,
            &field(&signature),
        ]
        .concat();
        let signature = SshSig::decode(&mut &blob[..]).unwrap();
        signature.to_pem(LineEnding::LF).unwrap()
    }

    #[test]
    fn a_field_kept_for_later_versions_has_to_be_empty() {
        let file = key(1).file().unwrap();
        let private = PrivateKey::from_openssh(file.as_str()).unwrap();
        let judged = |armor: &str| key(1).public().verify(DONE, MESSAGE, armor);
        assert_eq!(judged(&with_reserved(&private, b"")), Ok(()));
        assert_eq!(
            judged(&with_reserved(&private, b"more")),
            Err(SignatureFault::Spelling)
        );
    }
}
