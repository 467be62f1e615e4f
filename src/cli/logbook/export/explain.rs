//! The page for whoever gets an export and has no program of ours: a lawyer, an insurer, a court.
//!
//! Its commands name a trip and a statement that are there, so that they can be typed as they stand.
//! They need `python3`, `ssh-keygen`, `sha256sum` and nothing else.

mod page;

use crate::record::{Deed, Mode, Namespace, Says, Seal, Statement};
use page::{ABSENT, BY_SCRIPT, CREW, FILES, OPENING, SHOWS, SUMS, TABLES, WORDS};

pub(super) const NAME: &str = "READ-THIS.txt";

/// The first sealed trip and the first crew statement of an export, for the commands. Whoever gets
/// the page types them into a shell, so that a folder with any other name than the program gives is
/// none.
#[derive(Clone, Debug, Default)]
pub(super) struct Example {
    trip: Option<(String, Seal)>,
    statement: Option<(String, Statement)>,
}

impl Example {
    /// Takes a file in, where it is the first seal, or states the first crew file.
    pub(super) fn take(&mut self, at: &str, bytes: &[u8]) {
        let Some((folder, name)) = at.rsplit_once('/') else {
            return;
        };
        if !folder.bytes().all(is_plain) {
            return;
        }
        match name {
            "seal.json" if self.trip.is_none() => {
                let seal = Seal::read(bytes).ok();
                self.trip = seal.map(|seal| (folder.to_owned(), seal));
            }
            "statement.json" if self.statement.is_none() => {
                let first = |one: &Statement| matches!(&one.says, Says::Crew(change) if change.before.is_none());
                let statement = Statement::read(bytes).ok().filter(first);
                self.statement = statement.map(|one| (folder.to_owned(), one));
            }
            _ => {}
        }
    }

    /// The page of an export of a whole logbook.
    pub(super) fn text(&self) -> String {
        self.page(&[OPENING, FILES, TABLES, SUMS])
    }

    /// The page of an incident's records, which begins with these words and goes on with those once
    /// the files are told.
    pub(super) fn text_of_incident(&self, opening: &str, left_out: &str) -> String {
        self.page(&[opening, FILES, SUMS, left_out])
    }

    /// What every page goes on with.
    fn page(&self, opening: &[&str]) -> String {
        let words =
            WORDS.map(|finding| format!("    {:<19}{}\n", finding.word(), finding.meaning()));
        let words = words.concat();
        [
            self.mode(),
            &opening.concat(),
            &self.trip_commands(),
            &self.statement_commands(),
            CREW,
            BY_SCRIPT,
            &words,
            "\n",
            ABSENT,
            SHOWS,
        ]
        .concat()
    }

    /// What does not count says so first.
    fn mode(&self) -> &'static str {
        let trip = self.trip.as_ref().map(|(_, seal)| seal.mode);
        let statement = self.statement.as_ref().map(|(_, one)| one.mode);
        match trip.or(statement) {
            Some(Mode::Demo) => "DEMO: AN INVENTED BARN. NOTHING HERE COUNTS.\n\n",
            Some(Mode::Drill) => "DRILL: TRAINING RUNS. NOTHING HERE COUNTS.\n\n",
            Some(Mode::Real) | None => "",
        }
    }

    fn trip_commands(&self) -> String {
        let start = "\
HOW TO CHECK IT WITHOUT THE PROGRAM

Open a terminal in this folder. The commands need Python 3, OpenSSH and sha256sum, and each is one
line. They change nothing.

That no file was changed since it was exported; each line ends with “OK”. This finds damage. It does
not find forgery: who changes a file can write SHA256SUMS anew. So take down the hash of SHA256SUMS
itself when you get this, and compare it later:

    sha256sum -c SHA256SUMS
    sha256sum SHA256SUMS

";
        let Some((folder, seal)) = &self.trip else {
            return format!("{start}No trip here is signed, so there is no seal to check.\n\n");
        };
        let person = Namespace::new(Deed::Performed, seal.mode);
        let device = Namespace::new(Deed::Witnessed, seal.mode);
        let (id, device_id) = (&seal.person, &seal.device);
        format!(
            "\
{start}The next ones are for one trip. For another, change the folder, and behind -I the id of who
signed: it stands in seal.json as “person”, the laptop's as “device”.

That the person signed this seal, and that the laptop did. Each says “Good … signature”:

    ssh-keygen -Y verify -f {folder}/crew.allowed_signers -I {id} -n {person} -s {folder}/seal.person.sig < {folder}/seal.json
    ssh-keygen -Y verify -f {folder}/crew.allowed_signers -I {device_id} -n {device} -s {folder}/seal.device.sig < {folder}/seal.json

That the checklist, the rig and the crew file are those it was walked by. Their hashes stand in the
first line of trip.jsonl, as “checklist”, “rig” and “crew”:

    sha256sum {folder}/checklist.yaml {folder}/rig.yaml {folder}/crew.allowed_signers

That the journal is the one that was signed: seal.json names the number of its lines, as “lines”, and
the hash of the last of them, as “last”, and each line names the hash of the line before, as “prev”.
The hash of a line is SHA-256 over the ASCII text hames-line/1, a zero byte, and the line without
its line feed. Of the last line it is:

    python3 -c \"import hashlib; print(hashlib.sha256(b'hames-line/1' + bytes(1) + open('{folder}/trip.jsonl', 'rb').read().split(bytes([10]))[-2]).hexdigest())\"

",
        )
    }

    fn statement_commands(&self) -> String {
        let Some((folder, statement)) = &self.statement else {
            return "No manager has stated a crew file here, so there is no statement to check.\n\n"
                .to_owned();
        };
        let namespace = Namespace::new(Deed::Stated, statement.mode);
        let id = &statement.manager;
        format!(
            "\
That a manager signed a statement; it says “Good … signature”:

    ssh-keygen -Y verify -f {folder}/allowed_signers -I {id} -n {namespace} -s {folder}/statement.sig < {folder}/statement.json

For another statement change its folder and the manager, and behind -f name the crew file it was
signed by: the one whose hash stands in statement.json as “crew”. These are all there are:

    sha256sum mgr/*/*/allowed_signers

",
        )
    }
}

/// No shell makes anything else of it.
const fn is_plain(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'/' | b'.' | b'-')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_explains_every_word_that_the_second_program_has() {
        let known: Vec<&str> = WORDS.iter().map(|finding| finding.word()).collect();
        let script = include_str!("../../../../tests/second/signed.py");
        for (word, ..) in crate::record::Finding::TABLE {
            // It walks nothing again.
            let says = script.contains(&format!("\"{word}\":"));
            assert_eq!(says, known.contains(&word), "{word}");
        }
    }

    #[test]
    fn a_folder_with_a_name_a_shell_would_run_is_no_example() {
        let seal = include_bytes!("../../../../tests/vectors/record/v1/seal.json");
        let commands = |folder: &str| {
            let mut example = Example::default();
            example.take(&format!("{folder}/seal.json"), seal);
            example.text().contains("ssh-keygen -Y verify")
        };
        assert!(commands("dev/laptop-7f3a/t/000007-9f3c01ab"));
        for hostile in [
            "dev/a;reboot/t/x",
            "dev/$(reboot)/t/x",
            "dev/a b/t/x",
            "dev/`x`/t/x",
        ] {
            assert!(!commands(hostile), "{hostile}");
        }
    }
}
