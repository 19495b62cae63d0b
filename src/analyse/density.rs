//! Kernel density of the published finds: which finds, on which ground, with which kernel; the sums are `kde`'s.
//! `docs/method.md` gives the formulas.

use std::collections::BTreeSet;

use super::Surface;
use super::bandwidth::{Choice, bandwidth, rule};
use super::frame::frame;
use super::kde::{Adaptive, At, Edge, Kernel, Smoother, adaptive_surface};
use super::outcome::{Made, Varying};
use super::spots::{Places, Spot, gather, wanted};
use super::window::{Window, add_squares};
use crate::coordinates::Cell;
use crate::exact::{Figure, Published, ReleasedFind, ReleasedPlace};
use crate::fault::Result;
use crate::ground::Ground;
use crate::ground::cover::Frame;
use crate::study::{EdgeCorrection, Effort, PublicStudy};

/// A cell with less of its kernel on the ground than this is treated as lying off it.
const LEAST_ON_GROUND: f64 = 1e-6;

/// Density of the published finds. `None` when no find has a cell.
pub fn density(published: &Published, study: &PublicStudy, ground: &Ground) -> Result<Option<Surface>> {
    let gathered = gather(published, study);
    if gathered.spots.is_empty() {
        return Ok(None);
    }
    let mut made = Made::default();
    made.doubts.extend(gathered.doubt);
    let mut window = Window::of(study, ground, study.density.effort);
    let mut off = window.off(&gathered.spots);
    if window.effort != Effort::None && off.len() == gathered.spots.len() {
        // Nothing was found where walking is known: what is left is land.
        made.doubts.push("density-doubt-none-walked");
        window = Window::of(study, ground, Some(Effort::None));
        off = window.off(&gathered.spots);
    }
    if window.cover_unknown {
        made.doubts.push("density-doubt-cover");
    }
    let (spots, afloat) = part(gathered.spots, off, &window, study);
    let mut surface = surface(&spots, &afloat, &window, study, made);
    count(&mut surface, published, study);
    Ok(Some(surface))
}

/// Counts what a surface holds and what it leaves out.
fn count(surface: &mut Surface, published: &Published, study: &PublicStudy) {
    let wanted = wanted(published, study);
    let in_cell = |find: &ReleasedFind| match find.place {
        ReleasedPlace::Cell(cell) => Some(cell),
        ReleasedPlace::Parish(_) => None,
    };
    let held = std::mem::take(&mut surface.made.cells);
    let holds = |find: &ReleasedFind| in_cell(find).is_some_and(|cell| held.contains(&cell));
    surface.held = published.total(|find| wanted(find) && holds(find));
    surface.left_out_of_place = published.total(|find| in_cell(find).is_some() && find.out_of_place);
    surface.left_out_by_parish = published.pieces_by_parish_only();
    let made = &mut surface.made;
    made.left_by_setting =
        published.total(|find| in_cell(find).is_some() && !find.out_of_place && !wanted(find));
    let off_ground = published.total(|find| wanted(find) && !holds(find));
    *(if made.effort == Effort::None { &mut made.left_off_land } else { &mut made.left_unwalked }) =
        off_ground;
    let others = surface.left_out_of_place + surface.left_out_by_parish + made.left_by_setting + off_ground;
    made.cells = held;
    // It holds all finds but those: readers subtract them too.
    if let Some(all) = published.pieces().exact() {
        surface.held = surface.held.beside(others, all);
    }
}

/// The spots that share the surface, and those of their cells that lie off the ground. Cells wholly off walked
/// ground are no part of finds per hectare walked. Cells wholly off the land, on a beach below the mapped shore or
/// on the sea bed, are left out unless they are asked for or there are no others: they are ground then.
fn part(
    spots: Vec<Spot>,
    off: BTreeSet<Cell>,
    window: &Window<'_>,
    study: &PublicStudy,
) -> (Vec<Spot>, BTreeSet<Cell>) {
    let walked = window.effort != Effort::None;
    if !walked && (study.density.off_land || off.len() == spots.len()) {
        return (spots, off);
    }
    (spots.into_iter().filter(|spot| !off.contains(&spot.cell)).collect(), BTreeSet::new())
}

fn surface(
    spots: &[Spot],
    afloat: &BTreeSet<Cell>,
    window: &Window<'_>,
    study: &PublicStudy,
    mut made: Made,
) -> Surface {
    let settings = &study.density;
    let outline = window.outline();
    let framed = |widest: f64, narrowest: f64| {
        let frame = frame(spots, (widest, narrowest), outline.as_ref(), afloat, study);
        let mut inside = window.shares(&frame);
        add_squares(&mut inside, &frame, afloat);
        (frame, inside)
    };
    let choice = bandwidth(settings.bandwidth, spots, || {
        let h = rule(spots);
        Some(framed(h, h))
    });
    let Choice { kernel, method, doubts } = choice;
    made.doubts.extend(doubts);
    let (widest, narrowest) = (kernel.east_m.max(kernel.north_m), kernel.east_m.min(kernel.north_m));
    // An adaptive kernel is narrower where finds lie thick, and wider where they lie thin.
    let (widest, narrowest) =
        if settings.adaptive { (2.0 * widest, narrowest / 2.0) } else { (widest, narrowest) };
    let (frame, mut inside) = framed(widest, narrowest);
    let edge = match settings.edge {
        // With nothing to be inside of, this keeps what little falls off the raster.
        _ if !window.is_bounded() => Edge::Diggle,
        EdgeCorrection::Diggle => Edge::Diggle,
        EdgeCorrection::Uniform => Edge::Uniform,
        EdgeCorrection::None => Edge::None,
    };
    let places = Places::of(spots);
    let shares = Smoother::new(places.observations(), kernel, frame, Some(&inside), Edge::None, At::Mean)
        .shares_inside();
    let lost = |share: &f64| *share < LEAST_ON_GROUND;
    let lost: BTreeSet<Cell> =
        spots.iter().zip(&shares).filter(|(_, share)| lost(share)).map(|(spot, _)| spot.cell).collect();
    let mut weights: Vec<f64> = spots.iter().map(|spot| spot.pieces as f64).collect();
    if window.effort == Effort::None {
        add_squares(&mut inside, &frame, &lost);
    } else {
        let weights = spots.iter().zip(&mut weights).filter(|(spot, _)| lost.contains(&spot.cell));
        weights.for_each(|(_, weight)| *weight = 0.0);
    }
    let per_hectare = if settings.adaptive {
        let records: Vec<f64> = spots.iter().map(|spot| spot.records as f64).collect();
        let h0_m = kernel.mean_m();
        let adaptive = Adaptive { h0_m, pilot_m: settings.pilot_m.unwrap_or(h0_m) };
        let varied = adaptive_surface(
            places.observations(),
            Some(&weights),
            Some(&records),
            adaptive,
            frame,
            Some(&inside),
            edge,
            At::Mean,
        );
        let ends = |(low, high): (f64, f64), h: &f64| (low.min(*h), high.max(*h));
        let (narrowest_m, widest_m) = varied.bandwidths_m.iter().fold((f64::INFINITY, 0.0), ends);
        made.varying = Some(Varying { pilot_m: adaptive.pilot_m, narrowest_m, widest_m });
        varied.per_hectare
    } else {
        Smoother::new(places.observations(), kernel, frame, Some(&inside), edge, At::Mean)
            .surface(Some(&weights))
    };
    let held = spots.iter().zip(&weights).filter(|(_, weight)| **weight > 0.0);
    made.cells = held.map(|(spot, _)| spot.cell).collect();
    made.kernel = kernel;
    made.effort = window.effort;
    made.edge = if window.is_bounded() { settings.edge } else { EdgeCorrection::None };
    finish(frame, inside, per_hectare, kernel, method, made)
}

fn finish(
    frame: Frame,
    inside: Vec<f64>,
    per_hectare: Vec<f64>,
    kernel: Kernel,
    method: &'static str,
    made: Made,
) -> Surface {
    let pixel_ha = frame.pixel_m * frame.pixel_m / 1e4;
    Surface {
        west_m: frame.west_m,
        south_m: frame.south_m,
        pixel_m: frame.pixel_m,
        columns: frame.columns,
        rows: frame.rows,
        pieces: per_hectare.iter().sum::<f64>() * pixel_ha,
        per_hectare,
        inside,
        bandwidth_m: kernel.mean_m(),
        bandwidth_method: method,
        held: Figure::default(),
        left_out_of_place: Figure::default(),
        left_out_by_parish: Figure::default(),
        made,
    }
}
