//! Keys of a test: made from fixed numbers, and under a passphrase that is hashed once, for half
//! the bytes a real key takes. A run signs often.

use hames::record::{DeviceKey, Dice, Id, LockedKey, PublicKey};
use ssh_key::private::{Ed25519Keypair, KeypairData};
use ssh_key::{Cipher, Kdf, LineEnding, PrivateKey};

/// A person's key: its file, under their own id, and its public half.
pub(crate) fn person(id: &str, number: u8) -> (String, PublicKey) {
    let pair = KeypairData::Ed25519(Ed25519Keypair::from_seed(&[number; 32]));
    let file = locked(&PrivateKey::new(pair, id).unwrap(), id, number);
    let public = LockedKey::read(&file).unwrap().public().clone();
    (file, public)
}

/// A laptop's key: its file, and its public half.
pub(crate) fn laptop(id: &str, number: u8) -> (String, PublicKey) {
    let dice = Dice::new([number; Dice::BYTES]);
    let key = DeviceKey::make(&dice, &Id::read(id).unwrap()).unwrap();
    (key.file().unwrap().to_string(), key.public().clone())
}

/// The same key under the same passphrase, which opens it sooner.
pub(crate) fn sooner(file: &str, passphrase: &str) -> String {
    let open = PrivateKey::from_openssh(file).unwrap().decrypt(passphrase);
    locked(&open.unwrap(), passphrase, 1)
}

fn locked(open: &PrivateKey, passphrase: &str, number: u8) -> String {
    let kdf = Kdf::Bcrypt {
        salt: vec![number; 16],
        rounds: 1,
    };
    let locked = open.encrypt_with(Cipher::Aes128Ctr, kdf, number.into(), passphrase.as_bytes());
    let file = locked.unwrap().to_openssh(LineEnding::LF).unwrap();
    file.to_string()
}
