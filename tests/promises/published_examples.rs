//! Worked examples that the surveys and IOGP have published, against what is inside the binary: PROJ as it
//! is linked, and the program's own references. Slow formulas written from the definitions stand between
//! the two where a publication gives steps.

use proj::Proj;
use strew::coordinates::notation::{self, zone_of};
use strew::coordinates::{Converter, Position, System};

/// A pipeline of PROJ's.
pub fn pipeline(steps: &str) -> Proj {
    strew::coordinates::start();
    Proj::new(&format!("+proj=pipeline {steps}")).unwrap_or_else(|error| panic!("{steps}: {error}"))
}

/// Three numbers through a pipeline. The crate passes two: the third is put in by a shift, and taken out by
/// a turn of axes.
pub fn through(steps: &str, [x, y, z]: [f64; 3]) -> [f64; 3] {
    let lifted = format!("+step +proj=affine +zoff={z:?} {steps}");
    let (first, second): (f64, f64) = pipeline(&lifted).convert((x, y)).unwrap();
    let turned = format!("{lifted} +step +proj=axisswap +order=3,2,1");
    let (third, _): (f64, f64) = pipeline(&turned).convert((x, y)).unwrap();
    [first, second, third]
}

#[track_caller]
pub fn assert_near(got: &[f64], expected: &[f64], within: f64) {
    for (got, expected) in got.iter().zip(expected) {
        assert!((got - expected).abs() <= within, "{got} is not {expected}");
    }
}

fn dms(d: f64, m: f64, s: f64) -> f64 {
    d + m / 60.0 + s / 3600.0
}

const FROM_DEGREES: &str = "+step +proj=unitconvert +xy_in=deg +xy_out=rad";

/// Ordnance Survey, *A guide to coordinate systems in Great Britain*, annex B: latitude, longitude and
/// height on Airy's ellipsoid to Cartesian.
#[test]
fn the_guides_cartesian_example() {
    let place = [dms(1.0, 43.0, 4.5177), dms(52.0, 39.0, 27.2531), 24.700];
    let steps = format!("{FROM_DEGREES} +step +proj=cart +a=6377563.396 +b=6356256.909");
    assert_near(&through(&steps, place), &[3_874_938.849, 116_218.624, 5_047_168.208], 0.001);
}

/// IOGP, *Guidance Note 7-2*, geographic to geocentric on WGS 84, and the position-vector transformation
/// from WGS 72 to WGS 84. Within the last figure printed.
#[test]
fn guidance_note_7_2_in_three_dimensions() {
    let place = [dms(2.0, 7.0, 46.380), dms(53.0, 48.0, 33.820), 73.0];
    let steps = format!("{FROM_DEGREES} +step +proj=cart +ellps=WGS84");
    assert_near(&through(&steps, place), &[3_771_793.968, 140_253.342, 5_124_304.349], 0.001);

    let steps = "+step +proj=helmert +z=4.5 +rz=0.554 +s=0.219 +convention=position_vector";
    let moved = through(steps, [3_657_660.66, 255_768.55, 5_201_382.11]);
    assert_near(&moved, &[3_657_660.78, 255_778.43, 5_201_387.75], 0.01);
}

/// The conic conformal projection as IGN, *Projection cartographique conique conforme de Lambert* (NTG 71),
/// defines it; each step by its formula, with nothing made quick.
mod ntg_71 {
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

    /// What a projection comes down to.
    #[derive(Debug, Clone, Copy)]
    pub struct Cone {
        pub e: f64,
        pub n: f64,
        pub c: f64,
        pub longitude: f64,
        pub xs: f64,
        pub ys: f64,
    }

    /// ALG0001: isometric latitude.
    pub fn isometric(phi: f64, e: f64) -> f64 {
        let (s, half) = (e * phi.sin(), e / 2.0);
        ((FRAC_PI_4 + phi / 2.0).tan() * ((1.0 - s) / (1.0 + s)).powf(half)).ln()
    }

    /// The same by its definition: the integral along the meridian of the radii's ratio over the cosine.
    pub fn isometric_by_integral(phi: f64, e: f64) -> f64 {
        let steps = 20_000;
        let width = phi / f64::from(steps);
        let under = |t: f64| (1.0 - e * e) / ((1.0 - (e * t.sin()).powi(2)) * t.cos());
        let middle = |step: i32| under(width * (f64::from(step) + 0.5));
        let edge = |step: i32| under(width * f64::from(step));
        (0..steps).map(|step| width / 6.0 * (edge(step) + 4.0 * middle(step) + edge(step + 1))).sum()
    }

    /// ALG0003: longitude and latitude to metres.
    pub fn forward(longitude: f64, phi: f64, cone: Cone) -> [f64; 2] {
        let radius = cone.c * (-cone.n * isometric(phi, cone.e)).exp();
        let angle = cone.n * (longitude - cone.longitude);
        [cone.xs + radius * angle.sin(), cone.ys - radius * angle.cos()]
    }

    /// ALG0004: metres to longitude and latitude, this last by halving.
    pub fn inverse(x: f64, y: f64, cone: Cone) -> [f64; 2] {
        let (east, south) = (x - cone.xs, cone.ys - y);
        let wanted = -(east.hypot(south) / cone.c.abs()).ln() / cone.n;
        let (mut low, mut high) = (-FRAC_PI_2, FRAC_PI_2);
        for _ in 0..100 {
            let middle = f64::midpoint(low, high);
            if isometric(middle, cone.e) < wanted { low = middle } else { high = middle }
        }
        [cone.longitude + (east / south).atan() / cone.n, low]
    }

    /// ALG0021: the transverse radius.
    pub fn transverse(phi: f64, a: f64, e: f64) -> f64 {
        a / (1.0 - (e * phi.sin()).powi(2)).sqrt()
    }

    /// ALG0019: the tangent cone.
    pub fn tangent([a, e]: [f64; 2], [longitude, phi]: [f64; 2], k: f64, [x, y]: [f64; 2]) -> Cone {
        let radius = k * transverse(phi, a, e) / phi.tan();
        let n = phi.sin();
        Cone { e, n, c: radius * (n * isometric(phi, e)).exp(), longitude, xs: x, ys: y + radius }
    }

    /// ALG0054: the secant cone, of two parallels.
    pub fn secant([a, e]: [f64; 2], origin: [f64; 2], [first, second]: [f64; 2], [x, y]: [f64; 2]) -> Cone {
        let circle = |phi: f64| transverse(phi, a, e) * phi.cos();
        let n = (circle(second) / circle(first)).ln() / (isometric(first, e) - isometric(second, e));
        let c = circle(first) / n * (n * isometric(first, e)).exp();
        let radius =
            if (origin[1] - FRAC_PI_2).abs() < 1e-9 { 0.0 } else { c * (-n * isometric(origin[1], e)).exp() };
        Cone { e, n, c, longitude: origin[0], xs: x, ys: y + radius }
    }
}

/// IGN, NTG 71, test values of ALG0001, 0003, 0004, 0019, 0021 and 0054 (as public libraries quote them).
#[test]
#[allow(clippy::approx_constant)] // angles as they are printed
fn igns_algorithms_give_igns_values() {
    use ntg_71::*;
    for (phi, expected) in [(0.872_664_626_00, 1.005_526_536_49), (-0.3, -0.302_616_900_63)] {
        let e = 0.081_991_889_98;
        assert_near(&[isometric(phi, e), isometric_by_integral(phi, e)], &[expected; 2], 1e-11);
    }
    assert_near(&[transverse(0.977_384_381, 6_378_388.0, 0.081_991_89)], &[6_393_174.9755], 1e-4);

    let printed = Cone {
        e: 0.082_483_256_8,
        n: 0.760_405_966,
        c: 11_603_796.9767,
        longitude: 0.040_792_344_33,
        xs: 600_000.0,
        ys: 5_657_616.674,
    };
    let metres = forward(0.145_512_099, 0.872_664_626, printed);
    assert_near(&metres, &[1_029_705.0818, 272_723.8510], 1e-4);
    let angles = inverse(1_029_705.0830, 272_723.8490, printed);
    assert_near(&angles, &[0.145_512_099_25, 0.872_664_625_67], 1e-11);

    let zone_1 = tangent(
        [6_378_249.2, 0.082_483_256_8],
        [0.040_792_344_33, 0.863_937_98],
        0.999_877_34,
        [600_000.0, 200_000.0],
    );
    assert_near(&[zone_1.n], &[0.760_405_965_8], 1e-10);
    assert_near(&[zone_1.c, zone_1.ys], &[11_603_796.9760, 5_657_616.6712], 1e-3);

    let south = secant([6_378_388.0, 0.081_991_89], [0.0, 0.0], [-0.575_958_653, -0.785_398_163], [0.0, 0.0]);
    // The parallels are printed to a thousandth of a microradian.
    assert_near(&[south.n], &[-0.630_496_33], 1e-9);
    assert_near(&[south.c, south.ys], &[-12_453_174.1795; 2], 0.01);
    let pole = secant(
        [6_378_388.0, 0.081_991_89],
        [0.076_235_545_39, 1.570_796_327],
        [0.869_755_744, 0.893_026_801],
        [150_000.0, 5_400_000.0],
    );
    assert_near(&[pole.n], &[0.771_642_186_7], 1e-9);
    assert_near(&[pole.c, pole.ys], &[11_565_915.8294, 5_400_000.0], 0.01);
}

/// The same zone through PROJ, by the same parameters, and PROJ's answers by the slow formulas.
#[test]
fn proj_projects_as_ign_defines() {
    use ntg_71::*;
    let e: f64 = 0.082_483_256_8;
    let zone_1 =
        tangent([6_378_249.2, e], [0.040_792_344_33, 0.863_937_98], 0.999_877_34, [600_000.0, 200_000.0]);
    let proj = Proj::new(&format!(
        "+proj=lcc +lat_1={0:?} +lat_0={0:?} +lon_0={1:?} +k_0=0.99987734 +x_0=600000 +y_0=200000 \
         +a=6378249.2 +es={2:?}",
        0.863_937_98_f64.to_degrees(),
        0.040_792_344_33_f64.to_degrees(),
        e * e
    ))
    .unwrap();
    for (longitude, phi) in [(0.145_512_099, 0.872_664_626), (-0.05, 0.84), (0.1, 0.89), (0.04, 0.863_937_98)]
    {
        let expected = forward(longitude, phi, zone_1);
        let (x, y): (f64, f64) = proj.project((longitude, phi), false).unwrap();
        assert_near(&[x, y], &expected, 1e-6);
        let (longitude_again, phi_again): (f64, f64) = proj.project((x, y), true).unwrap();
        assert_near(&[longitude_again, phi_again], &inverse(x, y, zone_1), 1e-12);
    }
    // The values printed for ALG0003 come from constants cut off at the last figure: 4 mm in Y.
    let (x, y): (f64, f64) = proj.project((0.145_512_099, 0.872_664_626), false).unwrap();
    assert_near(&[x, y], &[1_029_705.0818, 272_723.8510], 0.005);
}

/// IGN, definition of Lambert-93: exponent, constant and ordinate of the pole; and the program's own
/// conversions by the formulas with them, all over France, conic zones included.
#[test]
fn lambert_93_and_the_nine_zones_as_ign_defines() {
    use ntg_71::*;
    let f: f64 = 1.0 / 298.257_222_101;
    let grs80 = [6_378_137.0, (2.0 * f - f * f).sqrt()];
    let radians = |[a, b]: [f64; 2]| [f64::to_radians(a), f64::to_radians(b)];
    let lambert_93 = secant(grs80, radians([3.0, 46.5]), radians([44.0, 49.0]), [700_000.0, 6_600_000.0]);
    assert_near(&[lambert_93.n], &[0.725_607_765_0], 1e-10);
    assert_near(&[lambert_93.c, lambert_93.ys], &[11_754_255.426, 12_655_612.050], 0.001);
    let mut cones = vec![("lambert-93".to_owned(), lambert_93, 42.0, 51.0)];
    for zone in 42..=50_u32 {
        let middle = f64::from(zone);
        let parallels = radians([middle - 0.75, middle + 0.75]);
        let north = f64::from(zone - 41) * 1e6 + 200_000.0;
        let cone = secant(grs80, radians([3.0, middle]), parallels, [1_700_000.0, north]);
        cones.push((format!("conic-conformal-{zone}"), cone, middle - 0.6, middle + 0.6));
    }
    for (name, cone, south, north) in cones {
        let converter = Converter::new(&System::Epsg(4171), &name.parse().unwrap()).unwrap();
        for step in 0..50 {
            let latitude = south + (north - south) * f64::from(step) / 50.0;
            let longitude = -1.0 + f64::from(step * 7 % 50) / 50.0 * 8.0;
            let (e, n) = converter.convert_xy(longitude, latitude).unwrap();
            assert_near(&[e, n], &forward(longitude.to_radians(), latitude.to_radians(), cone), 1e-6);
        }
    }
}

/// OSGeo/PROJ, `test/cli/test_cs2cs_ignf.yaml`: the two pairs by IGN's grid that lie furthest west, and a
/// place in degrees of NTF from Greenwich, printed to a thousandth of a second (3 cm).
#[test]
fn more_of_igns_pairs() {
    let converter = Converter::new(&"lambert-2-extended".parse().unwrap(), &System::Lambert93).unwrap();
    for (x, y, x93, y93) in [
        (135_638.3592, 2_418_760.4094, 187_194.062, 6_855_928.882),
        (311_552.5340, 1_906_457.4840, 358_799.172, 6_342_652.486),
    ] {
        let (e, n) = converter.convert_xy(x, y).unwrap();
        assert_near(&[e, n], &[x93, y93], 0.001);
    }
    let converter = Converter::new(&System::Epsg(4275), &System::Epsg(4171)).unwrap();
    let (longitude, latitude) = converter.convert_xy(3.300_866_856, 43.447_797_656_9).unwrap();
    assert_near(&[longitude, latitude], &[dms(3.0, 18.0, 0.915), dms(43.0, 26.0, 52.077)], 0.0005 / 3600.0);
}

/// Irish references as Ordnance Survey Ireland and others print them: letter, figures, metres.
#[test]
fn irish_references_as_printed() {
    let irish: System = "irish-grid".parse().unwrap();
    for (text, easting, northing, side) in [
        ("O1590434671", 315_904.0, 234_671.0, 1.0),
        ("F632251", 63_200.0, 325_100.0, 100.0),
        ("X622997", 262_200.0, 99_700.0, 100.0),
        ("W0225", 102_000.0, 25_000.0, 1000.0),
        ("A034434", 3_400.0, 443_400.0, 100.0),
    ] {
        let written = notation::read(text, Some(&irish), false).unwrap();
        let corner = Position::Projected { easting_m: easting, northing_m: northing };
        assert_eq!((written.corner, written.square_m), (Some(corner), side), "{text}");
        let cell = strew::coordinates::Cell::holding(easting, northing, side as u32).unwrap();
        assert_eq!(notation::reference(&irish, cell).replace(' ', ""), text);
    }
}

/// Ordnance Survey Ireland: a place on the Irish Grid and ITM's parameters, by PROJ from the figures alone,
/// are what the register's codes give.
#[test]
fn irish_parameters_by_figures() {
    let grids = [
        (
            "EPSG:4300",
            "irish-grid",
            "+lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +a=6377340.189 +b=6356034.447",
        ),
        ("EPSG:4173", "itm", "+lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 +ellps=GRS80"),
    ];
    for (from, to, figures) in grids {
        let converter = Converter::new(&from.parse().unwrap(), &to.parse().unwrap()).unwrap();
        let by_hand = pipeline(&format!("{FROM_DEGREES} +step +proj=tmerc {figures}"));
        for (longitude, latitude) in [(-8.0, 53.5), (-6.26, 53.35), (-10.2, 51.9), (-5.6, 55.2)] {
            let (e, n) = converter.convert_xy(longitude, latitude).unwrap();
            let (x, y): (f64, f64) = by_hand.convert((longitude, latitude)).unwrap();
            assert_near(&[e, n], &[x, y], 1e-4);
        }
    }
}

/// GeographicLib (sources and manual) and the issue list of a public library of military references: from
/// degrees to the reference, cut and not rounded.
#[test]
fn military_references_from_degrees() {
    for (latitude, longitude, figures, expected) in [
        (33.3, 44.4, 2, "38SMB4484"),
        (0.0, 0.0, 5, "31NAA6602100000"),
        (36.236_132_2, -115.082_094_4, 5, "11SPA7234911844"),
        (48.8582, 2.2945, 5, "31UDQ4825111932"),
    ] {
        let zone = zone_of(latitude, longitude);
        let converter = Converter::new(&System::Wgs84, &System::Epsg(32_600 + zone)).unwrap();
        let (e, n) = converter.convert_xy(longitude, latitude).unwrap();
        assert_eq!(notation::mgrs(zone, latitude, e, n, figures).unwrap(), expected);
    }
}

/// IGN, NTG 71: the origin of zone II, and its extended form, in the same million.
#[test]
fn the_second_zone_has_its_origin() {
    let converter =
        Converter::new(&"EPSG:4807".parse().unwrap(), &"lambert-zone-2".parse().unwrap()).unwrap();
    let (x, y) = converter.convert_xy(0.0, 52.0 * 0.9).unwrap();
    assert_near(&[x, y], &[600_000.0, 2_200_000.0], 1e-3);
}
