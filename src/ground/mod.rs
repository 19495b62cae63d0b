//! Layers of the land: parishes, land, shore, walked ground, relief. Public ground is read before any
//! register is.

mod layers;
mod partition;

pub use layers::{Ground, NamedPlace, Parish, Relief, Walked};
pub use partition::Partition;
