//! A strip chart of finds along the shore.
use super::Sheet;
use crate::analyse::ShoreProfile;
use crate::fault::Result;
use crate::study::PublicStudy;
/// todo
pub fn shore_figure(_profile: &ShoreProfile, _study: &PublicStudy, _style: Option<&str>) -> Result<Sheet> {
    todo!("next")
}
