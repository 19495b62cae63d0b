//! `strew`: from a register of stone-tool finds to what may be shown to whom.
//!
//! Data flows one way, through rooms in this order; a room uses only those above it.
//!
//! ```text
//! coordinates  systems, notations, datum shifts, accuracy; knows no find
//! study        the study file, agreements, vocabulary, settings
//! ground       parishes, land, shore, walked ground, relief
//! exact        THE WALL: registers, checks, exact findspots, release
//! analyse      density, concentrations, tables, the shore
//! sheet        map pages
//! pack         every file that is written
//! audit        what a thief would read out of files; cleaned copies of photographs
//! run          what a command does
//! cli          what was typed
//! ```
//!
//! Beside them lie small shared pieces: `units`, `fault`, `words`.

#![forbid(unsafe_code)]
#![warn(missing_docs)]

pub mod fault;
pub mod units;
pub mod words;

pub mod coordinates;

pub mod study;

pub mod ground;

pub mod exact;

pub mod analyse;

pub mod sheet;

pub mod pack;

pub mod audit;

pub mod run;

pub mod cli;
