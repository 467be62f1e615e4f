//! Asking for a signature: the passphrase, or the word yes for a key that the agent holds.

use crate::desk::{Consent, KeyLies};
use crate::plain::{Stop, Talk};
use crate::record::Mode;

impl Talk<'_> {
    /// Asks whoever is called `name` to sign `what`; a sentence where what was typed is no yes.
    pub(crate) fn consent(
        &mut self,
        lies: KeyLies,
        (name, what): (&str, &str),
        mode: Mode,
    ) -> Result<Result<Consent, String>, Stop> {
        if let Some(told) = lies.told() {
            self.say(told)?;
        }
        let hint = match mode {
            Mode::Demo if lies.is_secret() => " In the demo it is the word demo.",
            Mode::Demo | Mode::Real | Mode::Drill => "",
        };
        let typed = if lies.is_secret() {
            self.ask_secret(&format!("Passphrase of {name}{what}.{hint}"))?
        } else {
            self.ask(&format!("{name}{what}: type yes to sign."))?
                .into()
        };
        let consent = lies.consent(typed);
        if consent.is_ok() && !lies.is_secret() {
            self.say(&format!("{} ...", sentence(lies.waiting())))?;
        }
        Ok(consent)
    }
}

/// With a great letter first.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(|letter| letter.to_ascii_uppercase());
    first.into_iter().chain(letters).collect()
}
