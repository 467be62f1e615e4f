//! The page for whoever gets an export and has no program of ours: a lawyer, an insurer, a court.
//!
//! Its commands name a trip that is there, so that they can be typed as they stand.

use crate::record::{Deed, Mode, Namespace, Seal};

pub(super) const NAME: &str = "READ-THIS.txt";

/// The first sealed trip of an export, for the commands. Whoever gets the page types them into a
/// shell, so that a folder with any other name than the program gives is none.
#[derive(Clone, Debug, Default)]
pub(super) struct Example(Option<(String, Seal)>);

impl Example {
    /// Takes a file in, where it is the first seal.
    pub(super) fn take(&mut self, at: &str, bytes: &[u8]) {
        if self.0.is_none()
            && let Some(folder) = at.strip_suffix("/seal.json")
            && folder.bytes().all(is_plain)
            && let Ok(seal) = Seal::read(bytes)
        {
            self.0 = Some((folder.to_owned(), seal));
        }
    }

    /// The page.
    pub(super) fn text(&self) -> String {
        format!(
            "{}{FILES}{}{BY_SCRIPT}{SHOWS}",
            self.mode(),
            self.commands()
        )
    }

    /// What does not count says so first.
    fn mode(&self) -> &'static str {
        match self.0.as_ref().map(|(_, seal)| seal.mode) {
            Some(Mode::Demo) => "DEMO: AN INVENTED BARN. NOTHING HERE COUNTS.\n\n",
            Some(Mode::Drill) => "DRILL: TRAINING RUNS. NOTHING HERE COUNTS.\n\n",
            Some(Mode::Real) | None => "",
        }
    }

    fn commands(&self) -> String {
        let Some((folder, seal)) = &self.0 else {
            return "HOW TO CHECK IT\n\nNo trip here is signed, so there is no signature to check.\n\n"
                .to_owned();
        };
        let person = Namespace::new(Deed::Performed, seal.mode);
        let device = Namespace::new(Deed::Witnessed, seal.mode);
        let id = &seal.person;
        format!(
            "\
HOW TO CHECK IT WITHOUT THE PROGRAM

Open a terminal in this folder. Any computer with OpenSSH and the usual tools will do. The
commands below are for one trip; for another, change the folder and the name.

That no file was changed since it was exported:

    sha256sum -c SHA256SUMS

That the person signed this seal, and that the laptop did. Each says “Good … signature”:

    ssh-keygen -Y verify -f {folder}/crew.allowed_signers -I {id} -n {person} -s {folder}/seal.person.sig < {folder}/seal.json
    ssh-keygen -Y verify -f {folder}/crew.allowed_signers -I {device_id} -n {device} -s {folder}/seal.device.sig < {folder}/seal.json

That the checklist and the rig are the files that were walked by. Their hashes stand in the first
line of trip.jsonl:

    sha256sum {folder}/checklist.yaml {folder}/rig.yaml
    head -n 1 {folder}/trip.jsonl

That the journal is the one that was signed: the seal names the number of its lines and the hash of
the last of them, and each line names the hash of the line before. The hash of a line is SHA-256
over the ASCII text hames-line/1, a zero byte, and the line without its line feed:

    tail -n 1 {folder}/trip.jsonl | tr -d '\\n' | {{ printf 'hames-line/1\\0'; cat; }} | sha256sum
    cat {folder}/seal.json

A crew file says who may sign and with which key. It proves nothing by lying here: compare the
keys with what the people themselves say, or the hash of the file with a copy you had before.

",
            device_id = seal.device,
        )
    }
}

/// No shell makes anything else of it.
const fn is_plain(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'/' | b'.' | b'-')
}

const FILES: &str = "\
RECORDS OF A BARN THAT HAULS HORSES

These are copies, byte for byte, of records kept by the program Hames. Each trip is one walk round
a truck and trailer by a checklist: what was looked at, what was measured and typed, what the
limits were and whose word each limit is, and what came of it. Nothing in this folder needs the
program to be read; all of it is text.

WHAT THE FILES ARE

dev/LAPTOP/t/NUMBER-TRIP/   one trip
    trip.jsonl              its journal, one line for each act, in order
    trip.torn-*             what a crash left of a line; it counts for nothing
    checklist.yaml          the checklist as it was walked
    rig.yaml                the truck, the trailer and the instruments as they were described
    crew.allowed_signers    who might sign on that day, with their public keys
    seal.json               how the trip ended; this is what was signed
    seal.person.sig         the signature of the person
    seal.device.sig         the signature of the laptop
mgr/MANAGER/                what managers stated and signed about the whole, where they did
approved/                   checklists a manager approved, with the signature
crew/allowed_signers        who might sign when this was exported
barn.txt                    the name of the barn
tables/                     the records as rows, for spreadsheets and query engines. They are
                            drawn from the records for convenience and prove nothing themselves.
SHA256SUMS                  the hash of every file here
second/                     a second program that checks all of it; see below

Private keys never lie in an export. If you find one here, somebody put it there.

";

const BY_SCRIPT: &str = "\
The whole at once, every signature and every link, by a second program that shares no line with
the first and needs nothing but Python 3 and ssh-keygen. It says of each trip what it finds:

    python3 second/logbook.py .

A program that lies beside what it checks can have been changed together with it. Where that
matters, take it, and the keys you compare with, from somebody else.

";

const SHOWS: &str = "\
WHAT THE RECORDS CAN SHOW, AND WHAT NOT

They can show who signed what, in which order, and that nothing between two witnessed points was
changed or removed.

They cannot show that the pin was in the hitch, that a clock was right, that two people did not
agree to lie, or that a laptop's newest trips are all there: nothing after the last witness is
witnessed. A reading that was typed untruly looks like any other. A time is what the laptop's clock
said; the tables mark clocks that do not agree with themselves.

A verdict in a record is of that day and that rig, by the limits that stand beside it. It is no
certificate that anything is fit for the road, then or now, and it takes the place of no
inspection, licence or law. Where it matters, ask somebody licensed to judge the vehicle.

How every line is written is laid down in the documents of the program under “The record format”.
";

#[cfg(test)]
mod tests {
    use super::*;

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
