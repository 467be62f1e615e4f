//! Chains, lanyard and cord: how far their ends come apart, how low they hang, what they hold up.

mod anchor;
mod anchor_distance;
mod chain_longest;
mod chain_needs;
mod chain_sag;
mod cord_needs;
mod coupler_drop;
mod cradle;
mod lanyard_window;
#[cfg(test)]
mod laws;
mod max_anchor_distance;
mod pair;
mod swing;
mod tight;
pub mod usual;

pub use anchor::Anchor;
pub use anchor_distance::{AtAngle, Distance, PAGE as ANCHOR_DISTANCE, anchor_distance};
pub use chain_longest::{ChainLongest, LongestChain, PAGE as CHAIN_LONGEST, chain_longest};
pub use chain_needs::{ChainNeeds, NeededChain, PAGE as CHAIN_NEEDS, chain_needs};
pub use chain_sag::{ChainSag, Hang, HangingChain, PAGE as CHAIN_SAG, chain_sag};
pub use cord_needs::{CordNeeds, NeededCord, PAGE as CORD_NEEDS, cord_needs};
pub use coupler_drop::{Drop, DroppedCoupler, Held, PAGE as COUPLER_DROP, coupler_drop};
pub use cradle::{Cradle, HeldCoupler, PAGE as CRADLE, cradle};
pub use lanyard_window::{
    LanyardWindow, PAGE as LANYARD_WINDOW, School, Valid, Window, lanyard_window,
};
pub use max_anchor_distance::{
    Farthest, InTurns, PAGE as MAX_ANCHOR_DISTANCE, max_anchor_distance,
};
pub use pair::EyePair;
