//! Coordinate systems, notations, datum shifts, transforms and their accuracy. Pure: knows no find.

mod area;
mod british;
mod bulk;
mod cell;
mod convergence;
mod convert;
mod datum;
mod kind;
mod names;
pub mod notation;
mod ostn15;
mod start;
mod system;
mod transverse;
mod way;

pub use bulk::convert_many;
pub use cell::Cell;
pub use convergence::convergence_deg;
pub use convert::{Converter, Operation};
pub use datum::unknown_datum_m;
pub use ostn15::LICENCE as OSTN15_LICENCE;
pub use proj_start::Finer;
pub use start::{NTF_LICENCE, start};
pub use system::{Position, System};
