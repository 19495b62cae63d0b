//! How the finds came about, as far as this audience may know: years of collecting, ground walked.

use geo::{Area, MultiPolygon, unary_union};

use super::Scene;
use crate::study::{Attribute, Cover, PublicStudy};
use crate::words::Words;

/// What a sheet says of the collecting.
pub(super) fn notes(scene: &Scene<'_>, words: &Words) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(years) = scene.study.collected.clone().or_else(|| years_told(scene)) {
        out.push(words.say_with("sheet-collected", &[("years", years.into())]));
    }
    if let Some(walked) = Walked::of(scene) {
        let hectares = words.number(walked.hectares, usize::from(walked.hectares < 10.0));
        out.push(match walked.share {
            Some(share) => {
                let share = words.number((share * 100.0).round(), 0);
                let values = [("hectares", hectares.into()), ("share", share.into())];
                words.say_with("sheet-walked-cover", &values)
            }
            None => words.say_with("sheet-walked", &[("hectares", hectares.into())]),
        });
    }
    out
}

/// First and last year of the finds, where the agreement shows their dates.
fn years_told(scene: &Scene<'_>) -> Option<String> {
    if !scene.study.agreement.show.contains(&Attribute::Date) {
        return None;
    }
    let dates = scene.published.finds().iter().filter_map(|find| find.details.as_ref()?.date.as_deref());
    let years: Vec<i32> = dates.filter_map(year).collect();
    let (first, last) = (years.iter().min()?, years.iter().max()?);
    Some(if first == last { first.to_string() } else { format!("{first}–{last}") })
}

/// The year that a date begins with: `2024`, `2024-03`, `2024-03-09`.
fn year(date: &str) -> Option<i32> {
    let (year, rest) = date.split_at_checked(4)?;
    let year: i32 = year.parse().ok()?;
    ((1600..=2200).contains(&year) && (rest.is_empty() || rest.starts_with('-'))).then_some(year)
}

/// Ground walked, and the share of it that was looked at.
struct Walked {
    hectares: f64,
    share: Option<f64>,
}

impl Walked {
    /// From the walked ground where that is public, or else from the fieldwork where that is shown.
    fn of(scene: &Scene<'_>) -> Option<Self> {
        let walked = &scene.ground.walked;
        if walked.is_empty() {
            return Self::of_fieldwork(scene.study);
        }
        let parts = walked.iter().map(|one| (one.shape.unsigned_area(), one.cover));
        let shapes: Vec<&MultiPolygon<f64>> = walked.iter().map(|one| &one.shape).collect();
        // A field walked in two seasons is one field.
        let hectares = unary_union(shapes.iter().flat_map(|shape| shape.iter())).unsigned_area() / 10_000.0;
        Some(Self { hectares, share: share(parts) })
    }

    fn of_fieldwork(study: &PublicStudy) -> Option<Self> {
        let mut grounds = std::collections::BTreeMap::new();
        for walk in &study.fieldwork {
            let Some(hectares) = walk.hectares else { continue };
            let cover = match walk.cover {
                Some(Cover::Share(share)) => Some(share),
                _ => None,
            };
            let ground = grounds.entry(walk.ground.as_str()).or_insert((0.0f64, cover));
            ground.0 = ground.0.max(hectares);
        }
        let hectares: f64 = grounds.values().map(|(hectares, _)| hectares).sum();
        (hectares > 0.0).then(|| Self { hectares, share: share(grounds.into_values()) })
    }
}

/// The share of all ground that was looked at, where that is known of each part.
fn share(parts: impl Iterator<Item = (f64, Option<f64>)>) -> Option<f64> {
    let (mut all, mut seen) = (0.0, 0.0);
    for (area, cover) in parts {
        all += area;
        seen += area * cover?;
    }
    (all > 0.0).then(|| seen / all)
}

#[cfg(test)]
mod tests {
    use super::{share, year};

    #[test]
    fn years_are_read_from_the_front() {
        assert_eq!(year("2024-03-09"), Some(2024));
        assert_eq!(year("1998"), Some(1998));
        for other in ["", "9/3/2024", "20245", "spring", "0098-01-01", "éété"] {
            assert_eq!(year(other), None, "{other}");
        }
    }

    #[test]
    fn cover_weighs_by_ground() {
        let cover = share([(3.0, Some(0.2)), (1.0, Some(0.6))].into_iter());
        assert!(cover.is_some_and(|cover| (cover - 0.3).abs() < 1e-12));
        assert_eq!(share([(3.0, Some(0.2)), (1.0, None)].into_iter()), None);
        assert_eq!(share(std::iter::empty()), None);
    }
}
