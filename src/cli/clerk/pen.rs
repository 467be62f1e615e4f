//! What a person signs with: a key file under a passphrase, or a key that the ssh-agent holds.

use crate::cli::clerk::founding::read_key;
use crate::cli::clerk::open::nothing_open;
use crate::cli::clerk::{Clerk, Trouble};
use crate::desk::{Consent, KeyLies, Reply};
use crate::record::{
    AgentFault, LockedKey, Mode, Namespace, PublicKey, Role, Signer, ask_to_sign, keys_listed,
    list_keys, signed,
};
use crate::store::{Disk, Logbook};
use crate::world::{Agent, AgentTrouble};
use std::time::Duration;

/// How long the agent may take to say what it holds. It has nothing to ask anybody.
const TO_LIST: Duration = Duration::from_secs(3);

/// How long it may take to sign: somebody may look for the hardware key, touch it, type its PIN.
const TO_SIGN: Duration = Duration::from_secs(120);

/// What a person signs with.
#[derive(Debug)]
pub(super) enum Pen {
    /// The key file on this laptop.
    File(LockedKey),
    /// A key that this agent holds.
    Held(Agent, PublicKey),
}

impl<D: Disk> Clerk<D> {
    /// Where the key of who signs the trip in hand lies.
    pub(super) fn find_key(&self, signer: &str) -> Result<Reply, Trouble> {
        let books = self.books_in_force()?;
        let open = self.open.as_ref().ok_or_else(nothing_open)?;
        let crew = open.crew(&books.logbook)?;
        let who = open.signer(&crew, signer)?;
        let lies = self.pen(&books.logbook, who)?.lies();
        let signer = signer.to_owned();
        Ok(Reply::Key { signer, lies })
    }

    /// The keys the ssh-agent holds that could be in a crew file.
    pub(super) fn keys_held(&self) -> Result<Vec<PublicKey>, Trouble> {
        match &self.agent {
            None => Err(Trouble::Said(
                "No ssh-agent runs here: SSH_AUTH_SOCK is not set. Start one, and add the key \
                 with ssh-add."
                    .to_owned(),
            )),
            Some(agent) => Ok(keys_held(agent)?),
        }
    }

    /// Where the key of one of the crew lies.
    ///
    /// # Errors
    /// A sentence, where it is not within reach.
    pub fn key_lies(&self, signer: &Signer) -> Result<KeyLies, Trouble> {
        let logbook = Logbook::open(self.disk.clone(), &self.place.root)?;
        Ok(self.pen(&logbook, signer)?.lies())
    }

    /// Whether this opens the key, before anything else is done. What a touch of a hardware key will
    /// bring cannot be known before.
    ///
    /// # Errors
    /// A sentence with its next step.
    pub fn opens(&self, signer: &Signer, consent: &Consent) -> Result<(), Trouble> {
        let pen = self.pen(&self.books()?.logbook, signer)?;
        if let (Pen::File(key), Consent::Passphrase(passphrase)) = (&pen, consent) {
            key.sign(
                passphrase,
                Namespace::new(Role::Driver.deed(), Mode::Demo),
                b"",
            )?;
        }
        Ok(())
    }

    /// What one of the crew signs with: the key file, where it lies here, else the agent.
    pub(super) fn pen(&self, logbook: &Logbook<D>, signer: &Signer) -> Result<Pen, Trouble> {
        let files = logbook.keys_of(&signer.id)?;
        let other = !files.is_empty();
        for file in files {
            let key = read_key(logbook, &file)?;
            if *key.public() == signer.key {
                return Ok(Pen::File(key));
            }
        }
        let name = &signer.name;
        let why = match &self.agent {
            None => "no ssh-agent runs here".to_owned(),
            Some(agent) => match keys_held(agent) {
                Ok(keys) if keys.contains(&signer.key) => {
                    return Ok(Pen::Held(agent.clone(), signer.key.clone()));
                }
                Ok(_) => "the ssh-agent does not hold it".to_owned(),
                Err(trouble) => trouble.0,
            },
        };
        Err(Trouble::Said(if other {
            format!(
                "The key of {name} on this laptop is not the one in the crew file. Have the \
                 manager enrol the new one."
            )
        } else {
            format!(
                "The key of {name} is not on this laptop, and {why}. Sign where the key is, or \
                 add it to the ssh-agent with ssh-add."
            )
        }))
    }
}

impl Pen {
    /// Where the key lies.
    pub(super) fn lies(&self) -> KeyLies {
        match self {
            Self::File(_) => KeyLies::InAFile,
            Self::Held(_, key) if key.is_hardware() => KeyLies::InHardware,
            Self::Held(..) => KeyLies::InTheAgent,
        }
    }

    /// Signs: the text of a signature file, verified.
    pub(super) fn sign(
        &self,
        consent: &Consent,
        namespace: Namespace,
        bytes: &[u8],
    ) -> Result<String, Trouble> {
        match (self, consent) {
            (Self::File(key), Consent::Passphrase(passphrase)) => {
                Ok(key.sign(passphrase, namespace, bytes)?)
            }
            (Self::Held(agent, key), Consent::Yes) => Ok(held_signs(agent, key, namespace, bytes)?),
            _ => Err(Trouble::Said(
                "Not signed: the key has changed its place since it was asked for. Choose who \
                 signs again."
                    .to_owned(),
            )),
        }
    }
}

/// Why the agent is of no use, as words that go on in a sentence.
struct NoUse(String);

fn keys_held(agent: &Agent) -> Result<Vec<PublicKey>, NoUse> {
    Ok(keys_listed(&agent.ask(&list_keys(), TO_LIST)?)?)
}

fn held_signs(
    agent: &Agent,
    key: &PublicKey,
    namespace: Namespace,
    bytes: &[u8],
) -> Result<String, NoUse> {
    let question = ask_to_sign(key, namespace, bytes).map_err(|fault| NoUse(fault.to_string()))?;
    let answer = agent.ask(&question, TO_SIGN)?;
    Ok(signed(&answer, key, namespace, bytes)?)
}

impl From<AgentTrouble> for NoUse {
    fn from(trouble: AgentTrouble) -> Self {
        Self(trouble.to_string())
    }
}

impl From<AgentFault> for NoUse {
    fn from(fault: AgentFault) -> Self {
        Self(fault.to_string())
    }
}

impl From<NoUse> for Trouble {
    fn from(why: NoUse) -> Self {
        Self::Said(format!("Not signed: {}.", why.0))
    }
}
