//! How a person says yes to a signature: where their key lies, and what is typed for it.
//!
//! A key file opens with its passphrase. A key that an agent holds is open already, so the word
//! yes is typed for it: nothing is ever signed by Enter alone.

use crate::record::Passphrase;
use zeroize::Zeroizing;

/// Where the key of who signs lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeyLies {
    /// In a file on this laptop, under a passphrase.
    InAFile,
    /// In the ssh-agent.
    InTheAgent,
    /// In a hardware key that the ssh-agent reaches.
    InHardware,
}

/// What was typed to sign.
#[derive(Clone, Debug)]
pub enum Consent {
    /// What opens the key file.
    Passphrase(Passphrase),
    /// Yes, to a key that the agent holds.
    Yes,
}

/// The word typed for a key that the agent holds.
const YES: &str = "yes";

impl KeyLies {
    /// What is said above the question.
    pub fn told(self) -> Option<&'static str> {
        match self {
            Self::InAFile => None,
            Self::InTheAgent => Some("The ssh-agent holds this key, and asks for no passphrase."),
            Self::InHardware => Some(
                "This is a hardware key. After yes, touch it when it blinks, and type its PIN \
                 where the ssh-agent asks for one.",
            ),
        }
    }

    /// What the field is called in which it is typed.
    pub fn field(self) -> &'static str {
        match self {
            Self::InAFile => "Passphrase:",
            Self::InTheAgent | Self::InHardware => "Type yes to sign:",
        }
    }

    /// Whether what is typed is hidden.
    pub fn is_secret(self) -> bool {
        self == Self::InAFile
    }

    /// What is shown while the key signs.
    pub fn waiting(self) -> &'static str {
        match self {
            Self::InAFile => "checking the passphrase",
            Self::InTheAgent => "waiting for the ssh-agent",
            Self::InHardware => "touch the hardware key when it blinks",
        }
    }

    /// What was typed, as a yes.
    ///
    /// # Errors
    /// A sentence, when it is none.
    pub fn consent(self, typed: Zeroizing<String>) -> Result<Consent, String> {
        match self {
            Self::InAFile => Passphrase::new(typed)
                .map(Consent::Passphrase)
                .map_err(|fault| format!("Not signed: {fault}.")),
            Self::InTheAgent | Self::InHardware if typed.trim().eq_ignore_ascii_case(YES) => {
                Ok(Consent::Yes)
            }
            Self::InTheAgent | Self::InHardware => Err(
                "Not signed: the ssh-agent holds this key. Type the word yes to sign with it."
                    .to_owned(),
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(text: &str) -> Zeroizing<String> {
        Zeroizing::new(text.to_owned())
    }

    #[test]
    fn enter_alone_signs_nothing_wherever_the_key_lies() {
        for lies in [KeyLies::InAFile, KeyLies::InTheAgent, KeyLies::InHardware] {
            assert!(lies.consent(typed("")).is_err());
        }
    }

    #[test]
    fn for_a_key_in_the_agent_the_word_yes_is_typed_and_no_other() {
        for lies in [KeyLies::InTheAgent, KeyLies::InHardware] {
            assert!(matches!(lies.consent(typed(" Yes ")), Ok(Consent::Yes)));
            for other in ["y", "no", "hay and oats", "yes yes"] {
                assert!(lies.consent(typed(other)).is_err(), "{other}");
            }
        }
    }
}
