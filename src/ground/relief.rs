//! Heights: a window of a raster, held at no more than about 2,000 pixels a side, in the working grid.

use std::path::Path;

use gdal::raster::{RasterBand, ResampleAlg};
use gdal::{Dataset, GdalOpenFlags};
use geo::{BoundingRect, Coord, Rect};

use super::source::{open, system_of};
use super::{Ground, Relief};
use crate::coordinates::{Converter, System};
use crate::fault::{Fault, Result};
use crate::study::LayerSpec;

/// The raster formats that are built in, by the names GDAL has for them.
const RASTER_FORMATS: [&str; 4] = ["GTiff", "AAIGrid", "PNG", "JPEG"];

/// Most pixels held along a side.
const MOST: usize = 2_000;

/// When a raster is in another system, places are converted on a lattice of this many pixels and run
/// straight between: over 32 of 2,000 pixels the bend is far below a pixel.
const LATTICE: usize = 32;

/// A raster as the file has it: pixel (0, 0) is at the north-west, pixels may be oblong.
struct Raster {
    west: f64,
    north: f64,
    /// Pixel width, and height as a positive number.
    pixel: (f64, f64),
    size: (usize, usize),
}

impl Raster {
    fn of(dataset: &Dataset, band: &RasterBand<'_>) -> Result<Self> {
        let t = dataset.geo_transform().map_err(|_| Fault::new("ground-relief-nowhere"))?;
        if t[2] != 0.0 || t[4] != 0.0 || t[1] <= 0.0 || t[5] >= 0.0 || t.iter().any(|v| !v.is_finite()) {
            return Err(Fault::new("ground-relief-turned"));
        }
        Ok(Self { west: t[0], north: t[3], pixel: (t[1], -t[5]), size: band.size() })
    }

    fn extent(&self) -> Rect<f64> {
        Rect::new(
            (self.west, self.north - self.size.1 as f64 * self.pixel.1),
            (self.west + self.size.0 as f64 * self.pixel.0, self.north),
        )
    }

    /// The pixels that cover `wanted`: offset and size, inside the raster. `None` where they part.
    fn window(&self, wanted: Rect<f64>) -> Option<((usize, usize), (usize, usize))> {
        let span = |low: f64, high: f64, size: usize| {
            let low = low.floor().clamp(0.0, size as f64) as usize;
            let high = high.ceil().clamp(0.0, size as f64) as usize;
            (high > low).then_some((low, high - low))
        };
        let (x, width) = span(
            (wanted.min().x - self.west) / self.pixel.0,
            (wanted.max().x - self.west) / self.pixel.0,
            self.size.0,
        )?;
        let (y, height) = span(
            (self.north - wanted.max().y) / self.pixel.1,
            (self.north - wanted.min().y) / self.pixel.1,
            self.size.1,
        )?;
        Some(((x, y), (width, height)))
    }
}

/// A block of heights read from the file, every pixel `factor` file pixels.
struct Block {
    west: f64,
    north: f64,
    pixel: (f64, f64),
    columns: usize,
    rows: usize,
    heights: Vec<f32>,
}

/// Reads heights round the ground that is known already.
pub(super) fn read(spec: &LayerSpec, root: &Path, ground: &Ground) -> Result<Relief> {
    let dataset = open(spec, root, &RASTER_FORMATS, GdalOpenFlags::GDAL_OF_RASTER)?;
    let band = dataset.rasterband(1).map_err(|_| Fault::new("ground-relief-broken"))?;
    if dataset.raster_count() != 1 {
        return Err(Fault::new("ground-relief-picture").with("bands", dataset.raster_count()));
    }
    let raster = Raster::of(&dataset, &band)?;
    let system = dataset
        .spatial_ref()
        .ok()
        .and_then(|reference| system_of(&reference))
        .or_else(|| spec.system.clone())
        .ok_or_else(|| Fault::new("ground-no-system").with("layer", spec.kind.name()))?;
    let wanted = wanted(ground);
    let away = || Fault::new("ground-relief-away");
    let square = (raster.pixel.0 - raster.pixel.1).abs() <= 1e-6 * raster.pixel.0;
    if system == ground.system && square {
        let (offset, size) = raster.window(wanted.unwrap_or(raster.extent())).ok_or_else(away)?;
        let block = read_block(&band, &raster, offset, size)?;
        return Ok(Relief {
            west_m: block.west,
            north_m: block.north,
            pixel_m: block.pixel.0,
            columns: block.columns,
            rows: block.rows,
            heights: block.heights,
        });
    }
    warp(&band, &raster, &system, &ground.system, wanted, away)
}

/// The box of the known ground and a margin: heights elsewhere are never drawn.
fn wanted(ground: &Ground) -> Option<Rect<f64>> {
    let all = ground.frame()?;
    let margin = (all.width().max(all.height()) * 0.2).max(2_000.0);
    Some(Rect::new(
        (all.min().x - margin, all.min().y - margin),
        (all.max().x + margin, all.max().y + margin),
    ))
}

/// Reads a window, averaged down by a whole factor where it is large. The window gives up the pixels
/// at its east and south that do not fill a whole factor.
fn read_block(
    band: &RasterBand<'_>,
    raster: &Raster,
    offset: (usize, usize),
    size: (usize, usize),
) -> Result<Block> {
    let factor = size.0.max(size.1).div_ceil(MOST).max(1);
    let (columns, rows) = ((size.0 / factor).max(1), (size.1 / factor).max(1));
    let taken = ((columns * factor).min(size.0), (rows * factor).min(size.1));
    let method = if factor > 1 { ResampleAlg::Average } else { ResampleAlg::NearestNeighbour };
    let buffer = band
        .read_as::<f32>((offset.0 as isize, offset.1 as isize), taken, (columns, rows), Some(method))
        .map_err(|_| Fault::new("ground-relief-broken"))?;
    let missing = band.no_data_value().map(|value| value as f32);
    let (scale, shift) = (band.scale().unwrap_or(1.0), band.offset().unwrap_or(0.0));
    let heights = buffer
        .data()
        .iter()
        .map(|&raw| {
            let height = (f64::from(raw) * scale + shift) as f32;
            if missing == Some(raw) || !height.is_finite() { f32::NAN } else { height }
        })
        .collect();
    Ok(Block {
        west: raster.west + offset.0 as f64 * raster.pixel.0,
        north: raster.north - offset.1 as f64 * raster.pixel.1,
        pixel: (
            raster.pixel.0 * taken.0 as f64 / columns as f64,
            raster.pixel.1 * taken.1 as f64 / rows as f64,
        ),
        columns,
        rows,
        heights,
    })
}

/// Samples a raster of another system onto a raster of the working grid.
fn warp(
    band: &RasterBand<'_>,
    raster: &Raster,
    from: &System,
    to: &System,
    wanted: Option<Rect<f64>>,
    away: impl Fn() -> Fault,
) -> Result<Relief> {
    // Where the raster lies in the working grid: its rim, carried over.
    let carried = carried_box(raster.extent(), &Converter::new(from, to)?).ok_or_else(&away)?;
    let frame = match wanted {
        Some(wanted) => intersection(carried, wanted).ok_or_else(&away)?,
        None => carried,
    };
    let native = (carried.width() * carried.height() / (raster.size.0 * raster.size.1) as f64).sqrt();
    let pixel_m = native.max(frame.width().max(frame.height()) / MOST as f64);
    let columns = ((frame.width() / pixel_m).ceil() as usize).max(1);
    let rows = ((frame.height() / pixel_m).ceil() as usize).max(1);
    let (west_m, north_m) = (frame.min().x, frame.max().y);

    let back = Converter::new(to, from)?;
    let nodes = (columns.div_ceil(LATTICE) + 1, rows.div_ceil(LATTICE) + 1);
    let mut lattice = Vec::with_capacity(nodes.0 * nodes.1);
    for row in 0..nodes.1 {
        for column in 0..nodes.0 {
            let x = west_m + ((column * LATTICE) as f64 + 0.5) * pixel_m;
            let y = north_m - ((row * LATTICE) as f64 + 0.5) * pixel_m;
            lattice.push(back.convert_xy(x, y).ok().map(|(x, y)| Coord { x, y }));
        }
    }
    let source_box = lattice.iter().flatten().fold(None, |all: Option<Rect<f64>>, c| {
        let here = Rect::new(*c, *c);
        Some(all.map_or(here, |all| cover_both(all, here)))
    });
    let (offset, size) = source_box.and_then(|b| raster.window(b)).ok_or_else(&away)?;
    let block = read_block(band, raster, offset, size)?;

    let mut heights = Vec::with_capacity(columns * rows);
    for row in 0..rows {
        let (r, v) = (row / LATTICE, (row % LATTICE) as f64 / LATTICE as f64);
        for column in 0..columns {
            let (c, u) = (column / LATTICE, (column % LATTICE) as f64 / LATTICE as f64);
            let node = |c: usize, r: usize| lattice[r * nodes.0 + c];
            let place = match (node(c, r), node(c + 1, r), node(c, r + 1), node(c + 1, r + 1)) {
                (Some(a), Some(b), Some(c), Some(d)) => {
                    Some((a * (1.0 - u) + b * u) * (1.0 - v) + (c * (1.0 - u) + d * u) * v)
                }
                _ => None,
            };
            heights.push(place.map_or(f32::NAN, |place| block.at(place)));
        }
    }
    Ok(Relief { west_m, north_m, pixel_m, columns, rows, heights })
}

impl Block {
    /// The height at a place, straight between the four pixel centres round it; the nearest pixel where
    /// one of them has no height; NaN outside.
    fn at(&self, place: Coord<f64>) -> f32 {
        let x = (place.x - self.west) / self.pixel.0;
        let y = (self.north - place.y) / self.pixel.1;
        if !(x >= 0.0 && y >= 0.0 && x < self.columns as f64 && y < self.rows as f64) {
            return f32::NAN;
        }
        let get =
            |c: usize, r: usize| self.heights[r.min(self.rows - 1) * self.columns + c.min(self.columns - 1)];
        let nearest = get(x as usize, y as usize);
        let (x, y) = ((x - 0.5).max(0.0), (y - 0.5).max(0.0));
        let (c, r) = (x as usize, y as usize);
        let (u, v) = ((x - c as f64) as f32, (y - r as f64) as f32);
        let between = (get(c, r) * (1.0 - u) + get(c + 1, r) * u) * (1.0 - v)
            + (get(c, r + 1) * (1.0 - u) + get(c + 1, r + 1) * u) * v;
        if between.is_nan() { nearest } else { between }
    }
}

fn carried_box(extent: Rect<f64>, way: &Converter) -> Option<Rect<f64>> {
    let mut all: Option<Rect<f64>> = None;
    // 21 × 21 places over the extent: rim and inside, in case the rim lies outside the system.
    for i in 0..=20 {
        for j in 0..=20 {
            let x = extent.min().x + extent.width() * f64::from(i) / 20.0;
            let y = extent.min().y + extent.height() * f64::from(j) / 20.0;
            if let Ok((x, y)) = way.convert_xy(x, y) {
                let here = Rect::new((x, y), (x, y));
                all = Some(all.map_or(here, |all| cover_both(all, here)));
            }
        }
    }
    all.filter(|all| all.width() > 0.0 && all.height() > 0.0)
}

/// The smallest box over two.
pub(super) fn cover_both(a: Rect<f64>, b: Rect<f64>) -> Rect<f64> {
    Rect::new(
        (a.min().x.min(b.min().x), a.min().y.min(b.min().y)),
        (a.max().x.max(b.max().x), a.max().y.max(b.max().y)),
    )
}

fn intersection(a: Rect<f64>, b: Rect<f64>) -> Option<Rect<f64>> {
    let min = (a.min().x.max(b.min().x), a.min().y.max(b.min().y));
    let max = (a.max().x.min(b.max().x), a.max().y.min(b.max().y));
    (min.0 < max.0 && min.1 < max.1).then(|| Rect::new(min, max))
}

impl Ground {
    /// The box round the public ground that the study is about: land, parishes and shore. `None` when
    /// the study has none of these layers.
    pub fn frame(&self) -> Option<Rect<f64>> {
        let parishes = self.parishes.iter().filter_map(|parish| parish.shape.bounding_rect());
        parishes.chain(self.land.bounding_rect()).chain(self.shore.bounding_rect()).reduce(cover_both)
    }
}
