//! The parts of the page that are the same in every export.

use crate::record::Finding;

/// What an export of a whole logbook is.
pub(super) const OPENING: &str = "\
RECORDS OF A BARN THAT HAULS HORSES

These are copies, byte for byte, of records kept by the program Hames. Each trip is one walk round
a truck and trailer by a checklist: what was looked at, what was measured and typed, what the
limits were and whose word each limit is, and what came of it. Nothing in this folder needs the
program to be read; all of it is text, and any editor shows it.

";

pub(super) const FILES: &str = "\
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
mgr/MANAGER/NUMBER-HASH/    what a manager stated and signed about the whole
    statement.json          one line; its “kind” says what is stated, and “meaning” in which words
    statement.sig           the signature of the manager
    allowed_signers         where it puts a crew file in force, that file
approved/                   checklists a manager approved, with the signature
crew/allowed_signers        the crew file: who might sign when this was exported
barn.txt                    the name of the barn
";

/// What an export has and an incident's records have not.
pub(super) const TABLES: &str = "\
drill/dev/LAPTOP/t/…/       a drill: a training run on a rig of which a scenario says what is wrong.
                            Nothing of it was walked on a rig. It has the files of a trip, and
    scenario.yaml           what it was played by
    sights.yaml             what there was to be seen from where
tables/                     the records as rows, for spreadsheets and query engines. They are
                            drawn from the records for convenience and prove nothing themselves.
";

pub(super) const SUMS: &str = "\
SHA256SUMS                  the hash of every file here but itself, which cannot hold its own
second/                     a second program that checks all of it; see below

Private keys never lie in an export. If you find one here, somebody put it there.

";

pub(super) const CREW: &str = "\
A crew file says who may sign and with which key. It proves nothing by lying here: compare the
keys with what the people themselves say, or the hash of the file with a copy you had before:

    sha256sum crew/allowed_signers

";

pub(super) const BY_SCRIPT: &str = "\
The whole at once, every signature and every link, by a second program that shares no line with
the first and needs nothing but Python 3 and ssh-keygen. It says of each trip what it finds:

    python3 -B second/logbook.py .

It takes the crew file in this folder for the true one. If you have the crew file from somebody you
trust, let it go by that: put the path of your copy in the place of crew/allowed_signers.

    python3 -B second/logbook.py --crew=crew/allowed_signers .

A program that lies beside what it checks can have been changed together with it. Where that
matters, take it, and the crew file, from somebody else. Whether a walk followed its checklist, and
what lies beside trips under another name, is for the first program to say. Its words, the lightest
first:

";

/// The words of the second program, which walks nothing again.
pub(super) const WORDS: [Finding; 12] = [
    Finding::Intact,
    Finding::NotCountersigned,
    Finding::Unsealed,
    Finding::OtherMode,
    Finding::Gap,
    Finding::UnknownSigner,
    Finding::OutsideBracket,
    Finding::RevokedSigner,
    Finding::Truncated,
    Finding::Fork,
    Finding::Altered,
    Finding::Unreadable,
];

pub(super) const ABSENT: &str = "\
TRIPS THAT ARE NOT HERE, AND NUMBERS THAT ARE HERE TWICE

A laptop numbers its trips from 1, and each names the one before. Where a number is missing, or two
folders of one laptop have the same number, look among what managers stated. This lists it, with who
stated what; the words are in the files:

    python3 -c \"import glob, json; [print(s['kind'], 'by', s['name'], 'in', p) for p in sorted(glob.glob('mgr/*/*/statement.json')) for s in [json.load(open(p, encoding='utf-8'))]]\"

“pruned”: a manager took these trips out of the logbook for good. Of each the statement keeps the
number, the hashes of the last line and of the seal, and how the trip ended. What was read on it,
and by whom, is here no more. The next trip of that laptop names the same hash, so it shows that
the trip was there, and where; that it was whole when it was taken out is the manager's word.

“loss-accepted”: a manager states that these trips are lost. They may be anywhere, or nowhere.

“fork-closed”: the log of a laptop went on in two ways, because a backup was put back or a disk was
copied. Both lie here, under the same number. Which of them goes on is the manager's word; the
records themselves show only that there are two.

“joined”: one manager signed on two laptops apart, so that two of their statements have one number.
That it was this manager both times, and nobody with a copy of the key, is the word of who joined.

“defect-owned”: who sees to something that was found bad, and by when. It closes nothing.

Without such a statement a missing number is a gap, and two trips with one number are a fork, and
the second program says so. Nothing shows trips that a laptop made after its newest one here.

";

pub(super) const SHOWS: &str = "\
WHAT THE RECORDS CAN SHOW, AND WHAT NOT

They can show who signed what, in which order, and that nothing between two witnessed points was
changed or removed.

They cannot show that the pin was in the hitch, that a clock was right, that two people did not
agree to lie, or that a laptop's newest trips are all there: nothing after the last witness is
witnessed. A reading that was typed untruly looks like any other. A time is what the laptop's clock
said; the tables mark clocks that do not agree with themselves. Who holds a person's private key
and its passphrase signs as that person.

A verdict in a record is of that day and that rig, by the limits that stand beside it. It is no
certificate that anything is fit for the road, then or now, and it takes the place of no
inspection, licence or law. Where it matters, ask somebody licensed to judge the vehicle.

How every line is written is laid down in the documents of the program under “The record format”.
";
