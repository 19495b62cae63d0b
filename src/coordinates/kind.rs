//! What kind of coordinates a system has, and on which datum, as its definition states.

use std::cell::RefCell;
use std::collections::BTreeMap;

use gdal::spatial_ref::SpatialRef;

use super::System;
use crate::fault::{Fault, Result};

/// A system, looked at.
#[derive(Debug, Clone)]
pub struct Kind {
    /// In angles (latitude and longitude), not lengths.
    pub geographic: bool,
    /// Degrees in one unit of a geographic system (0.9 for grads); 1 for a projected one.
    pub unit_deg: f64,
    /// On the Ordnance Survey's datum of 1936, which only OSTN15 ties to the world.
    pub osgb36: bool,
    /// On the old French datum, which only IGN's grid ties to the new one well.
    pub ntf: bool,
    /// How PROJ is to be told of it.
    pub definition: String,
}

impl Kind {
    /// Looks a system up. Fails for one that is unknown, or has no two horizontal axes.
    pub fn of(system: &System) -> Result<Self> {
        let unknown = || Fault::new("coordinates-unknown-system").with("text", system);
        let (reference, definition) = match system {
            System::Stated(text) => {
                let text = without_shift(text);
                (SpatialRef::from_definition(&text).map_err(|_| unknown())?, text)
            }
            _ => {
                let code = system.epsg().ok_or_else(unknown)?;
                (SpatialRef::from_epsg(code).map_err(|_| unknown())?, format!("EPSG:{code}"))
            }
        };
        let geographic = reference.is_geographic();
        if !geographic && !reference.is_projected() {
            return Err(Fault::new("coordinates-not-flat").with("text", system));
        }
        let datum = reference.get_attr_value("DATUM", 0).ok().flatten().unwrap_or_default();
        let datum = datum.replace(' ', "_").to_uppercase();
        let osgb36 = ["OSGB", "ORDNANCE_SURVEY_OF_GREAT_BRITAIN"].iter().any(|name| datum.contains(name));
        let ntf = datum.contains("NOUVELLE_TRIANGULATION_FRAN") || datum == "NTF";
        let unit_deg = if geographic { reference.angular_units().to_degrees() } else { 1.0 };
        // A degree comes back a rounding away from 1, which would spoil the last figures.
        let unit_deg = if (unit_deg - 1.0).abs() < 1e-9 { 1.0 } else { unit_deg };
        Ok(Self { geographic, unit_deg, osgb36, ntf, definition })
    }
}

thread_local! {
    /// Answers of [`in_degrees`]: it is asked for every row of a register.
    static IN_DEGREES: RefCell<BTreeMap<System, bool>> = const { RefCell::new(BTreeMap::new()) };
}

/// Whether a system that has to be looked up is in angles; an unknown one is not.
pub fn in_degrees(system: &System) -> bool {
    IN_DEGREES.with_borrow_mut(|known| match known.get(system) {
        Some(answer) => *answer,
        None => {
            super::start();
            let answer = Kind::of(system).is_ok_and(|kind| kind.geographic);
            known.insert(system.clone(), answer);
            answer
        }
    })
}

/// A definition in the older well-known text without its coarse shift to WGS 84, which would
/// otherwise be preferred to every better operation.
fn without_shift(text: &str) -> String {
    let Some(start) = text.find(",TOWGS84[") else { return text.to_owned() };
    match text[start..].find(']') {
        Some(length) => format!("{}{}", &text[..start], &text[start + length + 1..]),
        None => text.to_owned(),
    }
}
