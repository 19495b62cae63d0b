//! As in the program, less the conversions. What would ask PROJ or GDAL is answered here: degrees for a few
//! codes of geographic systems, no bounds beyond the program's own.
#![allow(dead_code)] // what only the whole program calls

#[path = "../../src/coordinates/cell.rs"]
mod cell;
#[path = "../../src/coordinates/names.rs"]
mod names;
#[path = "../../src/coordinates/notation/mod.rs"]
pub mod notation;
#[path = "../../src/coordinates/system.rs"]
mod system;

pub use cell::Cell;
pub use system::{Position, System};

mod ostn15 {
    pub const EAST_M: f64 = 700_000.0;
    pub const NORTH_M: f64 = 1_250_000.0;
}

mod kind {
    pub fn in_degrees(system: &super::System) -> bool {
        matches!(system.epsg(), Some(4171 | 4258 | 4275 | 4277 | 4289 | 4807))
    }
}

mod area {
    pub fn bounds(_: u32) -> Option<((f64, f64), (f64, f64))> {
        None
    }
}
