//! The terminal: taken, read, drawn on, and given back on every way out.

mod input;
mod terminal;

use crate::desk::{Errand, Reply};
use crate::tui::shell::input::{Input, Keyboard, marked_repeats};
use crate::tui::shell::terminal::{Screen, Signals};
use crate::tui::{Model, Msg, update};
use crate::walk::Moment;
use std::collections::VecDeque;
use std::fmt;
use std::io;
use std::time::Duration;

/// How often signals, the clock and the terminal itself are looked at while no key comes.
const BEAT: Duration = Duration::from_millis(200);

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// By the person.
    Left,
    /// By a signal, or by Ctrl-C. What was recorded is on disk; the walk can be taken up.
    Signalled,
}

/// Why the terminal cannot be used.
#[derive(Debug)]
pub enum TerminalTrouble {
    /// There is none, or it does not do what a screen needs.
    NotTaken(io::Error),
    /// It went away, as when its window was closed.
    Gone(io::Error),
}

impl fmt::Display for TerminalTrouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotTaken(error) => write!(
                f,
                "The screens need a terminal, and this is none ({error}). Use --plain to work line by line."
            ),
            Self::Gone(error) => write!(
                f,
                "The terminal went away ({error}). What was recorded is kept; take the walk up again."
            ),
        }
    }
}

impl std::error::Error for TerminalTrouble {}

/// Runs the screens from how they begin until the person leaves. Errands are carried out by `perform`, one at a time,
/// before anything is shown of them.
///
/// # Errors
/// [`TerminalTrouble`] when there is no terminal, or it goes away.
pub fn run(
    perform: &mut dyn FnMut(Errand) -> Reply,
    clock: &dyn Fn() -> Moment,
    begun: (Model, Vec<Errand>),
) -> Result<Exit, TerminalTrouble> {
    let signals = Signals::watch().map_err(TerminalTrouble::NotTaken)?;
    let mut screen = Screen::take().map_err(TerminalTrouble::NotTaken)?;
    let ended = Shell {
        perform,
        clock,
        screen: &mut screen,
        signals: &signals,
    }
    .run(begun);
    screen.give_back();
    ended.map_err(TerminalTrouble::Gone)
}

struct Shell<'a> {
    perform: &'a mut dyn FnMut(Errand) -> Reply,
    clock: &'a dyn Fn() -> Moment,
    screen: &'a mut Screen,
    signals: &'a Signals,
}

impl Shell<'_> {
    fn run(&mut self, (mut model, errands): (Model, Vec<Errand>)) -> io::Result<Exit> {
        let keyboard = Keyboard::listen();
        let (columns, rows) = Screen::size()?;
        update(&mut model, Msg::Resized(columns, rows));
        self.carry_out(&mut model, errands)?;
        self.screen.draw(&model)?;
        let mut minute = minute(&(self.clock)());
        while !model.is_over() {
            if self.signals.any() {
                return Ok(Exit::Signalled);
            }
            let meanwhile = model.meanwhile();
            let wait = meanwhile.as_ref().map_or(BEAT, |_| Duration::ZERO);
            let inputs = keyboard.next(wait)?;
            let now = (self.clock)();
            let turned = minute != self::minute(&now);
            minute = self::minute(&now);
            update(&mut model, Msg::Clock(now));
            if inputs.is_empty() {
                // A closed window does not always send a signal; asking for its size does fail.
                Screen::size()?;
                if let Some(errand) = meanwhile {
                    self.carry_out(&mut model, vec![errand])?;
                } else if !turned {
                    continue;
                }
            }
            let mut inputs = VecDeque::from(marked_repeats(inputs));
            let mut unheard = 0;
            loop {
                if model.is_deaf() {
                    // Pressed before what comes to be seen now was there.
                    inputs.extend(keyboard.next(Duration::ZERO)?);
                    let pressed = inputs.len();
                    inputs.retain(|input| !input.is_typed());
                    unheard += pressed - inputs.len();
                    update(&mut model, Msg::Unheard(unheard));
                }
                let Some(input) = inputs.pop_front() else {
                    break;
                };
                if let Some(exit) = self.take(&mut model, input)? {
                    return Ok(exit);
                }
            }
            self.screen.draw(&model)?;
        }
        Ok(Exit::Left)
    }

    fn take(&mut self, model: &mut Model, input: Input) -> io::Result<Option<Exit>> {
        let msg = match input {
            Input::Key { key, repeat } => Msg::Press { key, repeat },
            Input::Paste(text) => Msg::Paste(text),
            Input::Resized(columns, rows) => {
                self.screen.wipe()?;
                Msg::Resized(columns, rows)
            }
            Input::Interrupt => return Ok(Some(Exit::Signalled)),
            Input::Suspend => Msg::Away(self.suspend()?),
        };
        let errands = update(model, msg);
        self.carry_out(model, errands)?;
        Ok(None)
    }

    /// Carries errands out, one after another. What may take long is announced on the screen.
    fn carry_out(&mut self, model: &mut Model, errands: Vec<Errand>) -> io::Result<()> {
        for errand in errands {
            if model.busy().is_some() {
                self.screen.draw(model)?;
            }
            let reply = (self.perform)(errand);
            let more = update(model, Msg::Reply(reply));
            self.carry_out(model, more)?;
        }
        Ok(())
    }

    /// Gives the terminal back, stops until the person comes back, and tells how long it was.
    fn suspend(&mut self) -> io::Result<u64> {
        let left = (self.clock)();
        self.screen.give_back();
        Signals::stop_here()?;
        self.screen.take_again()?;
        let back = (self.clock)();
        Ok(back.since(&left))
    }
}

/// The minute a moment lies in, by the clock on the wall.
fn minute(moment: &Moment) -> i64 {
    moment.wall.timestamp().div_euclid(60)
}
