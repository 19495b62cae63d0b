//! What the maker writes besides the registers: ground layers, relief, the study file, the list of faults.

pub mod faults;
pub mod geojson;
pub mod relief;
pub mod study;

/// The page that says that all of it is invented.
pub const README: &str = include_str!("hernsey.md");
