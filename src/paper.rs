//! A checklist on paper: to be filled by hand where there is no laptop, with the numbers the walk
//! has, and entered later.

mod html;
mod sheet;
mod text;

pub use html::html;
pub use sheet::{Choice, Sheet, SheetBranch, SheetLimits, SheetSection, SheetStep, Wanted};
pub use text::text;
