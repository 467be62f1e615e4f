//! A hardware key in software: it signs as one made with `ssh-keygen -t ed25519-sk` does, so that
//! tests need no such key and nobody to touch it.

use hames::record::PublicKey;
use ssh_key::encoding::Encode;
use ssh_key::private::Ed25519Keypair;
use ssh_key::public::{KeyData, SkEd25519};
use ssh_key::{Algorithm, HashAlg, LineEnding, PrivateKey, Signature, SshSig};

/// Somebody touched it.
pub(crate) const TOUCHED: u8 = 0x01;
/// Somebody touched it and typed its PIN.
pub(crate) const TOUCHED_WITH_PIN: u8 = 0x05;
/// It signed by itself.
pub(crate) const UNTOUCHED: u8 = 0x00;

/// A hardware key.
pub(crate) struct Hardware {
    pair: Ed25519Keypair,
    application: String,
}

impl Hardware {
    pub(crate) fn new(seed: u8) -> Self {
        Self::made_for(seed, "ssh:")
    }

    pub(crate) fn made_for(seed: u8, application: &str) -> Self {
        Self {
            pair: Ed25519Keypair::from_seed(&[seed; 32]),
            application: application.to_owned(),
        }
    }

    /// Its public half as a public key file has it, without a comment.
    pub(crate) fn line(&self) -> String {
        ssh_key::PublicKey::from(self.data()).to_openssh().unwrap()
    }

    pub(crate) fn key(&self) -> PublicKey {
        PublicKey::read(&self.line()).unwrap()
    }

    /// The same secret written down as the key of a file.
    pub(crate) fn as_a_file(&self) -> String {
        let data = KeyData::Ed25519(self.pair.public);
        ssh_key::PublicKey::from(data).to_openssh().unwrap()
    }

    /// Its signature over `data`, with these flags and the number of its signatures so far.
    pub(crate) fn sign(&self, data: &[u8], flags: u8, count: u32) -> Signature {
        let behind = [&[flags][..], &count.to_be_bytes()].concat();
        let signed = [
            HashAlg::Sha256.digest(self.application.as_bytes()),
            behind.clone(),
            HashAlg::Sha256.digest(data),
        ]
        .concat();
        let plain = signed_with(&PrivateKey::from(self.pair.clone()), &signed);
        let whole = [plain.as_bytes(), &behind].concat();
        Signature::new(Algorithm::SkEd25519, whole).unwrap()
    }

    /// Its public half as agents pass it on.
    pub(crate) fn bytes(&self) -> Vec<u8> {
        ssh_key::PublicKey::from(self.data()).to_bytes().unwrap()
    }

    /// The signature over `data` as agents pass it on.
    pub(crate) fn blob(&self, data: &[u8], flags: u8) -> Vec<u8> {
        self.sign(data, flags, 42).encode_vec().unwrap()
    }

    /// The signature file over `bytes`.
    pub(crate) fn armor(&self, namespace: &str, bytes: &[u8], flags: u8) -> String {
        let data = SshSig::signed_data(namespace, HashAlg::Sha512, bytes).unwrap();
        let signature = self.sign(&data, flags, 42);
        let signature = SshSig::new(self.data(), namespace, HashAlg::Sha512, signature).unwrap();
        signature.to_pem(LineEnding::LF).unwrap()
    }

    fn data(&self) -> KeyData {
        KeyData::SkEd25519(SkEd25519::new(self.pair.public, self.application.clone()))
    }
}

fn signed_with(key: &impl ssh_key::SigningKey, bytes: &[u8]) -> Signature {
    key.try_sign(bytes).unwrap()
}
