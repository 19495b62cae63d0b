//! Parishes that leave too little ground to be told are joined with their neighbours, before any register is
//! read: what a parish alone tells of a find must leave as much as a square does.

use geo::{Coord, LinesIter, MultiPolygon};

use super::disclosed::Region;
use super::edges::Edges;
use super::ladder::Needed;
use super::mend::mend;
use super::{Ground, Parish};

/// Along the boundary of a small parish, how far apart its neighbours are looked for, metres.
const STEP_M: f64 = 25.0;

impl Ground {
    /// Joins, the smallest first, each parish that leaves too little with the neighbour that it has most boundary
    /// in common with; an island's goes to the one that most of its shore lies nearest to. The two bear both
    /// names.
    pub(super) fn join_small_parishes(&mut self, needed: Needed) {
        if !needed.anything() {
            return;
        }
        let region = Region::of(self);
        let left = |shape: &MultiPolygon<f64>| region.within(shape).whole();
        let mut left: Vec<_> = self.parishes.iter().map(|parish| left(&parish.shape)).collect();
        while self.parishes.len() > 1 {
            let failing = (0..self.parishes.len()).filter(|index| !needed.met_by(left[*index]));
            let Some(small) = failing.min_by(|a, b| left[*a].area_m2.total_cmp(&left[*b].area_m2)) else {
                break;
            };
            let Some(other) = neighbour(&self.parishes, small) else { break };
            let (kept, gone) = (small.min(other), small.max(other));
            let absorbed = self.parishes.remove(gone);
            left.remove(gone);
            if let Some(parish) = self.parishes.get_mut(kept) {
                let names = |parish: &Parish| match parish.also.as_slice() {
                    [] => vec![parish.name.clone()],
                    several => several.to_vec(),
                };
                parish.also = names(parish).into_iter().chain(names(&absorbed)).collect();
                parish.name = format!("{} + {}", parish.name, absorbed.name);
                let both = parish.shape.0.iter().chain(&absorbed.shape.0).cloned().collect::<Vec<_>>();
                parish.shape = mend(both.clone()).unwrap_or(MultiPolygon(both));
                left[kept] = region.within(&parish.shape).whole();
            }
        }
    }
}

/// The parish nearest to most of the boundary of another; the first by name where several are alike.
fn neighbour(parishes: &[Parish], small: usize) -> Option<usize> {
    let others: Vec<usize> = (0..parishes.len()).filter(|index| *index != small).collect();
    let edges = Edges::of(others.iter().map(|index| parishes[*index].shape.lines_iter()));
    let mut votes = vec![0.0; others.len()];
    for line in parishes.get(small)?.shape.lines_iter() {
        let length = line.dx().hypot(line.dy());
        let steps = (length / STEP_M).ceil().max(1.0);
        for step in 0..steps as u32 {
            let Coord { x, y } = line.start + line.delta() * ((f64::from(step) + 0.5) / steps);
            if let Some(near) = edges.nearest(x, y) {
                // Where it touches counts before where it is only near.
                votes[near.shape] += length / steps / near.distance_m.max(1.0);
            }
        }
    }
    let best = (0..votes.len()).reduce(|a, b| if votes[b] > votes[a] { b } else { a })?;
    others.get(best).copied()
}
