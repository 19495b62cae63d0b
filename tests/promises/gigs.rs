//! The Geospatial Integrity of Geoscience Software tables (IOGP), as OSGeo/PROJ carries them in `test/gigs`:
//! projections by two systems of the register, both ways within 3 cm and a hundred times there and back;
//! geographic to geocentric within a centimetre; the position-vector transformation. They show that the
//! library as it is linked here, and its register, are sound far beyond north-west Europe.

use proj::Proj;

use super::published_examples::{assert_near, pipeline, through};

/// Table, geographic system, projected system, tolerance in its unit, rows of longitude, latitude, east, north.
type Table = (&'static str, &'static str, &'static str, f64, &'static [[f64; 4]]);

const TABLES: &[Table] = &[
    (
        "5101, transverse Mercator: UTM zone 31",
        "EPSG:4326",
        "EPSG:32631",
        0.03,
        &[
            [-2.0, 80.0, 403_186.945, 8_885_748.708],
            [-2.0, 60.0, 221_288.77, 6_661_953.041],
            [-2.0, 40.0, 73_106.698, 4_439_746.917],
            [-2.0, 20.0, -23_538.687, 2_219_308.238],
            [-2.0, 0.0, -57_087.12, 0.0],
            [-2.0, -20.0, -23_538.687, -2_219_308.238],
            [6.0, 60.0, 667_294.821, 6_655_205.484],
            [7.0, 60.0, 723_020.074, 6_658_157.202],
            [8.0, 60.0, 778_711.23, 6_661_953.041],
        ],
    ),
    (
        "5101, the same in Australia",
        "EPSG:4283",
        "EPSG:28354",
        0.03,
        &[
            [146.0, 80.0, 596_813.055, 18_885_748.71],
            [146.0, 60.0, 778_711.23, 16_661_953.04],
            [146.0, 40.0, 926_893.302, 14_439_746.92],
            [146.0, 20.0, 1_023_538.687, 12_219_308.24],
            [146.0, 0.0, 1_057_087.12, 10_000_000.0],
            [146.0, -20.0, 1_023_538.687, 7_780_691.762],
            [147.0, -60.0, 834_359.668, 3_333_406.428],
            [148.0, -60.0, 889_956.701, 3_327_920.506],
            [149.0, -60.0, 945_493.565, 3_321_588.377],
        ],
    ),
    (
        "5102, Lambert with one parallel",
        "EPSG:4230",
        "EPSG:2192",
        0.03,
        &[
            [5.0, 58.0, 760_722.92, 3_457_368.68],
            [5.0, 57.0, 764_566.844, 3_343_948.93],
            [5.0, 56.0, 768_396.683, 3_230_944.812],
            [5.0, 55.0, 772_213.973, 3_118_310.947],
            [5.0, 54.0, 776_020.189, 3_006_003.839],
            [5.0, 53.0, 779_816.748, 2_893_981.68],
            [4.0, 51.0, 717_027.292, 2_668_695.784],
            [4.0, 50.0, 719_385.249, 2_557_252.841],
            [4.0, 49.0, 721_740.43, 2_445_941.161],
            [4.0, 46.8, 726_915.752, 2_201_342.519],
            [9.0, 53.0, 1_049_483.8, 2_909_998.196],
            [10.0, 53.0, 1_116_745.929, 2_916_144.902],
            [11.0, 53.0, 1_183_924.412, 2_923_146.858],
        ],
    ),
    (
        "5103, Lambert with two: Belgium",
        "EPSG:4313",
        "EPSG:31370",
        0.03,
        &[
            [5.0, 58.0, 187_742.7, 969_521.653],
            [5.0, 57.0, 188_698.877, 857_277.135],
            [5.0, 56.0, 189_652.853, 745_291.184],
            [5.0, 55.0, 190_604.967, 633_523.672],
            [5.0, 54.0, 191_555.55, 521_935.9],
            [5.0, 53.0, 192_504.921, 410_490.433],
            [5.3876389, 52.1561606, 219_843.841, 316_827.604],
            [4.0, 51.0, 124_202.936, 187_756.876],
            [4.0, 50.0, 123_652.406, 76_521.628],
            [4.0, 49.0, 123_101.889, -34_711.068],
            [9.0, 53.0, 461_106.844, 420_017.408],
            [10.0, 53.0, 528_146.69, 424_658.807],
            [11.0, 53.0, 595_117.95, 430_202.63],
        ],
    ),
    (
        "5103, in international feet",
        "EPSG:4152",
        "EPSG:2921",
        0.1,
        &[
            [-110.0, 49.0, 2_003_937.27, 6_452_491.7],
            [-110.0, 47.0, 2_016_621.93, 5_717_728.61],
            [-110.0, 45.0, 2_029_255.57, 4_985_920.56],
            [-110.0, 43.0, 2_041_855.08, 4_256_089.74],
            [-110.0, 41.0, 2_054_436.57, 3_527_302.73],
            [-108.0, 41.0, 2_606_245.52, 3_543_182.55],
            [-106.0, 41.0, 3_157_542.86, 3_571_757.39],
            [-104.0, 41.0, 3_708_036.57, 3_613_012.12],
            [-102.0, 41.0, 4_257_435.06, 3_666_924.89],
        ],
    ),
    (
        "5103, in US survey feet",
        "EPSG:4152",
        "EPSG:3568",
        0.1,
        &[
            [-110.0, 49.0, 2_003_933.27, 6_452_478.8],
            [-110.0, 47.0, 2_016_617.9, 5_717_717.18],
            [-110.0, 45.0, 2_029_251.51, 4_985_910.59],
            [-110.0, 43.0, 2_041_851.0, 4_256_081.23],
            [-110.0, 41.0, 2_054_432.46, 3_527_295.67],
            [-108.0, 41.0, 2_606_240.3, 3_543_175.46],
            [-106.0, 41.0, 3_157_536.54, 3_571_750.25],
            [-104.0, 41.0, 3_708_029.16, 3_613_004.9],
            [-102.0, 41.0, 4_257_426.54, 3_666_917.56],
        ],
    ),
    (
        "5104, oblique stereographic: Netherlands",
        "EPSG:4289",
        "EPSG:28992",
        0.05,
        &[
            [5.0, 58.0, 132_023.27, 1_114_054.87],
            [5.0, 57.0, 131_405.466, 1_002_468.081],
            [5.0, 56.0, 130_792.264, 890_981.281],
            [5.0, 55.0, 130_183.56, 779_577.7],
            [5.0, 54.0, 129_579.26, 668_240.58],
            [5.0, 53.0, 128_979.26, 556_953.19],
            [5.38763888889, 52.1561605556, 155_000.0, 463_000.0],
            [4.0, 51.0, 57_605.946, 335_312.662],
            [4.0, 50.0, 55_502.306, 224_086.514],
            [4.0, 49.0, 53_412.76, 112_842.73],
            [9.0, 53.0, 397_413.385, 562_954.436],
            [10.0, 53.0, 464_462.35, 566_781.24],
            [11.0, 53.0, 531_469.2, 571_538.84],
        ],
    ),
];

/// A projection by figures that no code has: on WGS 84 about the British origin (5101, part 1).
const ABOUT_BRITAIN: &[[f64; 4]] = &[
    [3.0, 80.0, 496_813.178, 3_358_297.326],
    [3.0, 49.0, 765_648.501, -87_944.74],
    [3.0, 0.0, 957_087.829, -5_527_462.686],
    [3.0, -60.0, 678_711.584, -12_189_424.202],
    [-2.0, 60.0, 400_000.0, 1_123_956.966],
    [-2.0, 49.0, 400_000.0, -100_000.0],
    [-5.0, 40.0, 143_900.026, -1_095_387.991],
    [-7.555_903_7, 49.766_132_7, 0.0, 0.0],
];

/// 5201: longitude, latitude, height, and X, Y, Z on WGS 84.
const GEOCENTRIC: &[[f64; 6]] = &[
    [150.0, 80.0, 1214.137, -962_479.5924, 555_687.8517, 6_260_738.6526],
    [119.995_245_38, 60.004_751_91, 619.6317, -1_598_248.169, 2_768_777.623, 5_501_278.468],
    [60.0, 30.0, 189.569, 2_764_210.4054, 4_787_752.865, 3_170_468.5199],
    [-0.001_006_15, 0.003_925_09, -202.5882, 6_377_934.396, -112.0, 434.0],
    [-60.0, -30.0, -526.476, 2_763_900.3489, -4_787_215.8313, -3_170_110.4974],
    [-119.993_237_57, -59.999_348_84, -935.0995, -1_598_023.169, -2_768_611.912, -5_499_631.045],
    [-150.0, -80.0, -971.255, -962_150.945, -555_498.1071, -6_258_586.4616],
    [-135.0, 50.0, 0.0, -2_904_698.5551, -2_904_698.5551, 4_862_789.0377],
    [143.926_492_52, -37.652_822_17, 737.7182, -4_087_095.478, 2_977_467.559, -3_875_457.429],
    [0.0, 0.0, 0.0, 6_378_137.0, 0.0, 0.0],
];

/// 5203, part 1: longitude and latitude on OSGB36 and on WGS 84, heights left aside. Printed to a thousandth
/// of a second.
const POSITION_VECTOR: &[[f64; 4]] = &[
    [150.005_674_72, 79.994_873_33, 150.0, 80.0],
    [120.0, 60.0, 119.994_358_89, 60.005_693_06],
    [60.004_467_78, 29.995_667_78, 60.0, 30.0],
    [0.0, 0.0, -0.000_890_56, 0.004_833_33],
    [-60.003_570_56, -30.005_046_39, -60.0, -30.0],
    [-150.016_931_11, -79.997_781_39, -150.0, -80.0],
    [-135.005_963_33, 49.994_586_94, -135.0, 50.0],
    [-90.0, 25.0, -89.995_311_39, 25.004_458_33],
    [-120.0, -60.0, -119.991_852_5, -59.999_073_61],
    [135.002_911_94, -49.999_730_28, 135.0, -50.0],
];

/// A centimetre of the Earth's surface in degrees of latitude.
const CENTIMETRE_DEG: f64 = 0.01 / 111_320.0;

/// The last figure of tables in degrees, minutes and seconds.
const MILLISECOND_DEG: f64 = 0.001 / 3600.0;

#[test]
fn projections_both_ways_and_a_hundred_times() {
    strew::coordinates::start();
    for (table, geographic, projected, tolerance, rows) in TABLES {
        let there = Proj::new_known_crs(geographic, projected, None).unwrap();
        let back = Proj::new_known_crs(projected, geographic, None).unwrap();
        for [longitude, latitude, x, y] in rows.iter().copied() {
            let (e, n): (f64, f64) = there.convert((longitude, latitude)).unwrap();
            assert!(
                (e - x).abs() <= *tolerance && (n - y).abs() <= *tolerance,
                "{table}: {e} {n} for {x} {y}"
            );
            let (east, north): (f64, f64) = back.convert((x, y)).unwrap();
            // Meridians close up toward the poles.
            let within = 5.0 * CENTIMETRE_DEG;
            assert_near(&[(east - longitude) * latitude.to_radians().cos(), north], &[0.0, latitude], within);
            let mut place = (longitude, latitude);
            for _ in 0..100 {
                place = back.convert(there.convert(place).unwrap()).unwrap();
            }
            assert_near(&[place.0, place.1], &[longitude, latitude], 0.006 / 111_320.0);
        }
    }
}

#[test]
fn a_projection_by_figures() {
    let projection = pipeline(
        "+step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=tmerc +lat_0=49 +lon_0=-2 \
         +k_0=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=WGS84",
    );
    for [longitude, latitude, x, y] in ABOUT_BRITAIN.iter().copied() {
        let (e, n): (f64, f64) = projection.convert((longitude, latitude)).unwrap();
        assert_near(&[e, n], &[x, y], 0.03);
    }
}

#[test]
fn geographic_to_geocentric_both_ways() {
    let cartesian = "+step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=cart +ellps=WGS84";
    let geographic = "+step +inv +proj=cart +ellps=WGS84 +step +proj=unitconvert +xy_in=rad +xy_out=deg";
    for [longitude, latitude, height, x, y, z] in GEOCENTRIC.iter().copied() {
        assert_near(&through(cartesian, [longitude, latitude, height]), &[x, y, z], 0.01);
        let back = through(geographic, [x, y, z]);
        assert_near(&back[..2], &[longitude, latitude], CENTIMETRE_DEG);
        assert_near(&back[2..], &[height], 0.01);
    }
}

#[test]
fn position_vector_both_ways() {
    let shift = "+proj=helmert +x=446.448 +y=-125.157 +z=542.06 +rx=0.15 +ry=0.247 +rz=0.842 +s=-20.489 \
                 +convention=position_vector";
    let steps = |shift: &str, first: &str, last: &str| {
        format!(
            "+step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=cart +ellps={first} +step {shift} \
             +step +inv +proj=cart +ellps={last} +step +proj=unitconvert +xy_in=rad +xy_out=deg"
        )
    };
    let there = pipeline(&steps(shift, "airy", "WGS84"));
    let back = pipeline(&steps(&format!("+inv {shift}"), "WGS84", "airy"));
    for [longitude, latitude, east, north] in POSITION_VECTOR.iter().copied() {
        // The table was made from whole degrees without height, on either side: going the other way leaves out the
        // height that the shift gave, which is centimetres of place.
        if longitude.fract() == 0.0 {
            let (x, y): (f64, f64) = there.convert((longitude, latitude)).unwrap();
            assert_near(&[(x - east) * latitude.to_radians().cos(), y], &[0.0, north], MILLISECOND_DEG);
        } else {
            let (x, y): (f64, f64) = back.convert((east, north)).unwrap();
            assert_near(
                &[(x - longitude) * latitude.to_radians().cos(), y],
                &[0.0, latitude],
                MILLISECOND_DEG,
            );
        }
    }
}
