//! The cheapest way over the raster: how roads and boundaries find their course.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use geo::{LineString, Simplify};

use crate::raster::{Place, Raster, centre, neighbours};
use crate::terrain::Ordered;

/// The cheapest way from one pixel to any of `ends`; `step` prices a step, `None` bars it.
pub fn cheapest(
    start: usize,
    ends: &[usize],
    step: impl Fn(usize, usize, f64) -> Option<f64>,
) -> Option<Vec<usize>> {
    let mut price = Raster::filled(f64::INFINITY);
    let mut from = Raster::filled(usize::MAX);
    let mut open = BinaryHeap::new();
    price[start] = 0.0;
    open.push(Reverse((Ordered(0.0), start)));
    while let Some(Reverse((Ordered(paid), pixel))) = open.pop() {
        if ends.contains(&pixel) {
            let mut way = vec![pixel];
            while way[way.len() - 1] != start {
                way.push(from[way[way.len() - 1]]);
            }
            way.reverse();
            return Some(way);
        }
        if paid > price[pixel] {
            continue;
        }
        for (next, length) in neighbours(pixel) {
            let Some(cost) = step(pixel, next, length) else { continue };
            if paid + cost < price[next] {
                price[next] = paid + cost;
                from[next] = pixel;
                open.push(Reverse((Ordered(paid + cost), next)));
            }
        }
    }
    None
}

/// A way over pixels as a line without stairs: each middle moves to the mean of its surroundings, the
/// ends stay.
pub fn smooth_line(way: &[usize], tolerance_m: f64) -> LineString<f64> {
    let mut line: Vec<Place> = way.iter().map(|pixel| centre(*pixel)).collect();
    for _ in 0..5 {
        let before = line.clone();
        for i in 1..line.len().saturating_sub(1) {
            let reach = i.min(line.len() - 1 - i).min(2);
            let near = &before[i - reach..=i + reach];
            line[i] = Place {
                x: near.iter().map(|p| p.x).sum::<f64>() / near.len() as f64,
                y: near.iter().map(|p| p.y).sum::<f64>() / near.len() as f64,
            };
        }
    }
    LineString(line).simplify(tolerance_m)
}
