//! The terminal taken and given back, and the signals that ask for it.

use crate::tui::{Model, view};
use crossterm::cursor::Show;
use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::execute;
use ratatui::DefaultTerminal;
use ratatui::layout::Rect;
#[cfg(unix)]
use signal_hook::consts::SIGTSTP;
use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
use signal_hook::{flag, low_level};
use std::io::{self, stdout};
use std::sync::Arc;
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

/// The terminal while it is ours.
pub(super) struct Screen {
    terminal: Option<DefaultTerminal>,
}

impl Screen {
    /// Takes the terminal: raw keys, the other screen, pastes told apart from keys.
    pub(super) fn take() -> io::Result<Self> {
        leave_before_a_panic_speaks();
        let mut screen = Self { terminal: None };
        screen.take_again()?;
        Ok(screen)
    }

    /// A terminal made anew draws every cell again. It is never asked where its cursor is: the
    /// thread that reads keys would take the answer for itself.
    pub(super) fn take_again(&mut self) -> io::Result<()> {
        self.terminal = Some(ratatui::try_init()?);
        execute!(stdout(), EnableBracketedPaste)
    }

    /// Columns and rows. Fails when the terminal is gone.
    pub(super) fn size() -> io::Result<(u16, u16)> {
        crossterm::terminal::size()
    }

    /// Wipes the window, so that the next drawing draws every cell. A window that was made small
    /// and large again has lost cells, and may be told of once, with the size it had before.
    pub(super) fn wipe(&mut self) -> io::Result<()> {
        let (columns, rows) = Self::size()?;
        match &mut self.terminal {
            // Unlike `clear`, this does not ask where the cursor is.
            Some(terminal) => terminal.resize(Rect::new(0, 0, columns, rows)),
            None => Ok(()),
        }
    }

    pub(super) fn draw(&mut self, model: &Model) -> io::Result<()> {
        if let Some(terminal) = &mut self.terminal {
            terminal.draw(|frame| view(model, frame))?;
        }
        Ok(())
    }

    /// Gives the terminal back, whether or not it is still there to take it.
    pub(super) fn give_back(&mut self) {
        self.terminal = None;
        give_back();
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        if self.terminal.is_some() {
            self.give_back();
        }
    }
}

/// A terminal that is gone takes nothing back, and nothing can be done about that.
fn give_back() {
    let _ = execute!(stdout(), DisableBracketedPaste);
    let _ = ratatui::try_restore();
    let _ = execute!(stdout(), Show);
}

/// What a panic says would be lost on the other screen.
fn leave_before_a_panic_speaks() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let speak = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            give_back();
            speak(panic);
        }));
    });
}

/// Signals that end a run.
pub(super) struct Signals {
    came: Arc<AtomicBool>,
}

impl Signals {
    /// Watches for them from now on.
    pub(super) fn watch() -> io::Result<Self> {
        let came = Arc::new(AtomicBool::new(false));
        for signal in [SIGTERM, SIGHUP, SIGINT] {
            flag::register(signal, Arc::clone(&came))?;
        }
        Ok(Self { came })
    }

    /// Whether one came.
    pub(super) fn any(&self) -> bool {
        self.came.load(Ordering::Relaxed)
    }

    /// Stops the program, as Ctrl-Z does in a shell, until it is continued.
    #[cfg(unix)]
    pub(super) fn stop_here() -> io::Result<()> {
        low_level::raise(SIGTSTP)
    }
}
