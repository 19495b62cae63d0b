//! Our side of the density benchmarks, run by `benches/peers/bench.py`.
//!
//! `surfaces JOB IN OUT H SIDE`: IN holds all x, then all y, as 64-bit floats in a square of 20 km; H is the
//! bandwidth, SIDE the pixels along a side. JOB is `plain`, `edge-uniform`, `edge-diggle` (a ring beside IN),
//! `adaptive`, or a way of choosing the bandwidth. Prints the seconds that the work took and, for a bandwidth, east
//! and north; OUT receives the surface.

#![allow(clippy::print_stdout, clippy::disallowed_methods)]

use std::error::Error;
use std::fs::File;
use std::io::{BufReader, Read};
use std::time::Instant;

use geo::{LineString, MultiPolygon, Polygon};
use strew::analyse::kde::{
    Adaptive, At, Edge, Frame, Kernel, Observations, Selector, Sides, Smoother, adaptive_surface,
    choose_bandwidth,
};
use strew::ground::cover::shares;

/// The two halves of a file of 64-bit floats, read piece by piece so that nothing is held twice.
fn halves(path: &str) -> Result<(Vec<f64>, Vec<f64>), Box<dyn Error>> {
    let half = std::fs::metadata(path)?.len() as usize / 16;
    let mut file = BufReader::with_capacity(1 << 16, File::open(path)?);
    let mut read = || -> Result<Vec<f64>, std::io::Error> {
        let mut eight = [0; 8];
        let mut values = Vec::with_capacity(half);
        for _ in 0..half {
            file.read_exact(&mut eight)?;
            values.push(f64::from_le_bytes(eight));
        }
        Ok(values)
    };
    Ok((read()?, read()?))
}

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    let [job, input, output, h, side] = &arguments[..] else {
        println!("Run \"make bench\": it gives this program its files.");
        return Ok(());
    };
    let (h, side): (f64, usize) = (h.parse()?, side.parse()?);
    let (xs, ys) = halves(input)?;
    let frame =
        Frame { west_m: 0.0, south_m: 0.0, pixel_m: 20_000.0 / side as f64, columns: side, rows: side };
    let observations = Observations { x_m: &xs, y_m: &ys, side_m: Sides::Alike(0.0) };
    let selector = match job.as_str() {
        "plug-in" => Some(Selector::PlugIn),
        "plug-in-full" => Some(Selector::PlugInFull),
        "least-squares" => Some(Selector::LeastSquares),
        "least-squares-diagonal" => Some(Selector::LeastSquaresDiagonal),
        "likelihood" => Some(Selector::Likelihood),
        "diggle" => Some(Selector::Diggle),
        _ => None,
    };
    if let Some(selector) = selector {
        let even = vec![1.0; side * side];
        let start = Instant::now();
        let chosen = choose_bandwidth(observations, None, Some((&frame, &even)), selector);
        let seconds = start.elapsed().as_secs_f64();
        let kernel = chosen.ok_or("no bandwidth")?.kernel;
        println!("{seconds} {} {}", kernel.east_m, kernel.north_m);
        return Ok(());
    }
    let ring =
        std::fs::exists(format!("{input}.ring"))?.then(|| polygon(&format!("{input}.ring"))).transpose()?;
    let start = Instant::now();
    if job == "adaptive" {
        let adaptive = Adaptive { h0_m: h, pilot_m: h };
        let (edge, at) = (Edge::Uniform, At::Centre);
        let varied = adaptive_surface(observations, None, None, adaptive, frame, None, edge, at);
        println!("{}", start.elapsed().as_secs_f64());
        return write(output, &varied.per_hectare);
    }
    let edge = match job.as_str() {
        "edge-uniform" => Edge::Uniform,
        "edge-diggle" => Edge::Diggle,
        _ => Edge::None,
    };
    // From the polygon to shares of pixels is part of the work.
    let window = ring.filter(|_| edge != Edge::None).map(|ring| shares(&ring, &frame));
    let window = window.as_deref();
    let values = Smoother::new(observations, Kernel::round(h), frame, window, edge, At::Centre).surface(None);
    println!("{}", start.elapsed().as_secs_f64());
    write(output, &values)
}

/// A ring of places as a polygon.
fn polygon(path: &str) -> Result<MultiPolygon<f64>, Box<dyn Error>> {
    let (xs, ys) = halves(path)?;
    let ring: LineString<f64> = xs.into_iter().zip(ys).collect();
    Ok(MultiPolygon::new(vec![Polygon::new(ring, Vec::new())]))
}

fn write(path: &str, values: &[f64]) -> Result<(), Box<dyn Error>> {
    let bytes: Vec<u8> = values.iter().flat_map(|value| value.to_le_bytes()).collect();
    Ok(std::fs::write(path, bytes)?)
}
