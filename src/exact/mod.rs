//! THE WALL. Register readers, checks, the exact findspot, and release.
//!
//! Exact places can be read in this folder alone. What it offers to the rest is the short list below,
//! which `tests/promises/wall.rs` holds.

mod checks;
mod checks_on_ground;
mod find;
mod hunt;
mod ledger;
mod office;
mod private;
mod publish;
mod register;
mod release;
mod releasing;
mod scatters;
mod tally;
mod tied;

pub(in crate::exact) use find::{ExactFind, ExactPlace};
pub use hunt::{Hunt, OwnWord};
pub use ledger::{Ledger, Publication};
pub use private::Private;
pub use publish::{CellSummary, Figure, Published, band};
pub use register::{Doubt, Field, FileShape, Guess, Matter, Problem, Problems, Register, guess};
pub use release::{Details, Release, ReleasedFind, ReleasedPlace, RowState};
pub use scatters::Betrayed;
pub use tally::{Reason, Tally};
