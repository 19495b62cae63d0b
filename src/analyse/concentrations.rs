//! Patches where finds lie thick.

use super::{Concentration, Surface};
use crate::exact::Published;
use crate::study::PublicStudy;

/// The concentrations of a surface, richest first.
pub fn concentrations(
    _published: &Published,
    _study: &PublicStudy,
    _surface: &Surface,
) -> Vec<Concentration> {
    todo!("helper: analyse")
}
