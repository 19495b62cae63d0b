//! Kernel density of cells.

use super::Surface;
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::PublicStudy;

/// Density of the published finds. `None` when no find has a cell.
pub fn density(_published: &Published, _study: &PublicStudy, _ground: &Ground) -> Result<Option<Surface>> {
    todo!("helper: analyse")
}
