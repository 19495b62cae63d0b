//! The ground of a surface: land, or walked ground, as shares of pixels. Public layers alone.

use std::collections::BTreeSet;

use geo::{LinesIter, MultiPolygon};

use super::spots::Spot;
use crate::coordinates::Cell;
use crate::ground::cover::{Frame, shares};
use crate::ground::{Edges, Ground};
use crate::study::{EdgeCorrection, Effort, PublicStudy};

/// What counts as ground.
pub(super) struct Window<'g> {
    /// Shapes with the share of each that counts.
    shapes: Vec<(&'g MultiPolygon<f64>, f64)>,
    /// What the density is per.
    pub effort: Effort,
    /// Whether some walked ground has no cover, so that it counts as looked at wholly.
    pub cover_unknown: bool,
}

impl<'g> Window<'g> {
    /// The ground that the study asks for: walked ground where a public layer gives it, else land. Land is left
    /// aside where no correction at its edge is asked for.
    pub fn of(study: &PublicStudy, ground: &'g Ground, effort: Option<Effort>) -> Self {
        let effort = match effort {
            _ if ground.walked.is_empty() => Effort::None,
            Some(effort) => effort,
            None => Effort::Walked,
        };
        let mut cover_unknown = false;
        let shapes = match effort {
            Effort::None if study.density.edge == EdgeCorrection::None || ground.land.0.is_empty() => {
                Vec::new()
            }
            Effort::None => vec![(&ground.land, 1.0)],
            Effort::Walked => ground.walked.iter().map(|walked| (&walked.shape, 1.0)).collect(),
            Effort::Covered => {
                cover_unknown = ground.walked.iter().any(|walked| walked.cover.is_none());
                let share = |cover: Option<f64>| cover.unwrap_or(1.0).clamp(0.0, 1.0);
                ground.walked.iter().map(|walked| (&walked.shape, share(walked.cover))).collect()
            }
        };
        Self { shapes, effort, cover_unknown }
    }

    /// Whether there is any edge.
    pub fn is_bounded(&self) -> bool {
        !self.shapes.is_empty()
    }

    /// All of it as one shape, for its extent alone: parts may overlap.
    pub fn outline(&self) -> Option<MultiPolygon<f64>> {
        self.is_bounded()
            .then(|| MultiPolygon::new(self.shapes.iter().flat_map(|(shape, _)| shape.0.clone()).collect()))
    }

    /// The share of each pixel that is ground: all of it where nothing bounds it. Ground walked twice is looked
    /// at once.
    pub fn shares(&self, frame: &Frame) -> Vec<f64> {
        if !self.is_bounded() {
            return vec![1.0; frame.columns * frame.rows];
        }
        let mut all = vec![0.0; frame.columns * frame.rows];
        for (shape, part) in &self.shapes {
            for (sum, share) in all.iter_mut().zip(shares(shape, frame)) {
                *sum = f64::min(*sum + part * share, 1.0);
            }
        }
        all
    }

    /// Cells that lie wholly off the ground.
    pub fn off(&self, spots: &[Spot]) -> BTreeSet<Cell> {
        if !self.is_bounded() {
            return BTreeSet::new();
        }
        let edges = Edges::of(self.shapes.iter().map(|(shape, _)| shape.lines_iter()));
        let off = spots.iter().map(|spot| spot.cell).filter(|cell| {
            let centre = cell.rect().center();
            edges.meeting(cell.rect(), 0.0).is_empty() && edges.holding(centre.x, centre.y).is_empty()
        });
        off.collect()
    }
}

/// Adds whole squares to a window. A square inside a larger one of the same set is there already.
pub(super) fn add_squares(inside: &mut [f64], frame: &Frame, squares: &BTreeSet<Cell>) {
    let sides: BTreeSet<u32> = squares.iter().map(|cell| cell.side_m).collect();
    for cell in squares {
        let larger = sides.range(cell.side_m + 1..).filter_map(|side| cell.within(*side));
        if larger.into_iter().any(|larger| squares.contains(&larger)) {
            continue;
        }
        let span = |low: f64, high: f64, start: f64, count: usize| {
            let (low, high) = ((low - start) / frame.pixel_m, (high - start) / frame.pixel_m);
            let from = (low.floor().max(0.0) as usize).min(count);
            let to = (high.ceil().max(0.0) as usize).min(count);
            (from..to).map(move |i| (i, (high.min(i as f64 + 1.0) - low.max(i as f64)).max(0.0)))
        };
        for (row, up) in span(cell.south_m(), cell.north_m(), frame.south_m, frame.rows) {
            for (column, across) in span(cell.west_m(), cell.east_m(), frame.west_m, frame.columns) {
                let share = &mut inside[row * frame.columns + column];
                *share = (*share + up * across).min(1.0);
            }
        }
    }
}
