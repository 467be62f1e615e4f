//! Choosing one of several by its number.

use crate::plain::going::Session;
use crate::plain::stop::Stop;

impl Session<'_> {
    /// Lists choices and takes a number. A single choice is said, not asked. Nothing when the
    /// person typed `back`.
    pub(super) fn choose(&mut self, what: &str, choices: &[String]) -> Result<Option<usize>, Stop> {
        if let [only] = choices {
            self.talk.say(&format!("{what}: {only}."))?;
            return Ok(Some(0));
        }
        self.talk.head(&format!("{what}:"))?;
        self.number(choices)?;
        loop {
            let typed = self.talk.ask("Type its number, or back.")?;
            match typed.as_str() {
                "back" | "b" => return Ok(None),
                "quit" | "q" => return Err(Stop::Left),
                _ => match pick(&typed, choices.len()) {
                    Some(index) => return Ok(Some(index)),
                    None => self.no_choice(&typed, choices.len())?,
                },
            }
        }
    }

    /// Lists choices, numbered from 1.
    pub(super) fn number(&mut self, choices: &[String]) -> Result<(), Stop> {
        for (number, choice) in (1..).zip(choices) {
            self.talk.say(&format!("{number}. {choice}"))?;
        }
        Ok(())
    }

    /// Says that what was typed is none of the choices.
    pub(super) fn no_choice(&mut self, typed: &str, count: usize) -> Result<(), Stop> {
        let said = if typed.is_empty() {
            "Enter alone chooses nothing.".to_owned()
        } else {
            format!("“{typed}” is not one of them.")
        };
        Ok(self
            .talk
            .say(&format!("{said} Type a number from 1 to {count}."))?)
    }
}

/// The place of the number typed, of `count`.
pub(super) fn pick(typed: &str, count: usize) -> Option<usize> {
    let all_digits = !typed.is_empty() && typed.bytes().all(|byte| byte.is_ascii_digit());
    let number: usize = typed.parse().ok().filter(|_| all_digits)?;
    (1..=count).contains(&number).then(|| number - 1)
}
