//! Layers of the land: parishes, land, shore, walked ground, relief. Public ground is read before any
//! register is.
//!
//! [`Ground::read`] goes: open the file (`source`), carry its shapes into the working grid (`carry`),
//! mend them (`mend`), join parishes that are too small to be told (`joined`). [`Partition`] then answers what
//! the wall and the analyses ask of the ground, from an index of its edges (`edges`) and exact areas (`cover`,
//! `disclosed`): which squares may be shown (`ladder`, and `steps` as a map) and what may be said in them (`masks`).

mod carry;
pub mod cover;
mod disclosed;
mod edges;
mod joined;
mod ladder;
mod layers;
mod masks;
mod mend;
mod partition;
mod read;
mod relief;
mod source;
mod steps;

pub use edges::{Edges, Near};
pub use layers::{Credit, Ground, NamedPlace, Parish, Relief, Walked};
pub use partition::{Partition, Sayable, Told};
pub use steps::Step;
