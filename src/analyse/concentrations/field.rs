//! The surface as means over squares: the finest thing that concentrations are made from.

use crate::analyse::Surface;
use crate::coordinates::Cell;
use crate::ground::cover::Frame;

/// A block of squares of one side, row 0 the southernmost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Lattice {
    pub side_m: u32,
    /// Column and row of the south-western square, counted from the grid's origin.
    pub west: i32,
    pub south: i32,
    pub columns: usize,
    pub rows: usize,
}

impl Lattice {
    /// The squares of a side that meet a box in metres.
    pub fn over(side_m: u32, west_m: f64, south_m: f64, east_m: f64, north_m: f64) -> Self {
        let side = f64::from(side_m);
        // A hair of tolerance keeps a box that ends on an edge from taking the next square.
        let low = |v: f64| (v / side + 1e-9).floor() as i32;
        let high = |v: f64| (v / side - 1e-9).ceil() as i32;
        let (west, south) = (low(west_m), low(south_m));
        let count = |from: i32, to: i32| i64::from(to).saturating_sub(i64::from(from)).max(1) as usize;
        Self { side_m, west, south, columns: count(west, high(east_m)), rows: count(south, high(north_m)) }
    }

    pub fn len(&self) -> usize {
        self.columns * self.rows
    }

    pub fn cell(&self, index: usize) -> Cell {
        Cell {
            side_m: self.side_m,
            column: self.west + (index % self.columns) as i32,
            row: self.south + (index / self.columns) as i32,
        }
    }

    pub fn index(&self, cell: Cell) -> Option<usize> {
        let at = |index: i32, from: i32, count: usize| {
            usize::try_from(i64::from(index) - i64::from(from)).ok().filter(|at| *at < count)
        };
        let (column, row) = (at(cell.column, self.west, self.columns)?, at(cell.row, self.south, self.rows)?);
        (cell.side_m == self.side_m).then_some(row * self.columns + column)
    }

    /// The square that holds the centre of another's square.
    pub fn holding(&self, cell: Cell) -> Option<usize> {
        let centre = cell.rect().center();
        self.index(Cell::holding(centre.x, centre.y, self.side_m)?)
    }

    pub fn hectares(&self) -> f64 {
        f64::from(self.side_m).powi(2) / 1e4
    }

    pub fn frame(&self) -> Frame {
        let side = f64::from(self.side_m);
        Frame {
            west_m: f64::from(self.west) * side,
            south_m: f64::from(self.south) * side,
            pixel_m: side,
            columns: self.columns,
            rows: self.rows,
        }
    }

    /// Neighbours of a square, with their distance in sides: by sides alone, or by corners too. In order
    /// of index, so that ties fall alike every time.
    pub fn neighbours(&self, index: usize, corners: bool) -> impl Iterator<Item = (usize, f64)> + use<> {
        let (column, row) = ((index % self.columns) as i64, (index / self.columns) as i64);
        let (columns, rows) = (self.columns as i64, self.rows as i64);
        (-1..=1).flat_map(move |up| (-1..=1).map(move |east| (east, up))).filter_map(move |(east, up)| {
            let diagonal = east != 0 && up != 0;
            let (c, r) = (column + east, row + up);
            let there = (0..columns).contains(&c) && (0..rows).contains(&r);
            let near = (east, up) != (0, 0) && (corners || !diagonal);
            let distance = if diagonal { std::f64::consts::SQRT_2 } else { 1.0 };
            (there && near).then_some(((r * columns + c) as usize, distance))
        })
    }
}

/// Density by squares.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Field {
    pub lattice: Lattice,
    /// Pieces per hectare of ground; 0 where there is none.
    pub density: Vec<f64>,
    /// Hectares inside the window.
    pub ground_ha: Vec<f64>,
}

impl Field {
    /// The surface over the squares of the agreed grid. Where a pixel is a whole number of agreed sides, it
    /// is the finest square that the surface tells.
    pub fn of(surface: &Surface, agreed_m: u32) -> Self {
        let pixel = surface.pixel_m;
        let side_m = if pixel > f64::from(agreed_m) { pixel as u32 } else { agreed_m };
        let east_m = surface.west_m + surface.columns as f64 * pixel;
        let north_m = surface.south_m + surface.rows as f64 * pixel;
        let lattice = Lattice::over(side_m, surface.west_m, surface.south_m, east_m, north_m);
        let pixel_ha = pixel * pixel / 1e4;
        let mut mass = vec![0.0; lattice.len()];
        let mut ground_ha = vec![0.0; lattice.len()];
        for row in 0..surface.rows {
            for column in 0..surface.columns {
                let at = row * surface.columns + column;
                let inside = surface.inside[at];
                if inside <= 0.0 {
                    continue;
                }
                let Some(square) = holding(surface, column, row, &lattice) else { continue };
                mass[square] += surface.per_hectare[at] * pixel_ha;
                ground_ha[square] += inside * pixel_ha;
            }
        }
        let density = mass.iter().zip(&ground_ha).map(|(m, g)| if *g > 0.0 { m / g } else { 0.0 }).collect();
        Self { lattice, density, ground_ha }
    }

    /// Pieces in a square.
    pub fn mass(&self, index: usize) -> f64 {
        self.density[index] * self.ground_ha[index]
    }

    /// Densities as whole numbers of a thousand-millionth of the peak: squares alike by symmetry are then
    /// exactly alike, and a choice among them falls by their place, not by rounding. 0 where there is none.
    pub fn heights(&self) -> Vec<u64> {
        let peak = self.density.iter().copied().fold(0.0, f64::max);
        let height = |d: &f64| if peak > 0.0 { (d / peak * 1e9).round() as u64 } else { 0 };
        self.density.iter().map(height).collect()
    }
}

/// The square that a pixel's centre lies in.
pub(super) fn holding(surface: &Surface, column: usize, row: usize, lattice: &Lattice) -> Option<usize> {
    let centre = |start: f64, index: usize| start + (index as f64 + 0.5) * surface.pixel_m;
    let (x, y) = (centre(surface.west_m, column), centre(surface.south_m, row));
    lattice.index(Cell::holding(x, y, lattice.side_m)?)
}

#[cfg(test)]
mod tests {
    use super::Lattice;
    use crate::coordinates::Cell;

    #[test]
    fn a_lattice_covers_its_box_and_knows_its_squares() {
        let lattice = Lattice::over(100, -150.0, 200.0, 300.0, 401.0);
        assert_eq!(lattice, Lattice { side_m: 100, west: -2, south: 2, columns: 5, rows: 3 });
        for index in 0..lattice.len() {
            assert_eq!(lattice.index(lattice.cell(index)), Some(index));
        }
        assert_eq!(lattice.index(Cell { side_m: 100, column: 3, row: 2 }), None);
        assert_eq!(lattice.index(Cell { side_m: 200, column: 0, row: 2 }), None);
        assert_eq!(lattice.holding(Cell { side_m: 10, column: -11, row: 25 }), Some(0));
    }

    #[test]
    fn neighbours_stay_on_the_lattice() {
        let lattice = Lattice { side_m: 1, west: 0, south: 0, columns: 3, rows: 2 };
        let of = |index, corners| lattice.neighbours(index, corners).map(|n| n.0).collect::<Vec<_>>();
        assert_eq!(of(0, false), [1, 3]);
        assert_eq!(of(0, true), [1, 3, 4]);
        assert_eq!(of(4, true), [0, 1, 2, 3, 5]);
    }
}
