//! What the maker writes: ground layers, relief, registers, the study file.

pub mod geojson;
pub mod relief;
pub mod study;
