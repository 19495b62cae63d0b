//! THE WALL. Register readers, checks, the exact findspot, and release.
//!
//! Exact places can be read in this folder alone. What it offers to the rest is the short list below,
//! which `tests/promises/wall.rs` holds.

mod checks;
mod find;
mod private;
mod publish;
pub mod register;
mod release;
mod releasing;
mod tally;

pub(in crate::exact) use find::{ExactFind, ExactPlace};
pub use private::Private;
pub use publish::{CellSummary, Published, band};
pub use register::Register;
pub use release::{Details, Release, ReleasedFind, ReleasedPlace};
pub use tally::{Reason, Tally};
