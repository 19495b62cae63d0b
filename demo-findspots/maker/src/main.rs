//! Invents the island of Hernsey, its people's walks and their registers of finds, from a seed.
//!
//! Nothing that it writes is real: the island lies in open sea, and every name, find and person is made
//! up. Given the project's folder (or another, to compare), it writes `demo-findspots/hernsey/`, which is
//! committed, and `tests/expected/hernsey-faults.toml`, the list of planted faults that a test reads.
//! Run again, it writes the same bytes.

#![forbid(unsafe_code)]
// The product writes files in one room alone; this program writes nothing but the demo.
#![allow(clippy::disallowed_methods)]

mod around;
mod beaches;
mod coast;
mod finds;
mod island;
mod noise;
mod parishes;
mod raster;
mod routes;
mod settlement;
mod terrain;
#[cfg(test)]
mod tests;
mod walked;
mod walks;
mod water;
mod write;

use std::fs;
use std::path::PathBuf;

/// Every island comes from its seed; this one is Hernsey.
const SEED: u64 = 20_261;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    strew::coordinates::start();
    let root = PathBuf::from(std::env::args_os().nth(1).unwrap_or_else(|| ".".into()));
    let folder = root.join("demo-findspots/hernsey");
    let ground = folder.join("ground");
    let expected = root.join("tests/expected");
    fs::create_dir_all(&ground)?;
    fs::create_dir_all(&expected)?;

    let island = island::Island::make(SEED);
    let degrees = write::geojson::Degrees::new()?;
    write::geojson::write(&island, &degrees, &ground)?;
    write::geojson::write_around(&around::around(&island.land, SEED), &degrees, &ground)?;
    write::relief::write(&island.terrain, &ground.join("relief.tif"))?;
    fs::write(folder.join("study.toml"), write::study::text(&island)?)?;
    fs::write(folder.join("README.md"), write::README)?;

    let registers = finds::registers(&island, &degrees, SEED)?;
    for register in &registers {
        fs::write(folder.join(register.name), &register.bytes)?;
    }
    fs::write(expected.join("hernsey-faults.toml"), write::faults::text(&registers)?)?;
    println!("{}: {} walked grounds, {} registers", folder.display(), island.walked.len(), registers.len());
    Ok(())
}
