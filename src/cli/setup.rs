//! The first sitting: a logbook is made for a barn and its first person, line by line.

use crate::cli::clerk::{Person, Place, found};
use crate::plain::{Options, Stop, Talk};
use crate::record::{Id, Passphrase, PrintedName, Role};
use crate::world::World;
use std::io::{self, BufRead, Write};
use zeroize::Zeroizing;

/// Fewest characters of a passphrase: NIST SP 800-63B, 5.1.1.1, from memory.
const SHORTEST: usize = 8;

/// How the first sitting was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Left {
    /// With a logbook.
    Logbook,
    /// With nothing made.
    Nothing,
}

/// Asks for the barn and the person, and makes the logbook.
pub(super) fn set_up(
    place: &Place,
    world: &dyn World,
    input: &mut dyn BufRead,
    output: &mut dyn Write,
    options: Options,
) -> io::Result<Left> {
    let mut talk = Talk::new(input, output, options);
    match asked(place, world, &mut talk) {
        Ok(left) => Ok(left),
        Err(Stop::Broken(error)) => Err(error),
        Err(Stop::Left | Stop::InputEnded | Stop::DiskFailed) => {
            talk.head("The input has ended. No logbook was made.")?;
            Ok(Left::Nothing)
        }
    }
}

fn asked(place: &Place, world: &dyn World, talk: &mut Talk<'_>) -> Result<Left, Stop> {
    talk.head("There is no logbook yet. It is made now, in")?;
    talk.say(&place.root.display().to_string())?;
    let barn = loop {
        let typed = talk.ask("Name of the barn?")?;
        match PrintedName::read(&typed) {
            Ok(name) => break name,
            Err(fault) => talk.say(&format!("{fault}."))?,
        }
    };
    let name = loop {
        let typed = talk.ask("Your name, as it is printed beside your signature?")?;
        match PrintedName::read(&typed) {
            Ok(name) => break name,
            Err(fault) => talk.say(&format!("{fault}."))?,
        }
    };
    let id = id(talk, &name)?;
    let roles = roles(talk)?;
    let passphrase = passphrase(talk)?;
    talk.say("Making your key and this laptop's ...")?;
    let person = Person {
        id,
        name,
        roles,
        passphrase,
    };
    match found(&crate::store::Local, world, place, barn.as_str(), &[person]) {
        Ok(()) => {
            talk.head(&format!("The logbook of {barn} is made."))?;
            talk.say(
                "The folder keys in it holds your key. Keep a copy of your key elsewhere; \
                 the passphrase cannot be got back.",
            )?;
            Ok(Left::Logbook)
        }
        Err(trouble) => {
            talk.head(&format!("No logbook was made. {trouble}"))?;
            Ok(Left::Nothing)
        }
    }
}

/// The id: the name in small letters, or asked where the name has other letters.
fn id(talk: &mut Talk<'_>, name: &PrintedName) -> Result<Id, Stop> {
    let small = name.as_str().to_lowercase().replace(' ', ".");
    if let Ok(id) = Id::read(&small) {
        return Ok(id);
    }
    loop {
        let typed = talk.ask("A short name for records, such as wren.ashdown?")?;
        match Id::read(&typed) {
            Ok(id) => return Ok(id),
            Err(fault) => talk.say(&format!("{fault}."))?,
        }
    }
}

/// One role or several. Without a manager nobody can let others into the crew, so that is told.
fn roles(talk: &mut Talk<'_>) -> Result<Vec<Role>, Stop> {
    let known = [Role::Driver, Role::Groom, Role::Manager, Role::Examiner];
    let words: Vec<&str> = known.iter().map(|role| role.word()).collect();
    talk.say("Whoever changes the crew, approves checklists and looks at trips is a manager.")?;
    loop {
        let typed = talk.ask(&format!(
            "You sign as: {}? Several with blanks between.",
            words.join(", ")
        ))?;
        let typed = typed.to_lowercase();
        let named = typed.split([' ', ',']).filter(|word| !word.is_empty());
        let named: Vec<&str> = named.collect();
        if !named.is_empty() && named.iter().all(|word| words.contains(word)) {
            let roles = known.into_iter();
            return Ok(roles.filter(|role| named.contains(&role.word())).collect());
        }
        talk.say(&format!("Type one or several of: {}.", words.join(", ")))?;
    }
}

/// A new passphrase, asked twice.
pub(super) fn passphrase(talk: &mut Talk<'_>) -> Result<Passphrase, Stop> {
    loop {
        let first = talk.ask_secret(&format!(
            "A passphrase for your key, at least {SHORTEST} characters? It is asked at each signature."
        ))?;
        if first.chars().count() < SHORTEST {
            talk.say("That is too short.")?;
            continue;
        }
        let second = talk.ask_secret("The same once more?")?;
        if *first != *second {
            talk.say("The two differ.")?;
            continue;
        }
        match Passphrase::new(Zeroizing::clone(&first)) {
            Ok(passphrase) => return Ok(passphrase),
            Err(fault) => talk.say(&format!("{fault}."))?,
        }
    }
}
