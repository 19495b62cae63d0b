//! Hill shading, quiet, behind everything: a small embedded picture of shade alone.

use super::canvas::{MM, Rect};
use super::colour::Colour;
use super::style::Style;
use super::view::View;
use crate::ground::Relief;

/// One dot of shade on paper, millimetres: shading is soft, and finer dots only make a larger file.
const DOT_MM: f64 = 0.4;
/// Steps of shade: few enough to pack four bits a dot.
const STEPS: usize = 16;

/// A picture (PNG bytes) of shade for the part of the frame that the relief covers, and where it goes.
/// `None` without relief there, or where the style shows none.
pub(super) fn shade(relief: &Relief, view: &View, style: &Style) -> Option<(Rect, Vec<u8>)> {
    if style.relief.strongest <= 0.0 || relief.columns < 3 || relief.rows < 3 {
        return None;
    }
    let across = relief.columns as f64 * relief.pixel_m;
    let down = relief.rows as f64 * relief.pixel_m;
    let f = view.frame;
    let rect = Rect {
        x0: view.x(relief.west_m).max(f.x0).round(),
        x1: view.x(relief.west_m + across).min(f.x1).round(),
        y0: view.y(relief.north_m).max(f.y0).round(),
        y1: view.y(relief.north_m - down).min(f.y1).round(),
    };
    if rect.width() < 1.0 || rect.height() < 1.0 {
        return None;
    }
    let columns = (rect.width() / (DOT_MM * MM)).ceil().max(1.0) as usize;
    let rows = (rect.height() / (DOT_MM * MM)).ceil().max(1.0) as usize;
    let step_m = (DOT_MM * MM * view.unit_m).max(relief.pixel_m);
    let mut dark = Vec::with_capacity(columns * rows);
    for row in 0..rows {
        let y = rect.y0 + rect.height() * (row as f64 + 0.5) / rows as f64;
        for column in 0..columns {
            let x = rect.x0 + rect.width() * (column as f64 + 0.5) / columns as f64;
            dark.push(darkness(relief, view.easting(x), view.northing(y), step_m));
        }
    }
    let strongest = typical_strongest(&dark)?;
    let mut levels: Vec<u8> = dark
        .iter()
        .map(|d| {
            let share = d.map_or(0.0, |d| (d / strongest).clamp(0.0, 1.0));
            (share * (STEPS - 1) as f64).round() as u8
        })
        .collect();
    soften(&mut levels, columns);
    encode(&levels, columns, rows, style.relief.ink, style.relief.strongest).map(|png| (rect, png))
}

/// How dark the ground lies under light from the north-west at 45°, over flat ground: the cosine of
/// the angle between light and slope (Horn 1981, "Hill Shading and the Reflectance Map"), taken from
/// that of flat ground. Only shade is kept: light ground is the paper.
fn darkness(relief: &Relief, easting: f64, northing: f64, step_m: f64) -> Option<f64> {
    let height = |e: f64, n: f64| {
        let column = (e - relief.west_m) / relief.pixel_m;
        let row = (relief.north_m - n) / relief.pixel_m;
        if column < 0.0 || row < 0.0 {
            return None;
        }
        relief.height(column as usize, row as usize).map(f64::from)
    };
    let here = height(easting, northing).filter(|h| *h > 0.0)?;
    let near = |e: f64, n: f64| height(e, n).unwrap_or(here);
    let dz_east = (near(easting + step_m, northing) - near(easting - step_m, northing)) / (2.0 * step_m);
    let dz_north = (near(easting, northing + step_m) - near(easting, northing - step_m)) / (2.0 * step_m);
    let flat = std::f64::consts::FRAC_1_SQRT_2;
    // Light from the north-west, 45° high: (−½, ½, √½).
    let lit = (dz_east * 0.5 - dz_north * 0.5 + flat) / (1.0 + dz_east.powi(2) + dz_north.powi(2)).sqrt();
    Some((flat - lit).max(0.0))
}

/// The darkness that gets the deepest shade: the 97th of a hundred, so that low islands show too.
fn typical_strongest(dark: &[Option<f64>]) -> Option<f64> {
    let mut known: Vec<f64> = dark.iter().flatten().copied().collect();
    known.sort_by(f64::total_cmp);
    let strongest = *known.get(known.len() * 97 / 100)?;
    (strongest > 1e-4).then_some(strongest.max(0.01))
}

/// One pass of a 3 × 3 mean, which hides the steps of a coarse relief.
fn soften(levels: &mut [u8], columns: usize) {
    let rows = levels.len() / columns;
    let before = levels.to_vec();
    for row in 0..rows {
        for column in 0..columns {
            let (mut sum, mut n) = (0u32, 0u32);
            for r in row.saturating_sub(1)..(row + 2).min(rows) {
                for c in column.saturating_sub(1)..(column + 2).min(columns) {
                    sum += u32::from(before[r * columns + c]);
                    n += 1;
                }
            }
            levels[row * columns + column] = ((sum + n / 2) / n) as u8;
        }
    }
}

/// Four bits a dot: one ink, sixteen strengths.
fn encode(levels: &[u8], columns: usize, rows: usize, ink: Colour, strongest: f64) -> Option<Vec<u8>> {
    let mut packed = Vec::with_capacity(rows * columns.div_ceil(2));
    for row in levels.chunks(columns) {
        packed.extend(row.chunks(2).map(|pair| pair[0] << 4 | pair.get(1).copied().unwrap_or(0)));
    }
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, columns as u32, rows as u32);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Four);
    encoder.set_palette(ink.0.repeat(STEPS));
    let alpha = |step: usize| (strongest * 255.0 * step as f64 / (STEPS - 1) as f64).round() as u8;
    encoder.set_trns((0..STEPS).map(alpha).collect::<Vec<u8>>());
    let mut writer = encoder.write_header().ok()?;
    writer.write_image_data(&packed).ok()?;
    writer.finish().ok()?;
    Some(out)
}
