//! Where a key is pressed: what is on the screen and waits for an answer.

/// What the screen waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Context {
    /// The first screen.
    Start,
    /// The page of a rig.
    RigPage,
    /// Everything that is open and due for a rig is read.
    Matters,
    /// Who reads, who does.
    Crew,
    /// A manager's question about an earlier trip is answered, or left.
    Question,
    /// The odometer is typed.
    Odometer,
    /// A step waits to be begun.
    Next,
    /// A step wants its instrument chosen.
    Instrument,
    /// A reading is typed.
    Reading,
    /// A state is chosen.
    Sighting,
    /// The second person is named.
    Second,
    /// The answer is shown.
    Outcome,
    /// A bad answer's branch is worked through.
    Branch,
    /// A note wants words.
    Remark,
    /// A section can be stated complete.
    SectionEnd,
    /// Every section is complete.
    Finished,
    /// The walk is on hold.
    Held,
    /// Something is not clear.
    Unsure,
    /// Words are typed.
    Words,
    /// What stands behind the limits is read.
    Why,
    /// A done step is chosen, to take its answer back.
    TakeBack,
    /// The people who take over are chosen.
    GiveOver,
    /// Who signs is chosen.
    Signer,
    /// The passphrase is typed.
    Passphrase,
    /// The trip is signed.
    Sealed,
    /// A record is read.
    Record,
    /// A value of a rig in thought is chosen and changed.
    RigValues,
    /// The figures of a rig in thought are read.
    RigFigures,
    /// A value of a rig in thought is typed.
    RigValue,
    /// A month of a logbook, and a day of it, is chosen.
    Days,
    /// A trip of a logbook is chosen.
    Trips,
    /// The trips that cannot be looked at are read.
    ClosedTrips,
    /// Readings that are followed are chosen from.
    Series,
    /// How the readings of one part move is looked at.
    Chart,
    /// What is not as expected on a trip is chosen from.
    Exceptions,
    /// One thing that is not as expected is read.
    Exception,
    /// How a trip went and what was read is read.
    TripRest,
    /// Remarks on a trip, or a question about it, are typed.
    Remarks,
    /// The manager who countersigns is chosen.
    Countersigner,
    /// The manager's passphrase is typed.
    Countersigning,
    /// The trip is countersigned.
    Countersigned,
    /// The drill room is chosen from.
    DrillRoom,
    /// What a drill is about is chosen.
    DrillFamilies,
    /// A drill is found by its title.
    DrillTitles,
    /// How far a learner is is read.
    DrillReached,
    /// Which checklist is ridden is chosen, or who examines.
    RideChoice,
    /// It is told what a check ride is passed by.
    BeforeRide,
    /// In a drill, a step is looked at, and a state chosen.
    Looking,
    /// In a drill, a step is measured, and its reading called.
    Measuring,
    /// In a drill, something calls the learner away.
    CalledAway,
    /// In a drill, it is said where the work goes on.
    Returning,
    /// In a drill that is watched, what is done next is told.
    Watching,
    /// A drill is through, and it is told how it went.
    Debrief,
    /// A drill has ended.
    DrillOver,
    /// The list of keys is open.
    Help,
}

impl Context {
    /// Every context.
    pub const ALL: [Self; 55] = [
        Self::Start,
        Self::RigPage,
        Self::Matters,
        Self::Crew,
        Self::Question,
        Self::Odometer,
        Self::Next,
        Self::Instrument,
        Self::Reading,
        Self::Sighting,
        Self::Second,
        Self::Outcome,
        Self::Branch,
        Self::Remark,
        Self::SectionEnd,
        Self::Finished,
        Self::Held,
        Self::Unsure,
        Self::Words,
        Self::Why,
        Self::TakeBack,
        Self::GiveOver,
        Self::Signer,
        Self::Passphrase,
        Self::Sealed,
        Self::Record,
        Self::RigValues,
        Self::RigFigures,
        Self::RigValue,
        Self::Days,
        Self::Trips,
        Self::ClosedTrips,
        Self::Series,
        Self::Chart,
        Self::Exceptions,
        Self::Exception,
        Self::TripRest,
        Self::Remarks,
        Self::Countersigner,
        Self::Countersigning,
        Self::Countersigned,
        Self::DrillRoom,
        Self::DrillFamilies,
        Self::DrillTitles,
        Self::DrillReached,
        Self::RideChoice,
        Self::BeforeRide,
        Self::Looking,
        Self::Measuring,
        Self::CalledAway,
        Self::Returning,
        Self::Watching,
        Self::Debrief,
        Self::DrillOver,
        Self::Help,
    ];

    /// What it is called in the key reference.
    pub fn title(self) -> &'static str {
        match self {
            Self::Start => "Start",
            Self::RigPage => "The page of a rig",
            Self::Matters => "Reading what is open and due for a rig",
            Self::Crew => "Choosing who reads and who does",
            Self::Question => "Answering a manager's question",
            Self::Odometer => "Typing the odometer",
            Self::Next => "A step waits to be begun",
            Self::Instrument => "Choosing the instrument",
            Self::Reading => "Typing a reading",
            Self::Sighting => "Choosing a state",
            Self::Second => "Naming the second person",
            Self::Outcome => "After the answer",
            Self::Branch => "Something is to be put right",
            Self::Remark => "Explaining a note",
            Self::SectionEnd => "End of a section",
            Self::Finished => "Every section complete",
            Self::Held => "On hold",
            Self::Unsure => "Stopped, not clear",
            Self::Words => "Typing words",
            Self::Why => "Reading what stands behind a limit",
            Self::TakeBack => "Taking an answer back",
            Self::GiveOver => "Handing the walk over",
            Self::Signer => "Choosing who signs",
            Self::Passphrase => "Typing the passphrase",
            Self::Sealed => "Signed",
            Self::Record => "Reading a record",
            Self::RigValues => "A rig in thought: what can be changed",
            Self::RigFigures => "A rig in thought: what moves",
            Self::RigValue => "A rig in thought: typing a value",
            Self::Days => "The logbook: choosing a day",
            Self::Trips => "The logbook: choosing a trip",
            Self::ClosedTrips => "The logbook: trips that cannot be looked at",
            Self::Series => "The logbook: how readings move",
            Self::Chart => "The logbook: how the readings of one part move",
            Self::Exceptions => "A trip: what is not as expected",
            Self::Exception => "A trip: one thing that is not as expected",
            Self::TripRest => "A trip: how it went and what was read",
            Self::Remarks => "A trip: typing remarks or a question",
            Self::Countersigner => "A trip: choosing who countersigns",
            Self::Countersigning => "A trip: typing the manager's passphrase",
            Self::Countersigned => "A trip: countersigned",
            Self::DrillRoom => "The drill room",
            Self::DrillFamilies => "The drill room: what a drill is about",
            Self::DrillTitles => "The drill room: drills by title",
            Self::DrillReached => "The drill room: how far a learner is",
            Self::RideChoice => "The drill room: which check ride, and who examines",
            Self::BeforeRide => "The drill room: before a check ride",
            Self::Looking => "A drill: looking, and choosing a state",
            Self::Measuring => "A drill: measuring, and calling the reading",
            Self::CalledAway => "A drill: called away",
            Self::Returning => "A drill: back, and saying where the work goes on",
            Self::Watching => "A drill: watching a worked run",
            Self::Debrief => "A drill: every section complete",
            Self::DrillOver => "A drill: ended",
            Self::Help => "The list of keys",
        }
    }

    /// What to do, for a key that means nothing here.
    pub(crate) fn hint(self) -> &'static str {
        match self {
            Self::Start => "Press the number of a line. ? lists every key.",
            Self::RigPage | Self::DrillRoom | Self::DrillFamilies | Self::RideChoice => {
                "Press the number or letter of a line. ? lists every key."
            }
            Self::Matters => "Arrows scroll, Esc goes back.",
            Self::Crew => "Press the number of a person.",
            Self::Next => "Enter begins the step. ? lists every key.",
            Self::Instrument => "Press the letter of the instrument in hand.",
            Self::Sighting => "Press the number of what is seen. ? lists every key.",
            Self::Second => "Press the letter of the person who looks; o for another name.",
            Self::Outcome => "Enter goes on. ? lists every key.",
            Self::Branch => "Do what is shown, then press r. ? lists every key.",
            Self::SectionEnd => "Press c when the sentence is true. ? lists every key.",
            Self::Finished => "Press f to finish the walk. ? lists every key.",
            Self::Held => "Enter takes the walk up again. ? lists every key.",
            Self::Unsure => "Press s when it is settled. ? lists every key.",
            Self::Why => "Arrows scroll, Esc goes back to where it was asked.",
            Self::TakeBack => "Press the letter of the step.",
            Self::GiveOver => "Press the letter of the person.",
            Self::Signer => "Press the number of the person who signs.",
            Self::Sealed => "o opens the record, Enter goes to the start.",
            Self::Record
            | Self::ClosedTrips
            | Self::Exception
            | Self::TripRest
            | Self::DrillReached => "Arrows scroll, q goes back.",
            Self::RigValues => "Up and Down choose, Left and Right change. ? lists every key.",
            Self::RigFigures => "Up and Down choose, = tells why. ? lists every key.",
            Self::Days => "Arrows choose a day, PgUp and PgDn a month. ? lists every key.",
            Self::Trips => "Up and Down choose, Enter opens. ? lists every key.",
            Self::Series => "Up and Down choose, Enter shows the chart. ? lists every key.",
            Self::Chart => "Left and Right go through the list, Esc goes back to it.",
            Self::Exceptions => "Up and Down choose, Enter looks at it. ? lists every key.",
            Self::Question => "Type an answer, then press Enter. Enter alone leaves it for later.",
            Self::Countersigner => "Press the number of the manager who signs.",
            Self::Countersigned => "Enter goes back to the trips.",
            Self::DrillTitles => "Type a part of a title, and mark a line with the arrows.",
            Self::BeforeRide => "r begins the check ride, q goes back.",
            Self::Looking => "A letter looks from there, a number answers. ? lists every key.",
            Self::Measuring => "m measures, a number calls the reading. ? lists every key.",
            Self::CalledAway => "It does not wait. Tab holds the walk.",
            Self::Returning => "Press the letter of the step at which the work goes on.",
            Self::Watching => "d does what is told. ? lists every key.",
            Self::Debrief => "f ends the drill. ? lists every key.",
            Self::DrillOver => "Press the letter of a line. ? lists every key.",
            Self::Odometer
            | Self::Remarks
            | Self::Countersigning
            | Self::Reading
            | Self::RigValue
            | Self::Remark
            | Self::Words
            | Self::Passphrase
            | Self::Help => "Type, then press Enter. Esc goes back.",
        }
    }
}
