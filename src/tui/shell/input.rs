//! Keys, pastes and sizes, read on a thread of their own.
//!
//! When a terminal goes away, waiting for its keys may never return (crossterm issue 793). The
//! thread may then hang; the main loop does not.

use crate::tui::Key;
use crossterm::event::{self, Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use std::io;
use std::sync::mpsc::{Receiver, RecvTimeoutError, SyncSender, TrySendError, sync_channel};
use std::thread;
use std::time::Duration;

/// How long the thread waits for a key before it looks whether anyone still listens.
const WAIT: Duration = Duration::from_millis(50);

/// Inputs kept when the main loop is busy; more keys than that were not meant.
const KEPT: usize = 64;

/// One thing the terminal told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Input {
    Key {
        key: Key,
        repeat: bool,
    },
    Paste(String),
    Resized(u16, u16),
    /// Ctrl-C.
    Interrupt,
    /// Ctrl-Z.
    Suspend,
}

impl Input {
    /// Whether it is meant for what is on the screen.
    pub(super) const fn is_typed(&self) -> bool {
        matches!(self, Self::Key { .. } | Self::Paste(_))
    }
}

/// The thread that reads.
pub(super) struct Keyboard {
    inputs: Receiver<io::Result<Input>>,
}

impl Keyboard {
    /// Starts reading. The thread ends when the keyboard is dropped.
    pub(super) fn listen() -> Self {
        let (sender, inputs) = sync_channel(KEPT);
        thread::spawn(move || read(&sender));
        Self { inputs }
    }

    /// Waits this long for an input, and hands out everything that is there by then.
    pub(super) fn next(&self, wait: Duration) -> io::Result<Vec<Input>> {
        let mut found = match self.inputs.recv_timeout(wait) {
            Ok(input) => vec![input?],
            Err(RecvTimeoutError::Timeout) => Vec::new(),
            Err(RecvTimeoutError::Disconnected) => {
                return Err(io::Error::other("no more keys can be read"));
            }
        };
        while let Ok(input) = self.inputs.try_recv() {
            found.push(input?);
        }
        Ok(found)
    }
}

fn read(sender: &SyncSender<io::Result<Input>>) {
    loop {
        let told = match event::poll(WAIT) {
            Ok(false) => None,
            Ok(true) => event::read().map(input).transpose(),
            Err(error) => Some(Err(error)),
        };
        let failed = matches!(told, Some(Err(_)));
        let heard = match told {
            Some(told) => !matches!(sender.try_send(told), Err(TrySendError::Disconnected(_))),
            None => true,
        };
        if failed || !heard {
            return;
        }
    }
}

fn input(event: Event) -> Option<Input> {
    match event {
        Event::Key(key) => pressed(key),
        Event::Paste(text) => Some(Input::Paste(text)),
        Event::Resize(columns, rows) => Some(Input::Resized(columns, rows)),
        Event::FocusGained | Event::FocusLost | Event::Mouse(_) => None,
    }
}

/// A key going down. One that comes up says nothing; some terminals tell of both.
fn pressed(event: KeyEvent) -> Option<Input> {
    if event.kind == KeyEventKind::Release {
        return None;
    }
    if event.modifiers.contains(KeyModifiers::CONTROL) {
        match event.code {
            KeyCode::Char('c') => return Some(Input::Interrupt),
            KeyCode::Char('z') => return Some(Input::Suspend),
            _ => {}
        }
    }
    let chord = event
        .modifiers
        .intersects(KeyModifiers::CONTROL | KeyModifiers::ALT);
    // A third-level character, as on many keyboards outside the United States, comes with both.
    let third_level = event
        .modifiers
        .contains(KeyModifiers::CONTROL | KeyModifiers::ALT);
    let key = if chord && !third_level {
        Key::Other
    } else {
        key(event.code)
    };
    let repeat = event.kind == KeyEventKind::Repeat;
    Some(Input::Key { key, repeat })
}

fn key(code: KeyCode) -> Key {
    match code {
        KeyCode::Char(letter) => Key::Char(letter),
        KeyCode::Enter => Key::Enter,
        KeyCode::Esc => Key::Esc,
        KeyCode::Backspace | KeyCode::Delete => Key::Backspace,
        KeyCode::Tab => Key::Tab,
        KeyCode::Up => Key::Up,
        KeyCode::Left => Key::Left,
        KeyCode::Right => Key::Right,
        KeyCode::Down => Key::Down,
        KeyCode::PageUp => Key::PageUp,
        KeyCode::PageDown => Key::PageDown,
        KeyCode::Home => Key::Home,
        KeyCode::End => Key::End,
        KeyCode::F(number) => Key::F(number),
        _ => Key::Other,
    }
}

/// Most terminals do not tell a key held down from one pressed again. Of the same key several
/// times in one go, all but the first count as held down.
pub(super) fn marked_repeats(inputs: Vec<Input>) -> Vec<Input> {
    let mut last = None;
    let marked = inputs.into_iter().map(|input| {
        let Input::Key { key, repeat } = input else {
            last = None;
            return input;
        };
        let again = last.replace(key) == Some(key);
        Input::Key {
            key,
            repeat: repeat || again,
        }
    });
    marked.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn press(key: Key) -> Input {
        Input::Key { key, repeat: false }
    }

    #[test]
    fn of_one_key_many_times_at_once_only_the_first_is_no_repeat() {
        let (one, two) = (Key::Char('1'), Key::Char('2'));
        let marked = marked_repeats(vec![press(one), press(one), press(two), press(one)]);
        let repeats: Vec<bool> = marked
            .iter()
            .map(|input| matches!(input, Input::Key { repeat: true, .. }))
            .collect();
        assert_eq!(repeats, [false, true, false, false]);
    }

    #[test]
    fn a_key_that_comes_up_says_nothing() {
        let mut event = KeyEvent::new(KeyCode::Enter, KeyModifiers::NONE);
        event.kind = KeyEventKind::Release;
        assert_eq!(pressed(event), None);
        event.kind = KeyEventKind::Repeat;
        assert_eq!(
            pressed(event),
            Some(Input::Key {
                key: Key::Enter,
                repeat: true
            })
        );
    }

    #[test]
    fn a_chord_is_no_key_of_ours_but_a_third_level_character_is() {
        let chord = |modifiers| pressed(KeyEvent::new(KeyCode::Char(']'), modifiers));
        assert_eq!(chord(KeyModifiers::ALT), Some(press(Key::Other)));
        assert_eq!(
            chord(KeyModifiers::ALT | KeyModifiers::CONTROL),
            Some(press(Key::Char(']')))
        );
    }
}
