//! Finds along the shore, by ranges: every piece is in a stretch, beyond the limit, or in no square.

use geo::{MultiLineString, wkt};
use strew::analyse::shore;
use strew::coordinates::Cell;
use strew::exact::ReleasedPlace;
use strew::ground::Ground;
use strew::study::PublicStudy;
use strew::study::vocabulary::Class;

use super::analysis::{cell, find, published, study};

/// A square island of 4 km, as four lines of any direction, and an islet.
fn island(study: &PublicStudy) -> Ground {
    let shore: MultiLineString<f64> = wkt!(MULTILINESTRING(
        (0. 0.,4000. 0.),
        (4000. 4000.,4000. 0.),
        (4000. 4000.,2000. 4003.,0. 4000.),
        (0. 4000.,0. 0.),
        (9000. 0.,9100. 0.,9100. 100.,9000. 100.,9000. 0.)
    ));
    Ground { shore, ..Ground::empty(study) }
}

#[test]
fn an_island_goes_round_clockwise_from_the_start_that_the_study_names() {
    let study = study("[shore]\nstart = [0.0, 0.0]\nwithin = \"300 m\"\nstretch = \"4 km\"\n");
    let mut arrow = find(ReleasedPlace::Cell(Cell { side_m: 1000, column: 0, row: 1 }), 6);
    arrow.class = Some(Class::Arrowhead);
    let finds = vec![
        find(cell(1, 20), 10), // 100 to 200 m inland on the west side, 2.0 to 2.1 km from the start
        arrow,
        find(cell(-1, -1), 4), // out to sea off the corner that is the start
        find(cell(20, 20), 7), // the middle of the island
        find(ReleasedPlace::Parish("Ash".into()), 3),
    ];
    let profile = shore(&published(&study, finds), &study, &island(&study)).unwrap();
    assert!(profile.closed);
    assert_eq!((profile.length_m, profile.others, profile.simplify_m), (16_000.0, 1, 50.0));
    assert_eq!((profile.beyond.exact(), profile.by_parish_only.exact()), (Some(7), Some(3)));
    assert_eq!(profile.stretches.len(), 4);
    let pieces: Vec<f64> = profile.stretches.iter().map(|stretch| stretch.pieces).collect();
    assert!((pieces.iter().sum::<f64>() - 20.0).abs() < 1e-9);
    let of = |side_m, column, row| {
        let wanted = Cell { side_m, column, row };
        profile.cells.iter().find(|(cell, _, _)| *cell == wanted).unwrap()
    };
    let (_, along, distance) = of(100, 1, 20);
    assert_eq!((*along, *distance), ((2000.0, 2100.0), (100.0, 200.0)));
    let (_, along, distance) = of(1000, 0, 1);
    assert_eq!((*along, *distance), ((1000.0, 2000.0), (0.0, 1000.0)));
    // Off the corner everything is nearest to the corner itself.
    let (_, along, _) = of(100, -1, -1);
    assert_eq!(*along, (0.0, 0.0));
    assert!((pieces[0] - 20.0).abs() < 1e-9);
    assert!((profile.stretches[0].by_class[&Some(Class::Arrowhead)] - 6.0).abs() < 1e-9);
}

#[test]
fn a_range_over_the_start_is_shared_on_both_sides_of_it() {
    let study = study("[shore]\nstart = [1050.0, 0.0]\nstretch = \"4 km\"\n");
    let profile = shore(&published(&study, vec![find(cell(10, 0), 8)]), &study, &island(&study)).unwrap();
    let (_, (from, to), distance) = profile.cells[0];
    assert_eq!((from, to, distance), (15_950.0, 50.0, (0.0, 100.0)));
    assert!((profile.stretches[0].pieces - 4.0).abs() < 1e-9);
    assert!((profile.stretches[3].pieces - 4.0).abs() < 1e-9);
}

#[test]
fn no_shore_is_a_fault_that_says_what_to_write() {
    let study = study("");
    let nowhere = shore(&published(&study, vec![find(cell(1, 1), 1)]), &study, &Ground::empty(&study));
    let fault = nowhere.unwrap_err();
    assert_eq!(fault.id, "shore-missing");
    assert!(fault.hint(strew::words::Language::French).unwrap().contains("{ file"));
}

#[test]
fn the_range_holds_every_place_of_a_square() {
    let study = study("[shore]\nsimplify = \"1 m\"\nwithin = \"5 km\"\n");
    let bay: MultiLineString<f64> = wkt!(MULTILINESTRING(
        (0. 0.,1500. 200.,1700. 1500.,1900. 1400.,2100. 150.,3900. 40.,5200. 900.)
    ));
    let ground = Ground { shore: bay, ..Ground::empty(&study) };
    let square = Cell { side_m: 1000, column: 1, row: 1 };
    let profile =
        shore(&published(&study, vec![find(ReleasedPlace::Cell(square), 1)]), &study, &ground).unwrap();
    let (_, (from, to), (near, far)) = profile.cells[0];
    // By brute force over a fine lattice, with an along-shore search of its own.
    let line = &ground.shore.0[0];
    let mut spans = Vec::new();
    let mut start = 0.0;
    for edge in line.lines() {
        let length = edge.dx().hypot(edge.dy());
        spans.push((edge, start, length));
        start += length;
    }
    for i in 0..=40 {
        for j in 0..=40 {
            let (x, y) = (1000.0 + 25.0 * f64::from(i), 1000.0 + 25.0 * f64::from(j));
            let (distance, along) = spans
                .iter()
                .map(|(edge, start, length)| {
                    let t =
                        ((x - edge.start.x) * edge.dx() + (y - edge.start.y) * edge.dy()) / length.powi(2);
                    let t = t.clamp(0.0, 1.0);
                    let (px, py) = (edge.start.x + t * edge.dx(), edge.start.y + t * edge.dy());
                    ((x - px).hypot(y - py), start + t * length)
                })
                .min_by(|a, b| a.0.total_cmp(&b.0))
                .unwrap();
            // The lattice over a cell of 1 km has steps of 100 m: a place between may lie a little out.
            assert!(along >= from - 100.0 && along <= to + 100.0, "{along} not in {from}..{to}");
            assert!(distance >= near - 1e-9 && distance <= far + 71.0);
        }
    }
}
