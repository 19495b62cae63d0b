//! Coordinate systems, notations, datum shifts, transforms and their accuracy. Pure: knows no find.

mod cell;
mod convert;
pub mod notation;
mod system;

pub use cell::Cell;
pub use convert::{Converter, Operation};
pub use system::{Position, System};
