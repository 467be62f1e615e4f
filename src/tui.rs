//! The screens: one model, one update, one view; what they need of the world they ask by errands.
//!
//! `update` turns a message into a changed model and errands; `view` draws a model and changes
//! nothing; `run` owns the terminal and carries errands to whoever performs them. Nothing here
//! names a file or a clock.

mod drill;
mod field;
mod help;
mod keys;
mod large;
mod lookout;
mod model;
mod msg;
mod page;
mod picture;
mod record;
pub mod rig;
mod room;
mod seal;
mod shell;
mod start;
mod text;
mod theme;
mod update;
mod view;
mod walk;
mod whatif;
mod why;

pub use keys::{Action, Context, Key, Press, Row, TABLE, live};
pub use model::Model;
pub use msg::Msg;
pub use picture::picture;
pub use shell::{Exit, TerminalTrouble, run};
pub use theme::{Look, Theme};
pub use update::{first, first_drills, first_lookout, first_rig, update};
pub use view::view;
