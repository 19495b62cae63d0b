//! What a map of the island must hold true.

use geo::{Area, Contains};

use crate::SEED;
use crate::finds::registers;
use crate::island::Island;
use crate::raster::pixel;
use crate::write::geojson::Degrees;

#[test]
fn water_runs_downhill_to_the_sea() {
    let terrain = Island::make(SEED).terrain;
    for stream in crate::water::streams(&terrain) {
        let heights: Vec<f64> = stream.pixels.iter().map(|pixel| terrain.height[*pixel]).collect();
        assert!(heights.windows(2).all(|pair| pair[1] < pair[0]));
    }
}

#[test]
fn fields_are_of_a_fields_size_and_on_land() {
    let island = Island::make(SEED);
    let fields: Vec<_> = island.walked.iter().filter(|w| w.patch.is_none()).collect();
    assert!((60..=90).contains(&island.walked.len()));
    for field in fields {
        assert!((1.0..=8.0).contains(&field.hectares), "{} ha", field.hectares);
        assert!(
            field.shape.exterior().0.iter().all(|vertex| island.land[0].contains(vertex)),
            "{}",
            field.name
        );
        assert!(field.shape.unsigned_area() > 0.0);
        assert!(island.terrain.is_land(pixel(field.middle)));
    }
}

#[test]
fn the_same_seed_gives_the_same_bytes() {
    strew::coordinates::start();
    let made = || {
        let degrees = Degrees::new().unwrap();
        let registers = registers(&Island::make(SEED), &degrees, SEED).unwrap();
        registers.into_iter().map(|register| register.bytes).collect::<Vec<_>>()
    };
    assert_eq!(made(), made());
}
