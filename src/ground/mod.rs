//! Layers of the land: parishes, land, shore, walked ground, relief. Public ground is read before any
//! register is.
//!
//! [`Ground::read`] goes: open the file (`source`), carry its shapes into the working grid (`carry`),
//! mend them (`mend`). [`Partition`] then answers what the wall and the analyses ask of the ground,
//! from an index of its edges (`edges`) and exact areas (`cover`).

mod carry;
pub mod cover;
mod edges;
mod layers;
mod mend;
mod partition;
mod read;
mod relief;
mod source;

pub use edges::{Edges, Near};
pub use layers::{Credit, Ground, NamedPlace, Parish, Relief, Walked};
pub use partition::Partition;
