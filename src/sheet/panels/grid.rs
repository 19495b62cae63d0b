//! Where small maps stand on a page, and how they are spread over several.

use crate::sheet::canvas::{MM, Rect};
use crate::sheet::view::{Extent, View};

/// White between small maps.
const GAP: f64 = 3.5 * MM;
/// White between a small map and the words above it.
pub(super) const UNDER_WORDS: f64 = 1.2 * MM;

/// How the small maps stand in the room that there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Grid {
    pub columns: usize,
    pub rows: usize,
    /// Room for the words above each, with the white under them.
    pub words_height: f64,
    /// Room for the headings of columns, above all of them.
    pub head_height: f64,
    /// Room for the headings of rows, left of all of them.
    pub side_width: f64,
}

impl Grid {
    /// The box of one small map with its words.
    pub fn cell(&self, room: Rect, slot: usize) -> Rect {
        let (columns, rows) = (self.columns as f64, self.rows as f64);
        let width = (room.width() - self.side_width - GAP * (columns - 1.0)) / columns;
        let height = (room.height() - self.head_height - GAP * (rows - 1.0)) / rows;
        let (column, row) = ((slot % self.columns) as f64, (slot / self.columns) as f64);
        let (x, y) = (room.x0 + self.side_width, room.y0 + self.head_height);
        Rect::new(x + column * (width + GAP), y + row * (height + GAP), width, height)
    }

    /// The frame of a small map under its words.
    pub fn frame(&self, cell: Rect) -> Rect {
        Rect { y0: cell.y0 + self.words_height, ..cell }
    }

    pub fn view(&self, room: Rect, slot: usize, extent: Extent) -> View {
        View::new(self.frame(self.cell(room, slot)), extent)
    }

    /// The room that the maps want together, as ground of one scale.
    pub fn wanted(&self, extent: Extent) -> Extent {
        Extent {
            west_m: 0.0,
            south_m: 0.0,
            east_m: extent.width_m() * self.columns as f64,
            north_m: extent.height_m() * self.rows as f64 * 1.15,
        }
    }
}

/// How many maps stand on a page, across and down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Division {
    pub columns: usize,
    pub rows: usize,
}

/// Small maps in a row that may be broken anywhere, or in rows and columns that have meanings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Order {
    List(usize),
    Table { rows: usize, columns: usize },
}

impl Order {
    /// The most sheets that it can be spread over: one map a sheet.
    pub fn most_sheets(self) -> usize {
        match self {
            Self::List(n) => n,
            Self::Table { rows, columns } => rows * columns,
        }
    }

    /// Every way to part it evenly over a number of sheets.
    pub fn divisions(self, sheets: usize) -> Vec<Division> {
        match self {
            Self::List(n) => {
                let per = n.div_ceil(sheets);
                let all = (1..=per).map(|columns| Division { columns, rows: per.div_ceil(columns) });
                // No row stays empty, and no sheet, nor do free slots make one sheet of two.
                let even =
                    |d: &Division| (d.rows - 1) * d.columns < per && n.div_ceil(d.columns * d.rows) == sheets;
                all.filter(even).collect()
            }
            Self::Table { rows, columns } => (1..=sheets)
                .filter(|across| sheets.is_multiple_of(*across))
                .map(|across| (across, sheets / across))
                .filter(|(across, down)| *across <= columns && *down <= rows)
                .map(|(across, down)| Division {
                    columns: columns.div_ceil(across),
                    rows: rows.div_ceil(down),
                })
                .filter(|d| columns.div_ceil(d.columns) * rows.div_ceil(d.rows) == sheets)
                .collect(),
        }
    }

    /// The maps of each sheet, slot by slot; `None` where a slot stays free.
    pub fn sheets(self, division: Division) -> Vec<Vec<Option<usize>>> {
        let per = division.columns * division.rows;
        match self {
            Self::List(n) => {
                // A last row may leave slots free on each sheet: maps are shared out evenly.
                let sheets = n.div_ceil(per).max(1);
                let each = n.div_ceil(sheets);
                let slots = |sheet: usize| {
                    (0..per).map(|i| (i < each && sheet * each + i < n).then_some(sheet * each + i)).collect()
                };
                (0..sheets).map(slots).collect()
            }
            Self::Table { rows, columns } => {
                let mut out = Vec::new();
                for top in (0..rows).step_by(division.rows) {
                    for left in (0..columns).step_by(division.columns) {
                        let at = |slot: usize| {
                            let (row, column) =
                                (top + slot / division.columns, left + slot % division.columns);
                            (row < rows && column < columns).then_some(row * columns + column)
                        };
                        out.push((0..per).map(at).collect());
                    }
                }
                out
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Division, Order};

    #[test]
    fn every_map_stands_on_one_sheet() {
        let mut orders: Vec<Order> = (1..=17).map(Order::List).collect();
        orders.extend((1..=9).flat_map(|rows| (1..=9).map(move |columns| Order::Table { rows, columns })));
        for order in orders {
            for sheets in 1..=order.most_sheets() {
                for division in order.divisions(sheets) {
                    let spread = order.sheets(division);
                    assert_eq!(spread.len(), sheets, "{order:?} {division:?}");
                    let mut maps: Vec<usize> = spread.iter().flatten().flatten().copied().collect();
                    maps.sort_unstable();
                    assert!(maps.into_iter().eq(0..order.most_sheets()), "{order:?} {division:?}");
                    assert!(spread.iter().all(|slots| slots.iter().any(Option::is_some)));
                }
            }
            assert!(!order.divisions(1).is_empty() && !order.divisions(order.most_sheets()).is_empty());
        }
    }

    #[test]
    fn tables_part_along_rows_or_columns() {
        let order = Order::Table { rows: 4, columns: 6 };
        assert_eq!(order.divisions(2), [Division { columns: 6, rows: 2 }, Division { columns: 3, rows: 4 }]);
        assert_eq!(
            order.sheets(Division { columns: 3, rows: 4 })[1][..4],
            [Some(3), Some(4), Some(5), Some(9)]
        );
    }
}
