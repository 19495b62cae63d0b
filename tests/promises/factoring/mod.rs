//! Factoring: what an audience observes is a function of its release. If two registers have the same
//! release, everything written and printed is the same, byte for byte (Goguen and Meseguer 1982; Sabelfeld
//! and Myers 2004). Tested twice over: finds are re-drawn within all that gives the same release, and what is
//! written is made again in a fresh process from the serialised release, without the register.
//!
//! ```text
//! invented     one study on ground of squares, and registers for it
//! one_by_one   both tests on it, for every audience
//! studies      studies drawn at random: ground, agreements, settings
//! registers    registers drawn at random, and re-drawn within their release
//! typed        command lines drawn out of what the program says of its own commands
//! observed     what an audience observes of a run, and where two observations differ
//! redrawn      the first test, on hundreds of random studies
//! calls        what the library is asked for without a command line
//! rebuilt      the second test, on as many
//! ```

mod calls;
mod invented;
mod observed;
mod one_by_one;
mod rebuilt;
mod redrawn;
mod registers;
mod studies;
mod typed;

pub use invented::{random_register, write_ground};
