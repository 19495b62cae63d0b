//! Cross tables.

use super::{Concentration, Table};
use crate::exact::Published;
use crate::ground::Partition;
use crate::study::PublicStudy;

/// What rows or columns of a table stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// Class.
    Class,
    /// Period, in order of time, with columns for prehistoric and undated.
    Period,
    /// Parish.
    Parish,
    /// Strength of marks.
    Strength,
    /// Setting.
    Setting,
    /// Concentration.
    Concentration,
}

/// A table of pieces, `rows` by `columns`, with totals. Whole numbers that add up.
pub fn cross(
    _published: &Published,
    _study: &PublicStudy,
    _partition: &Partition<'_>,
    _concentrations: &[Concentration],
    _rows: Dimension,
    _columns: Dimension,
) -> Table {
    todo!("helper: analyse")
}

/// Pieces by parish: those in cells shared by area, and those shown by their parish alone. In order of
/// name; parishes without finds included.
pub fn finds_by_parish(_published: &Published, _partition: &Partition<'_>) -> Vec<(String, f64)> {
    todo!("helper: analyse")
}
