//! Laws that hold for any truck with any trailer, whatever the numbers.

mod any;
mod balance;
mod energy;
mod monotony;
mod tolerance;
mod wild;
