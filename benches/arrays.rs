//! Our side of the array benchmarks: reads two arrays of coordinates from a file, carries them from one
//! system to another, prints the seconds that took, and writes the arrays back.
//!
//! `arrays FROM TO IN OUT`; a file holds all x, then all y, as 64-bit floats. `benches/peers/bench.py` runs it.

#![allow(clippy::print_stdout, clippy::disallowed_methods)]

use std::error::Error;
use std::time::Instant;

use strew::coordinates::{System, convert_many};

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let [from, to, input, output] = &arguments[..] else {
        println!("Run \"make bench\": it gives this program its files.");
        return Ok(());
    };
    let system = |code: &str| code.parse().map(System::from_epsg);
    let (from, to) = (system(from)?, system(to)?);
    let bytes = std::fs::read(input)?;
    let mut xs: Vec<f64> =
        bytes.chunks_exact(8).map(|eight| f64::from_le_bytes(eight.try_into().unwrap_or_default())).collect();
    drop(bytes);
    let mut ys = xs.split_off(xs.len() / 2);
    let start = Instant::now();
    let failed = convert_many(&from, &to, &mut xs, &mut ys).map_err(|fault| fault.id)?;
    println!("{} {failed}", start.elapsed().as_secs_f64());
    let bytes: Vec<u8> = xs.iter().chain(&ys).flat_map(|value| value.to_le_bytes()).collect();
    Ok(std::fs::write(output, bytes)?)
}
