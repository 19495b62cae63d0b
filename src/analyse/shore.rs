//! Finds along the shore.

use super::ShoreProfile;
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::PublicStudy;

/// Where the published cells lie along the shore. Faults when the study has no public shore.
pub fn shore(_published: &Published, _study: &PublicStudy, _ground: &Ground) -> Result<ShoreProfile> {
    todo!("helper: analyse")
}
