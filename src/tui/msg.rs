//! What the screens are told.

use crate::desk::Reply;
use crate::tui::Key;
use crate::walk::Moment;

/// One message to [`update`](crate::tui::update).
#[derive(Clone, Debug)]
pub enum Msg {
    /// The clock now.
    Clock(Moment),
    /// The window has this many columns and rows.
    Resized(u16, u16),
    /// A key went down.
    Press {
        /// The key.
        key: Key,
        /// Whether it came from a key that is held down: then it types, and does nothing else.
        repeat: bool,
    },
    /// Every key that had been pressed for what was there before is gone: so many of them.
    Unheard(usize),
    /// Text was pasted.
    Paste(String),
    /// The program was stopped by its user and has come back after this many milliseconds.
    Away(u64),
    /// What the world answered to an errand.
    Reply(Reply),
}
