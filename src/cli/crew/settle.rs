//! `hames crew settle`: of two changes of the same crew file one goes on, by a manager's word.

use crate::cli::Status;
use crate::cli::clerk::one_manager;
use crate::cli::crew::{AboutCrew, Stopped, meant, stated};
use crate::cli::sitting::options;
use crate::plain::Talk;
use crate::record::{Change, Changed, Revision, Role, Signer, Statements};
use std::io::{self, Write};

/// Fewest characters of a hash that name a crew file.
const FEWEST: usize = 4;

pub(super) fn settle(
    about: &AboutCrew,
    file: Option<&str>,
    by: Option<&str>,
    out: &mut dyn Write,
) -> Result<Status, Stopped> {
    let clerk = about.clerk();
    let statements = clerk.statements()?;
    let branches = statements.roster().branches();
    if branches.is_empty() {
        writeln!(
            out,
            "No two managers changed the crew apart. There is nothing to settle."
        )?;
        return Ok(Status::Fine);
    }
    let Some(wanted) = file else {
        for branch in &branches {
            writeln!(out, "{}", told(branch, &statements))?;
            let others: Vec<&Revision> = but(&branches, branch);
            for signer in statements.roster().not_added(branch, &others) {
                let (name, id) = (&signer.name, &signer.id);
                writeln!(
                    out,
                    "    {name} ({id}) is not in it; the other side added them"
                )?;
            }
        }
        writeln!(
            out,
            "\nAgree with the other manager, then: hames crew settle HASH\nWhat the others \
             changed is then not in force; make those changes again."
        )?;
        return Ok(Status::Findings);
    };
    let named = |branch: &&&Revision| branch.change.file.to_string().starts_with(wanted);
    let mut found = branches.iter().filter(named);
    let (Some(branch), None, true) = (found.next(), found.next(), wanted.len() >= FEWEST) else {
        return Err(meant(
            "Name one of the crew files by the first characters of its hash; hames crew settle \
             lists them.",
        ));
    };
    let is_manager = |signer: &&Signer| signer.roles.contains(&Role::Manager);
    let managers = branch.crew.signers().iter().filter(is_manager);
    let managers: Vec<Signer> = managers.filter(|one| clerk.has_key(one)).cloned().collect();
    let signer = one_manager(&managers, by).map_err(meant)?;
    let input = io::stdin();
    let mut input = input.lock();
    let mut talk = Talk::new(&mut input, out, options(about.look, false));
    talk.say(&format!("Goes on: {}", told(branch, &statements)))?;
    let others = but(&branches, branch);
    for other in &others {
        talk.say(&format!("Ends: {}", told(other, &statements)))?;
    }
    let not_added = statements.roster().not_added(branch, &others);
    let consent = stated::consent(&clerk, &signer, &mut talk)?;
    let put = clerk.settle_crew(branch, &signer, &consent)?;
    stated::told(&put, &signer, &mut talk)?;
    for signer in not_added {
        talk.head(&again(signer))?;
    }
    Ok(Status::Fine)
}

fn but<'r>(branches: &[&'r Revision], branch: &Revision) -> Vec<&'r Revision> {
    let others = branches.iter().filter(|other| **other != branch);
    others.copied().collect()
}

/// What is to be done about somebody whom only the side that ended had added.
fn again(signer: &Signer) -> String {
    let (name, id) = (&signer.name, &signer.id);
    let add = if signer.roles.contains(&Role::Device) {
        "--device".to_owned()
    } else {
        let roles = signer.roles.iter();
        let roles: Vec<String> = roles
            .map(|role| format!("--role {}", role.word()))
            .collect();
        roles.join(" ")
    };
    format!(
        "{name} ({id}) was not added: the crew file that goes on never had them. What they signed and \
         is merged here stands; what comes later is told as signed by somebody not in the crew. To \
         let them in again, with the line that hames crew request tells on their laptop: \
         hames crew add {add} --public FILE"
    )
}

/// Who changed what, for a person to choose by.
fn told(branch: &Revision, statements: &Statements) -> String {
    let change = |change: &Change| {
        let what = match change.what {
            Changed::Added => "added",
            Changed::Retired => "retired",
            Changed::Revoked => "revoked",
            Changed::Roles => "other roles",
            Changed::SignedOff => "signed off otherwise",
        };
        format!("{} {what}", change.who)
    };
    let mut changes: Vec<String> = branch.change.changes.iter().map(change).collect();
    if changes.is_empty() {
        // What settles a fork changes nothing itself.
        let mut all = statements.roster().revisions().iter();
        let before = all.find(|one| Some(one.statement) == branch.change.before);
        changes.push(before.map_or_else(
            || "nothing changed".to_owned(),
            |before| {
                let (number, by) = (before.change.number, &before.by);
                format!("settled for crew file {number}, by {by}")
            },
        ));
    }
    // A change and its undoing leave the same file, so the statement is named with it.
    let stated = statements.find(&branch.statement);
    let stated = stated.map_or_else(String::new, |stated| {
        format!("statement {} of ", stated.statement().number)
    });
    format!(
        "{}  crew file {}, by {stated}{}: {}",
        branch.change.file,
        branch.change.number,
        branch.by,
        changes.join(", ")
    )
}
