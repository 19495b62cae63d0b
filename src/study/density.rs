//! `[density]`: checked, with every default filled in.

use std::collections::BTreeSet;

use super::file::{BandwidthEntry, DensitySection};
use super::load::unknown_word;
use super::settings::{Bandwidth, DensitySettings, EdgeCorrection, Effort};
use super::vocabulary::Setting;
use crate::fault::{Fault, Result};
use crate::units::Length;

pub(super) fn resolve(section: DensitySection) -> Result<DensitySettings> {
    let bandwidth = bandwidth(section.bandwidth, section.bearing)?;
    let edge = match (section.edge.as_deref(), section.edge_correction) {
        (Some(_), Some(_)) => return Err(Fault::new("study-edge-twice").in_column("density.edge")),
        (None, None | Some(true)) => EdgeCorrection::Diggle,
        (None, Some(false)) => EdgeCorrection::None,
        (Some(word), None) => named("density.edge", word, EdgeCorrection::ALL, EdgeCorrection::name)?,
    };
    let effort = match section.effort.as_deref() {
        None => None,
        Some(word) => Some(named("density.effort", word, Effort::ALL, Effort::name)?),
    };
    let settings = section.settings.map(|words| {
        words
            .iter()
            .map(|word| named("density.settings", word, Setting::ALL, Setting::name))
            .collect::<Result<BTreeSet<_>>>()
    });
    let adaptive = section.adaptive.unwrap_or(false);
    if adaptive
        && matches!(bandwidth, Bandwidth::Along { .. } | Bandwidth::Bearing { .. } | Bandwidth::PlugInFull)
    {
        return Err(Fault::new("study-adaptive-one-way").in_column("density.adaptive"));
    }
    if section.pilot.is_some() && !adaptive {
        return Err(Fault::new("study-pilot-alone").in_column("density.pilot"));
    }
    Ok(DensitySettings {
        bandwidth,
        pixel_m: section.pixel.map(|pixel| pixel.metres),
        edge,
        effort,
        settings: settings.transpose()?,
        off_land: section.off_land.unwrap_or(false),
        adaptive,
        pilot_m: section.pilot.map(|pilot| pilot.metres),
    })
}

fn named<T: Copy>(key: &str, word: &str, all: &[T], name: impl Fn(T) -> &'static str) -> Result<T> {
    all.iter().copied().find(|item| name(*item) == word.trim()).ok_or_else(|| {
        let known: Vec<&str> = all.iter().map(|item| name(*item)).collect();
        unknown_word("study-unknown-word", key, word, &known)
    })
}

fn bandwidth(entry: Option<BandwidthEntry>, bearing: Option<f64>) -> Result<Bandwidth> {
    let wrong = |text: &str| Fault::new("study-bandwidth").with("text", text).in_column("density.bandwidth");
    let metres = |text: &str| text.parse::<Length>().map(|length| length.metres).map_err(|_| wrong(text));
    let pair = match entry {
        Some(BandwidthEntry::Pair(first, second)) => (metres(&first)?, metres(&second)?),
        one => {
            if bearing.is_some() {
                return Err(Fault::new("study-bearing-alone").in_column("density.bearing"));
            }
            return match one {
                Some(BandwidthEntry::One(text)) => Bandwidth::SELECTORS
                    .into_iter()
                    .find(|selector| selector.name() == Some(text.trim()))
                    .map_or_else(|| metres(&text).map(Bandwidth::Fixed), Ok),
                _ => Ok(Bandwidth::Rule),
            };
        }
    };
    match bearing {
        None => Ok(Bandwidth::Along { east_m: pair.0, north_m: pair.1 }),
        Some(bearing_deg) if (-360.0..=360.0).contains(&bearing_deg) => {
            Ok(Bandwidth::Bearing { along_m: pair.0, across_m: pair.1, bearing_deg })
        }
        Some(other) => Err(Fault::new("study-bearing").with("value", other).in_column("density.bearing")),
    }
}

#[cfg(test)]
mod tests {
    use super::{Bandwidth, DensitySection, DensitySettings, EdgeCorrection, Effort, resolve};

    fn read(text: &str) -> Result<DensitySettings, String> {
        let section: DensitySection = toml::from_str(text).map_err(|e| e.message().to_owned())?;
        resolve(section).map_err(|fault| fault.id.to_owned())
    }

    #[test]
    fn bandwidths_are_lengths_pairs_or_ways_of_choosing() {
        assert_eq!(read("").unwrap().bandwidth, Bandwidth::Rule);
        for (text, expected) in [
            ("\"120 m\"", Bandwidth::Fixed(120.0)),
            ("\"plug-in\"", Bandwidth::PlugIn),
            ("\"plug-in-full\"", Bandwidth::PlugInFull),
            ("\"least-squares\"", Bandwidth::LeastSquares),
            ("\"likelihood\"", Bandwidth::Likelihood),
            ("\"diggle\"", Bandwidth::Diggle),
            ("[\"400 m\", \"0.2 km\"]", Bandwidth::Along { east_m: 400.0, north_m: 200.0 }),
            (
                "[\"400 m\", \"200 m\"]\nbearing = 30",
                Bandwidth::Bearing { along_m: 400.0, across_m: 200.0, bearing_deg: 30.0 },
            ),
        ] {
            assert_eq!(read(&format!("bandwidth = {text}")).unwrap().bandwidth, expected, "{text}");
        }
        assert_eq!(read("bandwidth = \"wide\"").unwrap_err(), "study-bandwidth");
        assert_eq!(read("bearing = 20.0").unwrap_err(), "study-bearing-alone");
    }

    #[test]
    fn edge_effort_and_adaptive() {
        assert_eq!(read("").unwrap().edge, EdgeCorrection::Diggle);
        assert_eq!(read("edge_correction = false").unwrap().edge, EdgeCorrection::None);
        assert_eq!(read("edge = \"uniform\"").unwrap().edge, EdgeCorrection::Uniform);
        assert_eq!(read("edge = \"uniform\"\nedge_correction = true").unwrap_err(), "study-edge-twice");
        assert_eq!(read("effort = \"covered\"").unwrap().effort, Some(Effort::Covered));
        assert_eq!(read("effort = \"cover\"").unwrap_err(), "study-unknown-word");
        assert!(read("adaptive = true\npilot = \"300 m\"").unwrap().adaptive);
        assert_eq!(read("pilot = \"300 m\"").unwrap_err(), "study-pilot-alone");
        let one_way = "adaptive = true\nbandwidth = [\"400 m\", \"200 m\"]";
        assert_eq!(read(one_way).unwrap_err(), "study-adaptive-one-way");
    }
}
