//! Invents the island of Hernsey, its people's walks and their registers of finds, from a seed.
//!
//! Nothing that it writes is real: the island lies in open sea, and every name, find and person is made
//! up. It writes `demo-findspots/hernsey/`, which is committed, and the list of planted faults that a
//! test reads. Run again, it writes the same bytes.

#![forbid(unsafe_code)]

mod beaches;
mod coast;
mod island;
mod noise;
mod parishes;
mod raster;
mod routes;
mod settlement;
mod terrain;
mod walked;
mod walks;
mod water;
mod write;

use std::path::Path;

const SEED: u64 = 20_261;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let root = std::env::args().nth(1).unwrap_or_else(|| "demo-findspots".to_owned());
    let folder = Path::new(&root).join("hernsey");
    let ground = folder.join("ground");
    std::fs::create_dir_all(&ground)?;
    let island = island::Island::make(SEED);
    let degrees = write::geojson::Degrees::new()?;
    write::geojson::write(&island, &degrees, &ground)?;
    write::relief::write(&island.terrain, &ground.join("relief.tif"))?;
    std::fs::write(folder.join("study.toml"), write::study::text(&island)?)?;
    println!("{}: {} walked fields, summit {:.0} m", folder.display(), island.walked.len(), island.terrain.height.values().iter().copied().fold(0.0, f64::max));
    Ok(())
}
