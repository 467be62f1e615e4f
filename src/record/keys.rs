//! Keys: Ed25519 in OpenSSH's own files, a person's under a passphrase, a device's without.

mod dice;
mod fault;
mod public;

pub use dice::Dice;
pub use fault::{KeyFault, NotAPublicKey};
pub use public::PublicKey;

use crate::record::sshsig;
use crate::record::{Id, Namespace};
use ssh_key::private::{Ed25519Keypair, KeypairData};
use ssh_key::{Cipher, Kdf, LineEnding, PrivateKey};
use std::fmt;
use zeroize::Zeroizing;

/// Rounds of the passphrase hash for a new key: OpenSSH's own default, about 0.1 s on a laptop.
const ROUNDS: u32 = 16;

/// The same where everybody knows the passphrase, so that there is nothing to slow a guess of.
const ROUNDS_OF_A_KNOWN_ONE: u32 = 1;

/// Most rounds a key file may ask for, some 10 s on a laptop; beyond it the program would only
/// seem to hang.
const MOST_ROUNDS: u32 = 1600;

/// Largest key file looked at. An Ed25519 file has under 1 KiB.
const LARGEST: usize = 8 * 1024;

/// What a person types to sign. Every copy is wiped from memory when dropped, and none is shown.
#[derive(Clone)]
pub struct Passphrase(Zeroizing<String>);

/// A person's key, still locked: it signs only with the passphrase, given anew each time.
#[derive(Clone, Debug)]
pub struct LockedKey {
    key: PrivateKey,
    public: PublicKey,
}

/// A device's key, which signs by itself. Its file has to be readable by its owner alone.
#[derive(Clone, Debug)]
pub struct DeviceKey {
    key: PrivateKey,
    public: PublicKey,
}

impl Passphrase {
    /// Takes what was typed.
    ///
    /// # Errors
    /// [`KeyFault::NoPassphrase`] for nothing: OpenSSH takes an empty one to mean no lock at all.
    pub fn new(typed: Zeroizing<String>) -> Result<Self, KeyFault> {
        if typed.is_empty() {
            Err(KeyFault::NoPassphrase)
        } else {
            Ok(Self(typed))
        }
    }
}

impl LockedKey {
    /// Makes a new key for a person. `dice` has to be fresh from the system's generator.
    ///
    /// # Errors
    /// [`KeyFault`] when the passphrase hash fails.
    pub fn make(dice: &Dice, passphrase: &Passphrase, person: &Id) -> Result<Self, KeyFault> {
        Self::made((dice, ROUNDS), passphrase, person)
    }

    /// The same for the demo, whose passphrase is told to everybody.
    ///
    /// # Errors
    /// As [`LockedKey::make`].
    pub fn make_for_demo(
        dice: &Dice,
        passphrase: &Passphrase,
        person: &Id,
    ) -> Result<Self, KeyFault> {
        Self::made((dice, ROUNDS_OF_A_KNOWN_ONE), passphrase, person)
    }

    fn made(
        (dice, rounds): (&Dice, u32),
        passphrase: &Passphrase,
        person: &Id,
    ) -> Result<Self, KeyFault> {
        let kdf = Kdf::Bcrypt {
            salt: dice.salt().to_vec(),
            rounds,
        };
        let key = unlocked(dice, person)?
            .encrypt_with(
                Cipher::Aes256Ctr,
                kdf,
                u32::from_be_bytes(dice.check()),
                passphrase.0.as_bytes(),
            )
            .map_err(|_| KeyFault::NotMade)?;
        Self::of(key)
    }

    /// Reads an OpenSSH private key file that is under a passphrase.
    ///
    /// # Errors
    /// [`KeyFault`] with the reason; a file without a passphrase is refused.
    pub fn read(file: &str) -> Result<Self, KeyFault> {
        let key = parsed(file)?;
        match key.kdf() {
            _ if !key.is_encrypted() => Err(KeyFault::NotLocked),
            Kdf::Bcrypt { rounds, .. } if *rounds > MOST_ROUNDS => Err(KeyFault::Rounds(*rounds)),
            _ => Self::of(key),
        }
    }

    fn of(key: PrivateKey) -> Result<Self, KeyFault> {
        let public = public_of(&key)?;
        Ok(Self { key, public })
    }

    /// The private key file, to be stored readable by its owner alone.
    ///
    /// # Errors
    /// [`KeyFault::NotMade`] when it cannot be written out.
    pub fn file(&self) -> Result<Zeroizing<String>, KeyFault> {
        file_of(&self.key)
    }

    /// The public half.
    pub const fn public(&self) -> &PublicKey {
        &self.public
    }

    /// Signs `bytes` in `namespace`: the text of an OpenSSH signature file. The key is open only
    /// while this runs.
    ///
    /// # Errors
    /// [`KeyFault::WrongPassphrase`], or [`KeyFault::NotMade`] when signing itself fails.
    pub fn sign(
        &self,
        passphrase: &Passphrase,
        namespace: Namespace,
        bytes: &[u8],
    ) -> Result<String, KeyFault> {
        let open = self
            .key
            .decrypt(passphrase.0.as_bytes())
            .map_err(|_| KeyFault::WrongPassphrase)?;
        sshsig::sign(&open, namespace, bytes).ok_or(KeyFault::NotMade)
    }
}

impl DeviceKey {
    /// Makes a new key for a device. `dice` has to be fresh from the system's generator.
    ///
    /// # Errors
    /// [`KeyFault::NotMade`] when the library cannot hold the key.
    pub fn make(dice: &Dice, device: &Id) -> Result<Self, KeyFault> {
        Self::of(unlocked(dice, device)?)
    }

    /// Reads an OpenSSH private key file without a passphrase.
    ///
    /// # Errors
    /// [`KeyFault`] with the reason; a locked file is refused.
    pub fn read(file: &str) -> Result<Self, KeyFault> {
        let key = parsed(file)?;
        if key.is_encrypted() {
            Err(KeyFault::Locked)
        } else {
            Self::of(key)
        }
    }

    fn of(key: PrivateKey) -> Result<Self, KeyFault> {
        let public = public_of(&key)?;
        Ok(Self { key, public })
    }

    /// The private key file, to be stored readable by its owner alone.
    ///
    /// # Errors
    /// [`KeyFault::NotMade`] when it cannot be written out.
    pub fn file(&self) -> Result<Zeroizing<String>, KeyFault> {
        file_of(&self.key)
    }

    /// The public half.
    pub const fn public(&self) -> &PublicKey {
        &self.public
    }

    /// Signs `bytes` in `namespace`: the text of an OpenSSH signature file.
    ///
    /// # Errors
    /// [`KeyFault::NotMade`] when signing fails.
    pub fn sign(&self, namespace: Namespace, bytes: &[u8]) -> Result<String, KeyFault> {
        sshsig::sign(&self.key, namespace, bytes).ok_or(KeyFault::NotMade)
    }
}

fn unlocked(dice: &Dice, owner: &Id) -> Result<PrivateKey, KeyFault> {
    let pair = KeypairData::Ed25519(Ed25519Keypair::from_seed(dice.seed()));
    PrivateKey::new(pair, owner.as_str()).map_err(|_| KeyFault::NotMade)
}

fn parsed(file: &str) -> Result<PrivateKey, KeyFault> {
    if file.len() > LARGEST {
        return Err(KeyFault::Unreadable);
    }
    PrivateKey::from_openssh(file).map_err(|_| KeyFault::Unreadable)
}

fn public_of(key: &PrivateKey) -> Result<PublicKey, KeyFault> {
    let public = PublicKey::of(key.public_key().key_data()).map_err(KeyFault::Public)?;
    if public.is_hardware() {
        return Err(KeyFault::Handle);
    }
    Ok(public)
}

fn file_of(key: &PrivateKey) -> Result<Zeroizing<String>, KeyFault> {
    key.to_openssh(LineEnding::LF)
        .map_err(|_| KeyFault::NotMade)
}

impl fmt::Debug for Passphrase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Passphrase")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Deed, Mode};

    const DONE: Namespace = Namespace::new(Deed::Performed, Mode::Real);

    fn wren() -> Id {
        Id::read("wren.ashdown").unwrap()
    }

    fn passphrase(typed: &str) -> Passphrase {
        Passphrase::new(Zeroizing::new(typed.to_owned())).unwrap()
    }

    #[test]
    fn a_locked_key_signs_with_its_passphrase_and_no_other() {
        let made =
            LockedKey::make(&Dice::new([7; 52]), &passphrase("hay & oats"), &wren()).unwrap();
        let read = LockedKey::read(&made.file().unwrap()).unwrap();
        assert_eq!(read.public(), made.public());
        let armor = read
            .sign(&passphrase("hay & oats"), DONE, b"seal\n")
            .unwrap();
        assert_eq!(read.public().verify(DONE, b"seal\n", &armor), Ok(()));
        assert_eq!(
            read.sign(&passphrase("hay and oats"), DONE, b"seal\n"),
            Err(KeyFault::WrongPassphrase)
        );
        assert_eq!(
            Passphrase::new(Zeroizing::default()).unwrap_err(),
            KeyFault::NoPassphrase
        );
    }

    #[test]
    fn a_device_key_is_not_taken_for_a_persons_nor_the_other_way_about() {
        let device =
            DeviceKey::make(&Dice::new([8; 52]), &Id::read("laptop-7f3a").unwrap()).unwrap();
        let person = LockedKey::make(&Dice::new([9; 52]), &passphrase("x"), &wren()).unwrap();
        let (device, person) = (device.file().unwrap(), person.file().unwrap());
        assert_eq!(LockedKey::read(&device).unwrap_err(), KeyFault::NotLocked);
        assert_eq!(DeviceKey::read(&person).unwrap_err(), KeyFault::Locked);
        assert!(DeviceKey::read(&device).is_ok());
        assert_eq!(DeviceKey::read("wren").unwrap_err(), KeyFault::Unreadable);
    }

    #[test]
    fn the_same_dice_give_the_same_key_and_other_dice_another() {
        let key = |byte| DeviceKey::make(&Dice::new([byte; 52]), &wren()).unwrap();
        assert_eq!(key(1).public(), key(1).public());
        assert_ne!(key(1).public(), key(2).public());
    }

    #[test]
    fn nothing_secret_is_shown_by_debug() {
        let dice = Dice::new([0xab; 52]);
        let shown = format!(
            "{dice:?} {:?} {:?}",
            passphrase("hay & oats"),
            DeviceKey::make(&dice, &wren()).unwrap()
        );
        assert!(!shown.contains("oats") && !shown.contains("171, 171") && !shown.contains("abab"));
    }

    #[test]
    fn a_key_that_would_take_minutes_to_open_is_refused_before_it_is_tried() {
        let key = LockedKey::make(&Dice::new([7; 52]), &passphrase("hay"), &wren()).unwrap();
        let mut bytes = key.key.to_bytes().unwrap();
        // The rounds stand behind the salt of sixteen bytes.
        let salt = bytes
            .windows(16)
            .position(|window| window == [7; 16])
            .unwrap();
        bytes[salt + 16..salt + 20].copy_from_slice(&100_000u32.to_be_bytes());
        let slow = PrivateKey::from_bytes(&bytes).unwrap();
        let file = slow.to_openssh(LineEnding::LF).unwrap();
        assert_eq!(
            LockedKey::read(&file).unwrap_err(),
            KeyFault::Rounds(100_000)
        );
    }
}
