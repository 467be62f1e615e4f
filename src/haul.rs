//! What the walks of one rig leave to the next: what stands open, open defects, services done.
//!
//! A day's haul is several walks, and each rests on those before it. Every walk is first brought
//! down to what later ones need, a [`Past`]; [`fold`] takes them in order of time, as a walk is a
//! fold of its events, so that nothing is kept but records. How long each kind of thing stays
//! open stands once, in [`TABLE`].

mod bars;
mod defect;
mod fold;
mod found;
mod open;
mod owned;
mod past;
mod table;

pub use bars::{asks, barring};
pub use defect::{Closed, Defect, Found};
pub use fold::{Going, Standing, fold};
pub use found::{Flagged, flagged};
pub use open::{Open, Since};
pub use owned::{Owned, Today, is_past};
pub use past::{Past, Told};
pub use table::{Lasting, TABLE, lasting};
