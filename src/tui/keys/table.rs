//! The rows. The first that is valid and answers to the key is the one meant.
//!
//! No key of the walk needs Control, Alt or Shift held but `?`. A digit only ever chooses a state;
//! Enter never answers; what answers never goes on; so no key held down can do two steps.

use crate::tui::keys::{Action, Context, Key, Press, Row};
use Context as At;

/// Everywhere on a walk but where it already stands still.
const WALKING: &[At] = &[
    At::Next,
    At::Instrument,
    At::Reading,
    At::Sighting,
    At::Second,
    At::Outcome,
    At::Branch,
    At::Remark,
    At::SectionEnd,
    At::Finished,
    At::Words,
    At::Why,
    At::TakeBack,
    At::GiveOver,
    At::Looking,
    At::Measuring,
    At::CalledAway,
    At::Returning,
    At::Debrief,
    At::Watching,
];

/// Everywhere on a walk but where doubt is already stated.
const DOUBTABLE: &[At] = &[
    At::Next,
    At::Instrument,
    At::Reading,
    At::Sighting,
    At::Second,
    At::Outcome,
    At::Branch,
    At::Remark,
    At::SectionEnd,
    At::Finished,
    At::Words,
    At::Why,
    At::TakeBack,
    At::GiveOver,
    At::Held,
    At::Looking,
    At::Measuring,
    At::CalledAway,
    At::Returning,
    At::Debrief,
    At::Watching,
];

/// Where words are typed, so that every letter is text.
const WORDS: &[At] = &[
    At::Words,
    At::Remark,
    At::Question,
    At::Odometer,
    At::Passphrase,
    At::RigValue,
    At::Remarks,
    At::Countersigning,
    At::DrillTitles,
];

/// Where letters are free.
const FREE: &[At] = &[
    At::Start,
    At::RigPage,
    At::Matters,
    At::Crew,
    At::Next,
    At::Instrument,
    At::Sighting,
    At::Second,
    At::Outcome,
    At::Branch,
    At::SectionEnd,
    At::Finished,
    At::Why,
    At::Held,
    At::Unsure,
    At::TakeBack,
    At::GiveOver,
    At::Signer,
    At::Sealed,
    At::Record,
    At::RigValues,
    At::RigFigures,
    At::Days,
    At::Trips,
    At::ClosedTrips,
    At::Series,
    At::Chart,
    At::Exceptions,
    At::Exception,
    At::TripRest,
    At::Countersigner,
    At::Countersigned,
    At::DrillRoom,
    At::DrillFamilies,
    At::DrillReached,
    At::RideChoice,
    At::BeforeRide,
    At::Looking,
    At::Measuring,
    At::CalledAway,
    At::Returning,
    At::Debrief,
    At::DrillOver,
    At::Watching,
];

/// On a walk, before an answer or between two.
const BETWEEN: &[At] = &[At::Next, At::Sighting, At::Outcome, At::SectionEnd];

/// Where letters belong to the reading.
const TYPING: &[At] = &[At::Reading];

/// Where letters belong to the answer, so that side doors open from the list of keys only.
const ANSWERING: &[At] = &[
    At::Instrument,
    At::Reading,
    At::Second,
    At::Looking,
    At::Measuring,
];

/// Where the limits of a step can be opened, before its answer or after.
const EXPLAINED: &[At] = &[
    At::Instrument,
    At::Reading,
    At::Sighting,
    At::Second,
    At::Outcome,
    At::Branch,
    At::Looking,
    At::Measuring,
];

/// Where letters choose a line.
const LETTERED: &[At] = &[
    At::Start,
    At::RigPage,
    At::Instrument,
    At::Second,
    At::TakeBack,
    At::GiveOver,
    At::DrillRoom,
    At::DrillFamilies,
    At::RideChoice,
    At::Looking,
    At::Measuring,
    At::Returning,
];

/// Where letters are free, lines being chosen by number or not at all.
const UNLETTERED: &[At] = &[
    At::Matters,
    At::Crew,
    At::Next,
    At::Sighting,
    At::Outcome,
    At::Branch,
    At::SectionEnd,
    At::Finished,
    At::Why,
    At::Held,
    At::Unsure,
    At::Signer,
    At::Sealed,
    At::Record,
    At::Days,
    At::Trips,
    At::ClosedTrips,
    At::Series,
    At::Chart,
    At::Exceptions,
    At::Exception,
    At::TripRest,
    At::Countersigner,
    At::Countersigned,
    At::DrillReached,
    At::BeforeRide,
    At::CalledAway,
    At::Debrief,
    At::DrillOver,
    At::Watching,
];

const SCROLLED: &[At] = &[
    At::Matters,
    At::Next,
    At::Instrument,
    At::Reading,
    At::Sighting,
    At::Second,
    At::Outcome,
    At::Branch,
    At::Remark,
    At::SectionEnd,
    At::Finished,
    At::Why,
    At::Held,
    At::Unsure,
    At::Signer,
    At::Sealed,
    At::Record,
    At::ClosedTrips,
    At::Chart,
    At::Exception,
    At::TripRest,
    At::Countersigner,
    At::Countersigned,
    At::DrillReached,
    At::BeforeRide,
    At::Looking,
    At::Measuring,
    At::CalledAway,
    At::Returning,
    At::Debrief,
    At::DrillOver,
    At::Watching,
];

const TAKE_BACK: &str = "Take back an answer of this section and answer afresh.";
const WHY: &str = "Show what stands behind each limit: whose word, how it is reckoned, from what.";
const PUT_OFF: &str = "Put this step off, saying why.";
const NOTE: &str = "Write something down beside the walk.";
const HAND_OVER: &str = "Give the walk to other people.";
const END: &str = "End the walk early. A word has to be typed for it.";
const COLOURS: &str = "Change the colours: the terminal's own, night, glare.";
const BIG: &str = "Big view, to read at arm's length, on or off.";

const fn row(
    contexts: &'static [At],
    key: Key,
    action: Action,
    label: &'static str,
    what: &'static str,
) -> Row {
    Row {
        contexts,
        press: Press::One(key),
        also: None,
        action,
        label,
        what,
        footer: true,
    }
}

impl Row {
    const fn also(mut self, key: Key) -> Self {
        self.also = Some(key);
        self
    }

    const fn any(mut self, press: Press) -> Self {
        self.press = press;
        self
    }

    const fn unlisted(mut self) -> Self {
        self.footer = false;
        self
    }
}

const fn c(letter: char) -> Key {
    Key::Char(letter)
}

/// Every key of every screen, one row a line.
#[rustfmt::skip]
pub const TABLE: &[Row] = &[
    // What the screen waits for comes first: it is what the bottom line begins with.
    row(&[At::Start, At::RigPage, At::DrillRoom, At::DrillFamilies, At::RideChoice], c('1'), Action::Pick, "line", "Do what the line with this number says.").any(Press::Digits),
    row(&[At::Start, At::RigPage, At::DrillRoom, At::DrillFamilies, At::RideChoice], c('a'), Action::Pick, "line", "Do what the line with this letter says.").any(Press::Letters).unlisted(),
    row(&[At::DrillTitles], Key::Enter, Action::Submit, "begin", "Begin the marked drill."),
    row(&[At::DrillRoom, At::DrillFamilies], c('s'), Action::OtherStage, "stage", "Choose the stage a drill is played at; after the last one, the stage reached."),
    row(&[At::Start, At::RigPage, At::DrillRoom, At::DrillFamilies, At::RideChoice], Key::Enter, Action::Choose, "do it", "Do what the marked line says."),
    row(&[At::BeforeRide], c('r'), Action::Begin, "ride", "Begin the check ride."),
    row(&[At::RigPage], c('o'), Action::Matters, "more", "Read everything that is open and due for the rig, with why."),
    row(&[At::RigPage], c('w'), Action::ChooseWho, "who", "Begin the marked checklist, choosing who reads and who does."),
    row(&[At::Start, At::RigPage], c('r'), Action::TryRig, "rig", "Look at the rig of the marked line or the page, and try what would move it.").unlisted(),
    row(&[At::Crew], c('1'), Action::Pick, "person", "Choose the person with this number.").any(Press::Digits),
    row(&[At::Next], Key::Enter, Action::Begin, "begin", "Begin the step that is shown."),
    row(&[At::Instrument], c('a'), Action::Pick, "choose", "Take the instrument with this letter.").any(Press::Letters),
    row(&[At::Sighting], c('1'), Action::Pick, "answer", "Answer with the state of this number.").any(Press::Digits),
    row(&[At::Looking], c('a'), Action::LookFrom, "look", "Look at the step from the place with this letter.").any(Press::Letters),
    row(&[At::Looking], c('1'), Action::Pick, "answer", "Answer with the state of this number.").any(Press::Digits),
    row(&[At::Measuring], c('m'), Action::Measure, "measure", "Put the instrument to the step."),
    row(&[At::Measuring], c('1'), Action::Call, "call", "Say what the reading comes to, before it is typed.").any(Press::Digits),
    row(&[At::Measuring], Key::Enter, Action::GoOn, "type", "Go on to typing what the instrument shows."),
    row(&[At::Returning], c('a'), Action::Pick, "step", "Say that the work goes on at the step with this letter.").any(Press::Letters),
    row(&[At::Watching], c('d'), Action::DoIt, "do it", "Do what is told, as the program does it rightly."),
    row(&[At::Debrief], c('l'), Action::Learn, "next time", "Write what you will do otherwise next time."),
    row(&[At::Debrief], c('f'), Action::Finish, "end", "End the drill."),
    row(&[At::DrillOver], c('s'), Action::Sign, "sign", "Go on to signing the drill."),
    row(&[At::DrillOver], c('a'), Action::Again, "again", "Play the same drill again, to the last digit of each reading."),
    row(&[At::DrillOver], c('o'), Action::Another, "another", "Play another drill, by the dice."),
    row(&[At::Second], c('a'), Action::Pick, "person", "Name the person with this letter as the second pair of eyes.").any(Press::Letters),
    row(&[At::Second], c('o'), Action::OtherPerson, "other name", "Type the name of a person who is not listed."),
    row(&[At::Outcome], Key::Enter, Action::GoOn, "go on", "Go on: begin the next step, or come to the end of the section."),
    row(&[At::Branch], c('r'), Action::PutRight, "put right", "Say what was put right; the step is then answered afresh."),
    row(&[At::SectionEnd], c('c'), Action::CompleteSection, "complete", "State that the section is complete, as the sentence says."),
    row(&[At::Finished], c('f'), Action::Finish, "finish", "End the walk as complete, and go to signing it."),
    row(&[At::Held], Key::Enter, Action::Resume, "take up", "Take the walk up again where it was left."),
    row(&[At::Unsure], c('s'), Action::Settle, "settled", "Say how it was settled, and with whom."),
    row(&[At::TakeBack], c('a'), Action::Pick, "step", "Take back the answer of the step with this letter.").any(Press::Letters),
    row(&[At::GiveOver], c('a'), Action::Pick, "person", "Choose the person with this letter.").any(Press::Letters),
    row(&[At::Signer], c('1'), Action::Pick, "who signs", "The person with this number signs.").any(Press::Digits),
    row(&[At::Sealed], Key::Enter, Action::ToStart, "start", "Go back to the first screen."),
    row(&[At::Sealed], c('o'), Action::OpenRecord, "record", "Read the record that was signed."),
    row(&[At::Reading], Key::Enter, Action::Submit, "answer", "Answer with the reading that was typed."),
    row(&[At::Passphrase], Key::Enter, Action::Submit, "sign", "Sign the trip."),
    row(&[At::Question], Key::Enter, Action::Submit, "answer", "Answer with what was typed; with nothing typed, leave it for later."),
    row(&[At::Words, At::Remark, At::Odometer], Key::Enter, Action::Submit, "done", "Hand in what was typed."),
    row(&[At::Help], Key::Enter, Action::Submit, "do it", "Do the marked line."),
    row(&[At::RigValues], Key::Left, Action::Less, "less", "One step less, or the choice before."),
    row(&[At::RigValues], Key::Right, Action::More, "more", "One step more, or the next choice."),
    row(&[At::RigValues], Key::Enter, Action::Choose, "type", "Type the marked value, with its unit."),
    row(&[At::RigValue], Key::Enter, Action::Submit, "take it", "Take the value that was typed."),
    row(&[At::RigFigures], Key::Enter, Action::Why, "why", "Tell what stands behind the marked figure.").also(c('=')),
    row(&[At::RigValues, At::RigFigures], Key::Tab, Action::OtherList, "list", "Go to the next list: what can be changed, what moves, the ratings chain."),
    row(&[At::RigValues, At::RigFigures], c('s'), Action::OtherView, "view", "Draw the rig from the side, from above, or its hitch."),
    row(&[At::RigValues], c('r'), Action::PutBack, "put back", "Put the marked value back to what the rig file says."),
    row(&[At::RigValues, At::RigFigures], c('a'), Action::PutAllBack, "all back", "Put every value back to what the rig file says."),
    row(&[At::Days], Key::Enter, Action::Choose, "trips", "Go through the trips of the chosen day, or of the month where none is chosen."),
    row(&[At::Trips], Key::Enter, Action::Choose, "look", "Open the marked trip. Nothing is written by it."),
    row(&[At::Exceptions, At::Exception, At::TripRest], c('s'), Action::Agree, "agree", "Agree to the trip and sign so; every thing that is not as expected has been opened."),
    row(&[At::Exceptions], Key::Enter, Action::Choose, "look", "Look at what is marked; it then counts as opened."),
    row(&[At::Exceptions], Key::Tab, Action::OtherList, "the rest", "Read how it went, every reading beside its limit, and who signed."),
    row(&[At::TripRest], Key::Tab, Action::OtherList, "the list", "Go back to what is not as expected."),
    row(&[At::Exceptions, At::Exception, At::TripRest], c('a'), Action::Ask, "ask", "Put a question about the trip, and sign that it was asked."),
    row(&[At::Remarks], Key::Enter, Action::Submit, "done", "Hand in what was typed; nothing is signed by it."),
    row(&[At::Countersigner], c('1'), Action::Pick, "who signs", "The manager with this number signs.").any(Press::Digits),
    row(&[At::Countersigning], Key::Enter, Action::Submit, "sign", "Sign what you think of the trip."),
    row(&[At::Countersigned], Key::Enter, Action::Back, "trips", "Go back to the trips."),
    row(&[At::Days, At::Trips], c('r'), Action::RigFilter, "rig", "Show the trips of the next rig alone; after the last one, of all."),
    row(&[At::Days, At::Trips], c('p'), Action::PersonFilter, "person", "Show the trips of the next person alone; after the last one, of all."),
    row(&[At::Days, At::Trips], c('g'), Action::LeastFilter, "grave", "Show what is at least noted, fixed, stopped, doubtful; then everything."),
    row(&[At::Days, At::Trips], c('o'), Action::OpenFilter, "open", "Show only what a manager has not agreed to yet, or everything."),
    row(&[At::Days, At::Trips], c('a'), Action::AskedFilter, "asked", "Show only trips about which something is asked, or everything."),
    row(&[At::Days, At::Trips], c('t'), Action::Trends, "trends", "See how the readings of each rig move over its trips, with what there is to ask first."),
    row(&[At::Days, At::Trips], c('c'), Action::AllTrips, "all", "Take every filter off."),
    row(&[At::Days, At::Trips], c('w'), Action::Matters, "closed", "Tell which trips cannot be looked at, and what shows why.").unlisted(),
    row(&[At::Series], Key::Enter, Action::Choose, "chart", "Show the marked readings by themselves, with their chart."),
    row(&[At::Chart], Key::Left, Action::Less, "before", "Show the readings before these in the list.").also(Key::PageUp),
    row(&[At::Chart], Key::Right, Action::More, "next", "Show the next readings of the list.").also(Key::PageDown),
    row(&[At::Days], Key::Left, Action::Less, "day before", "Choose the day before.").unlisted(),
    row(&[At::Days], Key::Right, Action::More, "day after", "Choose the day after.").unlisted(),
    row(&[At::Days], Key::Up, Action::Up, "week before", "Choose the same day of the week before.").unlisted(),
    row(&[At::Days], Key::Down, Action::Down, "week after", "Choose the same day of the week after.").unlisted(),
    row(&[At::Days], Key::PageUp, Action::PageUp, "month before", "Show the month before.").unlisted(),
    row(&[At::Days], Key::PageDown, Action::PageDown, "month after", "Show the month after.").unlisted(),
    row(&[At::Days], Key::Home, Action::Top, "first month", "Show the first month with trips.").unlisted(),
    row(&[At::Days], Key::End, Action::Bottom, "last month", "Show the last month with trips.").unlisted(),
    row(&[At::Days], Key::Esc, Action::Back, "whole month", "Choose no day: the whole month is listed.").unlisted(),
    row(&[At::Trips], Key::PageUp, Action::PageUp, "page up", "Mark the trip a page up.").unlisted(),
    row(&[At::Trips], Key::PageDown, Action::PageDown, "page down", "Mark the trip a page down.").unlisted(),
    row(&[At::DrillTitles], Key::PageUp, Action::PageUp, "page up", "Mark the line ten further up.").unlisted(),
    row(&[At::DrillTitles], Key::PageDown, Action::PageDown, "page down", "Mark the line ten further down.").unlisted(),
    row(&[At::Trips], Key::Home, Action::Top, "top", "Mark the first trip.").unlisted(),
    row(&[At::Trips], Key::End, Action::Bottom, "end", "Mark the last trip.").unlisted(),
    row(&[At::Series], Key::PageUp, Action::PageUp, "page up", "Mark the line a page up.").unlisted(),
    row(&[At::Series], Key::PageDown, Action::PageDown, "page down", "Mark the line a page down.").unlisted(),
    row(&[At::Series], Key::Home, Action::Top, "top", "Mark the first line.").unlisted(),
    row(&[At::Series], Key::End, Action::Bottom, "end", "Mark the last line.").unlisted(),
    // The reasons: like stopping, by a sign no reading has.
    row(EXPLAINED, c('='), Action::Why, "why", WHY).also(Key::F(2)),
    row(&[At::Remark], Key::F(2), Action::Why, "why", WHY),
    // Stopping: the same key everywhere, and never one that writes what a field may need.
    row(WALKING, Key::Tab, Action::Hold, "hold", "Leave the walk for a while; nothing is lost."),
    row(DOUBTABLE, c(']'), Action::Unsure, "unsure", "Stop: something is not clear. Nobody has to say why.").also(Key::F(9)),
    // The side doors.
    row(BETWEEN, c('t'), Action::TakeBack, "take back", TAKE_BACK).unlisted(),
    row(&[At::Next, At::Sighting], c('p'), Action::PutOff, "put off", PUT_OFF).unlisted(),
    row(&[At::Next, At::Sighting, At::Outcome, At::Branch, At::SectionEnd, At::Finished, At::Debrief, At::Held, At::Unsure], c('n'), Action::Note, "note", NOTE).unlisted(),
    row(&[At::Next, At::Sighting, At::Outcome, At::SectionEnd, At::Held, At::Unsure], c('g'), Action::HandOver, "hand over", HAND_OVER).unlisted(),
    row(&[At::Next, At::Sighting, At::Outcome, At::Branch, At::SectionEnd, At::Held, At::Unsure], c('e'), Action::End, "end", END).unlisted(),
    row(ANSWERING, c('t'), Action::TakeBack, "take back", TAKE_BACK).any(Press::Listed).unlisted(),
    row(ANSWERING, c('p'), Action::PutOff, "put off", PUT_OFF).any(Press::Listed).unlisted(),
    row(ANSWERING, c('n'), Action::Note, "note", NOTE).any(Press::Listed).unlisted(),
    row(ANSWERING, c('g'), Action::HandOver, "hand over", HAND_OVER).any(Press::Listed).unlisted(),
    row(ANSWERING, c('e'), Action::End, "end", END).any(Press::Listed).unlisted(),
    // Moving about.
    row(&[At::Start, At::RigPage, At::TakeBack, At::RigValues, At::RigFigures, At::Trips, At::Series, At::Exceptions, At::DrillRoom, At::DrillFamilies, At::RideChoice, At::DrillTitles, At::Help], Key::Up, Action::Up, "up", "Mark the line above.").unlisted(),
    row(&[At::Start, At::RigPage, At::TakeBack, At::RigValues, At::RigFigures, At::Trips, At::Series, At::Exceptions, At::DrillRoom, At::DrillFamilies, At::RideChoice, At::DrillTitles, At::Help], Key::Down, Action::Down, "down", "Mark the line below.").unlisted(),
    row(&[At::TakeBack], Key::Enter, Action::Choose, "take it back", "Take back the answer of the marked step."),
    row(SCROLLED, Key::Up, Action::Up, "up", "Show what is above.").unlisted(),
    row(SCROLLED, Key::Down, Action::Down, "down", "Show what is below.").unlisted(),
    row(&[At::Matters, At::Record, At::Why, At::ClosedTrips, At::Exception, At::TripRest, At::DrillReached, At::BeforeRide, At::Debrief, At::DrillOver], Key::PageUp, Action::PageUp, "page up", "A page up.").unlisted(),
    row(&[At::Matters, At::Record, At::TripRest], Key::PageDown, Action::PageDown, "page down", "A page down.").also(c(' ')),
    row(&[At::Why, At::ClosedTrips, At::Exception, At::DrillReached, At::BeforeRide, At::Debrief, At::DrillOver], Key::PageDown, Action::PageDown, "page down", "A page down.").also(c(' ')).unlisted(),
    row(&[At::Matters, At::Record, At::Why, At::ClosedTrips, At::Exception, At::TripRest, At::DrillReached, At::BeforeRide, At::Debrief, At::DrillOver], Key::Home, Action::Top, "top", "To the first line.").unlisted(),
    row(&[At::Matters, At::Record, At::Why, At::ClosedTrips, At::Exception, At::TripRest, At::DrillReached, At::BeforeRide, At::Debrief, At::DrillOver], Key::End, Action::Bottom, "end", "To the last line.").unlisted(),
    // Back and out.
    row(&[At::Words, At::Question, At::Odometer, At::Passphrase, At::RigValue, At::Remarks, At::Countersigning, At::Help, At::Sighting, At::Reading, At::Looking, At::Measuring, At::DrillTitles], Key::Esc, Action::Back, "back", "Go back one question."),
    row(&[At::Why], Key::Esc, Action::Back, "back", "Go back to where it was asked."),
    row(&[At::Why], c('='), Action::Back, "back", "Go back to where it was asked.").also(Key::F(2)).unlisted(),
    row(&[At::Why], c('q'), Action::Back, "back", "Go back to where it was asked.").also(Key::Backspace).unlisted(),
    row(&[At::RigValues, At::RigFigures], c('q'), Action::Back, "leave", "Leave this rig. Nothing of it was written."),
    row(&[At::Matters, At::TakeBack, At::GiveOver, At::Crew, At::Record, At::Signer, At::Trips, At::ClosedTrips, At::Series, At::Chart, At::Exceptions, At::Exception, At::TripRest, At::Countersigner, At::Countersigned, At::DrillFamilies, At::DrillReached, At::RideChoice, At::BeforeRide], Key::Esc, Action::Back, "back", "Go back.").unlisted(),
    row(&[At::Matters], c('o'), Action::Back, "back", "Go back.").unlisted(),
    row(&[At::Matters, At::TakeBack, At::GiveOver, At::Crew, At::Record, At::Signer, At::Trips, At::ClosedTrips, At::Series, At::Chart, At::Exceptions, At::Exception, At::TripRest, At::Countersigner, At::Countersigned, At::DrillFamilies, At::DrillReached, At::RideChoice, At::BeforeRide], c('q'), Action::Back, "back", "Go back.").also(Key::Backspace),
    row(&[At::RigPage], Key::Esc, Action::Back, "rigs", "Go back to the first screen.").also(Key::Backspace),
    row(&[At::Start, At::RigPage, At::Days, At::DrillRoom], c('q'), Action::Quit, "quit", "Leave Hames."),
    row(&[At::Held, At::Unsure, At::Watching], c('q'), Action::ToStart, "leave", "Leave the walk as it stands and go to the first screen."),
    row(&[At::DrillOver], c('q'), Action::ToStart, "leave", "Go to the drill room."),
    // Looks and help.
    row(FREE, c('?'), Action::Help, "keys", "List every key that is valid now.").also(Key::F(1)),
    row(&[At::Reading], c('?'), Action::Help, "keys", "List every key that is valid now.").also(Key::F(1)),
    row(WORDS, Key::F(1), Action::Help, "keys", "List every key that is valid now."),
    row(FREE, c('v'), Action::Colours, "colours", COLOURS).unlisted(),
    row(UNLETTERED, c('b'), Action::Big, "big", BIG).unlisted(),
    row(LETTERED, c('b'), Action::Big, "big", BIG).any(Press::Listed).unlisted(),
    row(TYPING, c('v'), Action::Colours, "colours", COLOURS).any(Press::Listed).unlisted(),
    row(TYPING, c('b'), Action::Big, "big", BIG).any(Press::Listed).unlisted(),
    // Text, last: a letter with a meaning of its own is not text.
    row(&[At::Reading, At::Words, At::Remark, At::Question, At::Odometer, At::Passphrase, At::RigValue, At::Remarks, At::Countersigning, At::DrillTitles, At::Help], Key::Backspace, Action::Erase, "rub out", "Rub out the last character.").unlisted(),
    row(&[At::Reading, At::Words, At::Remark, At::Question, At::Odometer, At::Passphrase, At::RigValue, At::Remarks, At::Countersigning, At::DrillTitles, At::Help], c('a'), Action::Type, "type", "Write.").any(Press::Text).unlisted(),
];
