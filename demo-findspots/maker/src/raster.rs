//! A square raster over the island, and the frame that ties it to the British grid.

/// South-west corner of the raster in the British grid: open sea in the 100 km square OV.
pub const WEST_M: f64 = 566_000.0;
pub const SOUTH_M: f64 = 526_000.0;
/// Side of a pixel, metres.
pub const PIXEL_M: f64 = 20.0;
/// Pixels across and up.
pub const COLUMNS: usize = 600;
pub const ROWS: usize = 500;

/// A place in British grid metres.
pub type Place = geo::Coord<f64>;

/// A value for each pixel, row 0 the southernmost.
#[derive(Clone)]
pub struct Raster<T> {
    values: Vec<T>,
}

impl<T: Copy> Raster<T> {
    pub fn filled(value: T) -> Self {
        Self { values: vec![value; COLUMNS * ROWS] }
    }

    pub fn from_places(value: impl Fn(Place) -> T) -> Self {
        Self { values: (0..COLUMNS * ROWS).map(|pixel| value(centre(pixel))).collect() }
    }

    /// The value of the pixel that holds a place (the nearest pixel for a place outside).
    pub fn at(&self, place: Place) -> T {
        self[pixel(place)]
    }
}

impl<T> std::ops::Index<usize> for Raster<T> {
    type Output = T;
    fn index(&self, pixel: usize) -> &T {
        &self.values[pixel]
    }
}

impl<T> std::ops::IndexMut<usize> for Raster<T> {
    fn index_mut(&mut self, pixel: usize) -> &mut T {
        &mut self.values[pixel]
    }
}

/// The middle of a pixel.
pub fn centre(pixel: usize) -> Place {
    Place {
        x: WEST_M + ((pixel % COLUMNS) as f64 + 0.5) * PIXEL_M,
        y: SOUTH_M + ((pixel / COLUMNS) as f64 + 0.5) * PIXEL_M,
    }
}

/// The pixel that holds a place, or the nearest.
pub fn pixel(place: Place) -> usize {
    let column = ((place.x - WEST_M) / PIXEL_M).floor().clamp(0.0, (COLUMNS - 1) as f64) as usize;
    let row = ((place.y - SOUTH_M) / PIXEL_M).floor().clamp(0.0, (ROWS - 1) as f64) as usize;
    row * COLUMNS + column
}

/// Whether a pixel lies on the raster's edge.
pub fn on_edge(pixel: usize) -> bool {
    let (column, row) = (pixel % COLUMNS, pixel / COLUMNS);
    column == 0 || row == 0 || column == COLUMNS - 1 || row == ROWS - 1
}

/// The up to eight neighbours of a pixel with their distance in metres, in a fixed order.
pub fn neighbours(pixel: usize) -> impl Iterator<Item = (usize, f64)> {
    const AROUND: [(i64, i64); 8] = [(1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (-1, 1), (-1, -1), (1, -1)];
    let (column, row) = ((pixel % COLUMNS) as i64, (pixel / COLUMNS) as i64);
    AROUND.iter().filter_map(move |(dx, dy)| {
        let (column, row) = (column + dx, row + dy);
        let inside = (0..COLUMNS as i64).contains(&column) && (0..ROWS as i64).contains(&row);
        let length = if dx * dy == 0 { PIXEL_M } else { PIXEL_M * std::f64::consts::SQRT_2 };
        inside.then(|| (row as usize * COLUMNS + column as usize, length))
    })
}

pub fn distance(a: Place, b: Place) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}
