//! Mends polygons that touch or cross themselves, and joins those that overlap, so that area and
//! containment mean the same everywhere after.

use geo::orient::Direction;
use geo::{Area, BoundingRect, MakeValid, MultiPolygon, Orient, Polygon, Validation, unary_union};
use rstar::{AABB, RTree, primitives::Rectangle};

use crate::fault::{Fault, Result};

/// One shape from many polygons: valid, without overlaps, outer rings counter-clockwise. Polygons that
/// are sound and stand apart keep their vertices exactly.
///
/// A ring that crosses itself is filled by the even-odd rule (Ledoux, Arroyo Ohori and Meijers 2014,
/// Computers & Geosciences 66:121–131), so a bow-tie becomes two triangles.
pub(super) fn mend(polygons: Vec<Polygon<f64>>) -> Result<MultiPolygon<f64>> {
    let mut sound = Vec::with_capacity(polygons.len());
    for polygon in polygons {
        if polygon.is_valid() {
            sound.push(polygon);
        } else {
            let mended = polygon.make_valid().map_err(|_| Fault::new("ground-unmendable"))?;
            sound.extend(mended.0);
        }
    }
    sound.retain(|polygon| polygon.unsigned_area() > 0.0);
    let whole = MultiPolygon(sound).orient(Direction::Default);
    Ok(if boxes_meet(&whole) { unary_union(&whole.0).orient(Direction::Default) } else { whole })
}

/// Whether the boxes of any two polygons meet; where none do, nothing can overlap.
fn boxes_meet(whole: &MultiPolygon<f64>) -> bool {
    let boxes: Vec<Rectangle<[f64; 2]>> = whole
        .iter()
        .filter_map(|polygon| polygon.bounding_rect())
        .map(|b| Rectangle::from_corners([b.min().x, b.min().y], [b.max().x, b.max().y]))
        .collect();
    let tree = RTree::bulk_load(boxes.clone());
    boxes.iter().any(|b| {
        let envelope = AABB::from_corners(b.lower(), b.upper());
        tree.locate_in_envelope_intersecting(&envelope).nth(1).is_some()
    })
}

#[cfg(test)]
mod tests {
    use geo::{Area, Validation, wkt};

    use super::mend;

    #[test]
    fn a_bow_tie_becomes_two_triangles() {
        let mended = mend(vec![wkt!(POLYGON((0. 0.,10. 10.,10. 0.,0. 10.,0. 0.)))]).unwrap();
        assert!(mended.is_valid());
        assert!((mended.unsigned_area() - 50.0).abs() < 1e-6);
    }

    #[test]
    fn overlaps_count_once() {
        let mended = mend(vec![
            wkt!(POLYGON((0. 0.,10. 0.,10. 10.,0. 10.,0. 0.))),
            wkt!(POLYGON((5. 0.,5. 10.,15. 10.,15. 0.,5. 0.))),
        ])
        .unwrap();
        assert!((mended.unsigned_area() - 150.0).abs() < 1e-6);
    }

    #[test]
    fn sound_polygons_that_stand_apart_are_left_alone() {
        let square = wkt!(POLYGON((0.1 0.1,10.3 0.1,10.3 10.7,0.1 10.7,0.1 0.1)));
        let other = wkt!(POLYGON((20. 0.,30. 0.,30. 10.,20. 10.,20. 0.)));
        let mended = mend(vec![square.clone(), other.clone()]).unwrap();
        assert_eq!(mended.0, vec![square, other]);
    }

    #[test]
    fn a_polygon_without_area_is_dropped() {
        assert!(mend(vec![wkt!(POLYGON((0. 0.,1. 0.,2. 0.,0. 0.)))]).unwrap().0.is_empty());
    }
}
