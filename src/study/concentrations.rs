//! `[concentrations]`: checked, with every default filled in.

use super::file::{ConcentrationsSection, ProminenceEntry};
use super::load::unknown_word;
use super::settings::{Bound, ConcentrationSettings, Prominence};
use crate::fault::{Fault, Result};

/// A dip of a quarter parts two peaks, unless said otherwise.
const PROMINENCE: f64 = 0.25;
/// Simulated scatters: p goes down to 0.001.
const SIMULATIONS: u32 = 999;
/// Resamples: how firm a concentration is comes out to about 3 in 100.
const RESAMPLES: u32 = 200;
/// More would only take time.
const MOST: u32 = 99_999;

pub(super) fn resolve(section: ConcentrationsSection) -> Result<ConcentrationSettings> {
    let share = section.share.unwrap_or(0.5);
    if !(share > 0.0 && share < 1.0) {
        return Err(Fault::new("study-share").with("value", share).in_column("concentrations.share"));
    }
    let resamples = section.resamples.unwrap_or(RESAMPLES);
    if resamples > MOST {
        return Err(times(resamples, 0).in_column("concentrations.resamples"));
    }
    Ok(ConcentrationSettings {
        share,
        smallest: section.smallest.unwrap_or(5),
        prominence: prominence(section.prominence.as_ref())?,
        bound: bound(&section)?,
        resamples,
        seed: section.seed.unwrap_or(1),
    })
}

fn times(value: u32, least: u32) -> Fault {
    Fault::new("study-times").with("value", value).with("least", least).with("most", MOST)
}

fn bound(section: &ConcentrationsSection) -> Result<Bound> {
    let pointwise = match section.envelope.as_deref() {
        None | Some("global") => false,
        Some("pointwise") => true,
        Some(word) => {
            let known = ["global", "pointwise"];
            return Err(unknown_word("study-unknown-word", "concentrations.envelope", word, &known));
        }
    };
    let simulations = section.simulations.unwrap_or(SIMULATIONS);
    if !(19..=MOST).contains(&simulations) {
        return Err(times(simulations, 19).in_column("concentrations.simulations"));
    }
    let level = section.level.unwrap_or(0.05);
    if !(level > 0.0 && level <= 0.5) {
        return Err(Fault::new("study-level").with("value", level).in_column("concentrations.level"));
    }
    // The smallest p that so many simulations can give.
    if level * f64::from(simulations + 1) < 1.0 - 1e-9 {
        let fault = Fault::new("study-level-too-fine").with("value", level).with("simulations", simulations);
        return Err(fault.in_column("concentrations.level"));
    }
    match section.bound.as_deref() {
        None | Some("share") => Ok(Bound::Share),
        Some("envelope") => Ok(Bound::Envelope { simulations, level, pointwise }),
        Some(word) => {
            let known = ["share", "envelope"];
            Err(unknown_word("study-unknown-word", "concentrations.bound", word, &known))
        }
    }
}

fn prominence(entry: Option<&ProminenceEntry>) -> Result<Prominence> {
    let (wrong, found) = match entry {
        None => return Ok(Prominence::OfPeak(PROMINENCE)),
        Some(ProminenceEntry::Share(share)) => {
            let fits = (0.0..1.0).contains(share);
            (share.to_string(), fits.then_some(Prominence::OfPeak(*share)))
        }
        Some(ProminenceEntry::Text(text)) => (text.clone(), per_hectare(text).map(Prominence::PerHectare)),
    };
    found.ok_or_else(|| {
        Fault::new("study-prominence").with("text", wrong).in_column("concentrations.prominence")
    })
}

/// "2 per hectare", "0.5 per ha", "1,5 par hectare", "3/ha".
fn per_hectare(text: &str) -> Option<f64> {
    let text = text.trim();
    let split = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))?;
    let (number, unit) = text.split_at(split);
    let unit: Vec<&str> = unit.split_whitespace().collect();
    let known = matches!(unit.as_slice(), ["per" | "par", "hectare" | "ha"] | ["/", "ha"] | ["/ha"]);
    let number: f64 = number.replace(',', ".").parse().ok()?;
    (known && number.is_finite()).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::{Bound, ConcentrationsSection, Prominence, resolve};

    fn read(text: &str) -> Result<super::ConcentrationSettings, String> {
        let section: ConcentrationsSection = toml::from_str(text).unwrap();
        resolve(section).map_err(|fault| fault.id.to_owned())
    }

    #[test]
    fn what_is_not_said_has_a_default() {
        let settings = read("").unwrap();
        assert_eq!((settings.share, settings.smallest, settings.resamples, settings.seed), (0.5, 5, 200, 1));
        assert_eq!(settings.prominence, Prominence::OfPeak(0.25));
        assert_eq!(settings.bound, Bound::Share);
        let envelope = Bound::Envelope { simulations: 999, level: 0.05, pointwise: false };
        assert_eq!(read("bound = \"envelope\"").unwrap().bound, envelope);
    }

    #[test]
    fn prominence_is_a_share_or_pieces_per_hectare() {
        for (text, expected) in [
            ("0.4", Prominence::OfPeak(0.4)),
            ("0", Prominence::OfPeak(0.0)),
            ("\"2 per hectare\"", Prominence::PerHectare(2.0)),
            ("\"1,5 par ha\"", Prominence::PerHectare(1.5)),
            ("\"3/ha\"", Prominence::PerHectare(3.0)),
        ] {
            assert_eq!(read(&format!("prominence = {text}")).unwrap().prominence, expected);
        }
        for text in ["1.0", "-0.1", "\"2\"", "\"two per hectare\"", "\"2 per km2\""] {
            assert_eq!(read(&format!("prominence = {text}")), Err("study-prominence".to_owned()), "{text}");
        }
    }

    #[test]
    fn what_cannot_be_meant_is_refused() {
        for (text, id) in [
            ("share = 1.0", "study-share"),
            ("simulations = 9", "study-times"),
            ("resamples = 100000", "study-times"),
            ("level = 0.0", "study-level"),
            ("level = 0.01\nsimulations = 49", "study-level-too-fine"),
            ("bound = \"shares\"", "study-unknown-word"),
            ("envelope = \"local\"", "study-unknown-word"),
        ] {
            assert_eq!(read(text), Err(id.to_owned()), "{text}");
        }
        assert!(read("level = 0.01\nsimulations = 99").is_ok());
    }
}
