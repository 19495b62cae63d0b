//! Conversions meet published figures, and nothing that lies about on the machine changes them.

use strew::coordinates::{Converter, Position, System, convergence_deg};

/// Ordnance Survey, OSTN15 developer pack, test points, ETRS89 latitude and longitude to OSGB36 easting
/// and northing (files `OSTN15_OSGM15_TestInput/Output_ETRStoOSGB.txt`), the odd-numbered ones.
const OSTN15_POINTS: &str = "\
01 49.92226394 -6.29977752 91492.146 11318.804
03 50.43885826 -4.10864564 250359.811 62016.569
05 50.93127938 -1.45051434 438710.920 114792.250
07 51.37447026 1.44454730 639821.835 169565.858
09 51.48936565 -0.11992557 530624.974 178388.464
11 51.89436637 0.89724327 599445.590 225722.826
13 52.25160951 -0.91248957 474335.969 262047.755
15 52.96219109 -1.19747656 454002.834 340834.943
17 53.41628516 -4.28918070 247958.971 393492.909
19 53.77911026 -3.04045491 331534.564 431920.794
21 54.08666318 -4.63452168 227778.330 468847.388
23 54.32919541 -4.38849118 244780.636 495254.887
25 54.97912274 -1.61657685 424639.355 565012.703
27 55.92478266 -3.29479219 319188.434 670947.534
29 57.13902519 -2.04856031 397160.491 805349.736
31 57.81351838 -8.57854456 9587.909 899448.996
33 58.51560361 -6.26091456 151968.652 966483.780
35 59.03743871 -3.21454001 330398.323 1017347.016
37 59.09671617 -5.82799340 180862.461 1029604.114
39 59.85409914 -1.27486910 440725.073 1107878.448";

fn degrees(latitude_deg: f64, longitude_deg: f64) -> Position {
    Position::Geographic { latitude_deg, longitude_deg }
}

fn metres(easting_m: f64, northing_m: f64) -> Position {
    Position::Projected { easting_m, northing_m }
}

fn carry(from: &str, to: &str, position: Position) -> Position {
    let (from, to): (System, System) = (from.parse().unwrap(), to.parse().unwrap());
    Converter::new(&from, &to).unwrap().convert(position).unwrap()
}

#[track_caller]
fn assert_metres(got: Position, easting: f64, northing: f64, within_m: f64) {
    let Position::Projected { easting_m, northing_m } = got else { panic!("{got:?}") };
    let (e, n) = (easting_m - easting, northing_m - northing);
    assert!(e.abs() <= within_m && n.abs() <= within_m, "off by {e:.6} {n:.6} m");
}

/// Metres along the meridian and the parallel, near enough for a millimetre.
#[track_caller]
fn assert_degrees(got: Position, latitude: f64, longitude: f64, within_m: f64) {
    let Position::Geographic { latitude_deg, longitude_deg } = got else { panic!("{got:?}") };
    let n = (latitude_deg - latitude) * 111_320.0;
    let e = (longitude_deg - longitude) * 111_320.0 * latitude.to_radians().cos();
    assert!(e.abs() <= within_m && n.abs() <= within_m, "off by {e:.6} {n:.6} m");
}

#[test]
fn ostn15_points_both_ways_within_a_millimetre() {
    for line in OSTN15_POINTS.lines() {
        let values: Vec<f64> = line.split(' ').map(|value| value.parse().unwrap()).collect();
        let [_, latitude, longitude, easting, northing] = values[..] else { panic!("{line}") };
        for system in ["wgs84", "EPSG:4258"] {
            let there = carry(system, "british-grid", degrees(latitude, longitude));
            assert_metres(there, easting, northing, 0.001);
            let back = carry("british-grid", system, metres(easting, northing));
            assert_degrees(back, latitude, longitude, 0.001);
        }
    }
}

/// Ordnance Survey, *A guide to coordinate systems in Great Britain*: Caister Water Tower by OSTN15.
#[test]
fn caister_water_tower() {
    let there = carry("EPSG:4258", "british-grid", degrees(52.658_007_833, 1.716_073_973));
    assert_metres(there, 651_409.804, 313_177.450, 0.001);
}

/// Same guide, annex C, worked example: OSGB36 latitude and longitude to the national grid.
#[test]
fn osgb36_degrees_are_projection_alone() {
    let (latitude, longitude) = (52.0 + 39.0 / 60.0 + 27.2531 / 3600.0, 1.0 + 43.0 / 60.0 + 4.5177 / 3600.0);
    let there = carry("EPSG:4277", "british-grid", degrees(latitude, longitude));
    assert_metres(there, 651_409.903, 313_177.270, 0.001);
    let back = carry("british-grid", "EPSG:4277", metres(651_409.903, 313_177.270));
    assert_degrees(back, latitude, longitude, 0.002);
}

#[test]
fn outside_ostn15_is_a_fault_never_a_fallback() {
    let there = Converter::new(&System::Wgs84, &System::BritishGrid).unwrap();
    for (latitude, longitude) in [(48.8582, 2.2945), (52.0, -12.0), (62.0, -2.0), (-52.0, 0.0)] {
        let fault = there.convert(degrees(latitude, longitude)).unwrap_err();
        assert!(fault.id.starts_with("place-outside"), "{fault:?}");
    }
    let back = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    assert!(back.convert(metres(-5.0, 10.0)).is_err());
    assert!(back.convert(metres(f64::NAN, 10.0)).is_err());
}

#[test]
fn every_operation_is_told() {
    let operation = Converter::new(&System::Wgs84, &System::BritishGrid).unwrap().operation();
    assert!(operation.description.contains("OSTN15") && operation.grid_used);
    assert_eq!(operation.accuracy_m, Some(1.0));
    let converter = Converter::new(&System::Wgs84, &System::Lambert93).unwrap();
    converter.convert(degrees(46.5, 3.0)).unwrap();
    let operation = converter.operation();
    assert!(operation.description.contains("Lambert-93"), "{operation:?}");
    assert_eq!(operation.accuracy_m, Some(1.0));
}

/// Origin of Lambert-93: 46°30′ N 3° E is 700 000, 6 600 000 (IGN, definition of the projection).
#[test]
fn lambert_93_origin_both_ways() {
    assert_metres(carry("wgs84", "lambert-93", degrees(46.5, 3.0)), 700_000.0, 6_600_000.0, 1e-4);
    assert_degrees(carry("lambert-93", "wgs84", metres(700_000.0, 6_600_000.0)), 46.5, 3.0, 1e-4);
}

/// OSGeo/PROJ, `test/gie/epsg_no_grid.gie`: ETRS89 55° N 12° E on UTM zone 32.
#[test]
fn any_epsg_code() {
    let there = carry("EPSG:4258", "EPSG:25832", degrees(55.0, 12.0));
    assert_metres(there, 691_875.6321, 6_098_907.8250, 1e-3);
}

#[test]
fn a_layer_that_states_osgb36_in_full_goes_by_ostn15() {
    // A layer's older text, with the coarse shift that such files carry.
    let stated = System::Stated(
        "PROJCS[\"local\",GEOGCS[\"OSGB 1936\",DATUM[\"OSGB_1936\",SPHEROID[\"Airy 1830\",6377563.396,\
         299.3249646],TOWGS84[446.448,-125.157,542.06,0.15,0.247,0.842,-20.489]],PRIMEM[\"Greenwich\",0],\
         UNIT[\"degree\",0.0174532925199433]],PROJECTION[\"Transverse_Mercator\"],\
         PARAMETER[\"latitude_of_origin\",49],PARAMETER[\"central_meridian\",-2],\
         PARAMETER[\"scale_factor\",0.9996012717],PARAMETER[\"false_easting\",400000],\
         PARAMETER[\"false_northing\",-100000],UNIT[\"metre\",1]]"
            .to_owned(),
    );
    let converter = Converter::new(&stated, &System::Wgs84).unwrap();
    let got = converter.convert(metres(651_409.804, 313_177.450)).unwrap();
    assert_degrees(got, 52.658_007_833, 1.716_073_973, 0.001);
    assert!(converter.operation().description.contains("OSTN15"));
}

/// Broken and foreign files where PROJ and GDAL would look, and variables that point at them: nothing
/// changes, not a byte.
#[test]
fn files_that_lie_about_change_nothing() {
    let arguments = [
        "convert",
        "52.658007833, 1.716073973",
        "TG 51409 13177",
        "EPSG:32631 448251.8 5411932.7",
        "EPSG:27572 600000 2200000",
        "--to",
        "EPSG:4258",
        "--json",
    ];
    let clean = tempfile::tempdir().unwrap();
    let binary = env!("CARGO_BIN_EXE_strew");
    let run =
        |program: &std::path::Path, folder: &std::path::Path, variables: &[(&str, &std::path::Path)]| {
            let mut command = std::process::Command::new(program);
            command.args(arguments).current_dir(folder).env_clear();
            for (name, value) in variables {
                command.env(name, value);
            }
            let output = command.output().unwrap();
            (output.status.code(), output.stdout, output.stderr)
        };
    let expected = run(binary.as_ref(), clean.path(), &[]);
    assert_eq!(expected.0, Some(0), "{}", String::from_utf8_lossy(&expected.2));
    assert_eq!(expected.1.iter().filter(|byte| **byte == b'\n').count(), 4);

    let trap = tempfile::tempdir().unwrap();
    let (bin, share, home) =
        (trap.path().join("bin"), trap.path().join("share/proj"), trap.path().join("home/.local/share/proj"));
    for folder in [&bin, &share, &home] {
        std::fs::create_dir_all(folder).unwrap();
    }
    // Beside the binary as an installed PROJ would have it, in the current folder, and in a user's home.
    for folder in [trap.path(), &bin, &share, &home] {
        std::fs::write(folder.join("proj.db"), "not a database").unwrap();
        std::fs::write(
            folder.join("proj.ini"),
            "[general]\ntmerc_default_algo = evenden_snyder\nonly_best_default = on\nnetwork = on\n",
        )
        .unwrap();
        // A grid of a name that PROJ's database asks for: were it opened, its first bytes would be a fault.
        for grid in [
            "ntf_r93.gsb",
            "OSTN15_NTv2_OSGBtoETRS.gsb",
            "fr_ign_gr3df97a.tif",
            "uk_os_OSTN15_NTv2_OSGBtoETRS.tif",
        ] {
            std::fs::write(folder.join(grid), "NUM_OREC").unwrap();
        }
        std::fs::write(folder.join("epsg"), "<4258> +proj=longlat +a=1 <>").unwrap();
    }
    let installed = bin.join("strew");
    std::fs::copy(binary, &installed).unwrap();
    let home = trap.path().join("home");
    let variables: [(&str, &std::path::Path); 9] = [
        ("PROJ_DATA", trap.path()),
        ("PROJ_LIB", trap.path()),
        ("PROJ_AUX_DB", &trap.path().join("proj.db")),
        ("PROJ_NETWORK", "ON".as_ref()),
        ("PROJ_ONLY_BEST_DEFAULT", "YES".as_ref()),
        ("PROJ_DEBUG", "3".as_ref()),
        ("CPL_DEBUG", "ON".as_ref()),
        ("GDAL_DATA", trap.path()),
        ("HOME", &home),
    ];
    assert_eq!(run(&installed, trap.path(), &variables), expected);
}

/// OSGeo/PROJ, `test/cli/test_cs2cs_ignf.yaml`: Lambert II étendu to Lambert-93 by IGN's grid. Each way,
/// to a millimetre, as printed.
#[test]
fn old_french_maps_by_igns_grid() {
    for (x, y, x93, y93) in [
        (600_000.0, 2_600_545.4523, 652_760.737, 7_033_791.243),
        (998_137.3947, 2_413_822.2844, 1_049_052.258, 6_843_776.562),
        (600_000.0, 2_200_000.0, 649_398.872, 6_633_524.191),
        (960_488.4138, 1_910_172.8812, 1_007_068.686, 6_340_907.237),
        (600_000.0, 1_699_510.834, 645_204.279, 6_133_556.746),
    ] {
        assert_metres(carry("lambert-2-extended", "lambert-93", metres(x, y)), x93, y93, 0.001);
        assert_metres(carry("lambert-93", "lambert-2-extended", metres(x93, y93)), x, y, 0.001);
    }
    // From and to other datums the way is over RGF93, by the same grid.
    let place = carry("lambert-2-extended", "wgs84", metres(600_000.0, 2_200_000.0));
    assert_metres(carry("wgs84", "lambert-93", place), 649_398.872, 6_633_524.191, 0.001);
    assert_metres(carry("wgs84", "lambert-2-extended", place), 600_000.0, 2_200_000.0, 0.001);
    // Calais by both old national grids, over both new ones.
    let british = carry("lambert-2-extended", "british-grid", metres(570_000.0, 2_660_000.0));
    assert_metres(carry("british-grid", "lambert-2-extended", british), 570_000.0, 2_660_000.0, 0.001);
    let converter = Converter::new(&"lambert-2-extended".parse().unwrap(), &System::Lambert93).unwrap();
    converter.convert(metres(600_000.0, 2_200_000.0)).unwrap();
    assert!(converter.operation().grid_used);
    assert!(converter.operation().accuracy_m.is_some());
    // Off the grid, on the sea before Holland, three constants serve: told, and how coarse they are.
    let converter = Converter::new(&"lambert-2-extended".parse().unwrap(), &System::Wgs84).unwrap();
    converter.convert(metres(700_000.0, 2_800_000.0)).unwrap();
    let operation = converter.operation();
    assert!(operation.description.contains("outside IGN's grid"), "{operation:?}");
    assert!(!operation.grid_used && operation.accuracy_m >= Some(4.0), "{operation:?}");
    // The eighth case of that file lies far south of France: others fall back without a word, this refuses.
    let fault = converter.convert(metres(1_203_792.5981, 626_873.1721)).unwrap_err();
    assert_eq!(fault.id, "place-outside");
}

/// Parameters of the nine-zone grids of France (IGN, conic conformal zones): the origin of each zone NN is
/// NN° N 3° E at 1 700 000, (NN − 41) · 10⁶ + 200 000.
#[test]
fn french_conic_zones() {
    for zone in 42..=50_u32 {
        let there = carry("EPSG:4171", &format!("conic-conformal-{zone}"), degrees(f64::from(zone), 3.0));
        assert_metres(there, 1_700_000.0, f64::from(zone - 41) * 1e6 + 200_000.0, 1e-4);
    }
}

/// Zones I to IV of the old French grid: the origin of each, in grads from Paris, is 600 000 and the
/// zone's million with 200 000 (zone IV: 234.358 and 185 861.369; IGN, NTG 71).
#[test]
fn french_zones_have_their_origins() {
    for (zone, latitude_gr, x, y) in [
        (1, 55.0, 600_000.0, 1_200_000.0),
        (3, 49.0, 600_000.0, 3_200_000.0),
        (4, 46.85, 234.358, 4_185_861.369),
    ] {
        // EPSG:4807 counts from Paris in grads; angles are given in degrees whatever the system's unit.
        let there = carry("EPSG:4807", &format!("lambert-zone-{zone}"), degrees(latitude_gr * 0.9, 0.0));
        assert_metres(there, x, y, 1e-3);
    }
}

/// EPSG dataset and OSGeo/PROJ, `test/cli`: NTF (Paris) 64.44444444 gr, 2.9586342556 gr to Lambert II
/// étendu 760724.02, 3457334.86.
#[test]
fn grads_are_understood() {
    // That place lies at 58° N, where this program refuses the system; the library inside gives the figures.
    let library = proj::Proj::new_known_crs("EPSG:4807", "EPSG:27572", None).unwrap();
    let (e, n) = library.convert((2.958_634_255_6, 64.444_444_44)).unwrap();
    assert_metres(metres(e, n), 760_724.02, 3_457_334.86, 0.01);
    let outside = Converter::new(&System::from_epsg(4807), &System::from_epsg(27572)).unwrap();
    assert!(outside.convert(degrees(64.444_444_44 * 0.9, 2.958_634_255_6 * 0.9)).is_err());
    // In France: the true origin of the zone, 52 gr on the meridian of Paris.
    assert_metres(carry("EPSG:4807", "EPSG:27572", degrees(52.0 * 0.9, 0.0)), 600_000.0, 2_200_000.0, 1e-3);
}

/// The Spire of Dublin on Irish Grid and on ITM: 715830, 734697 (published to the metre; from memory, and
/// by PROJ 715829.94, 734697.23).
#[test]
fn irish_grid_to_itm() {
    let there = carry("irish-grid", "itm", metres(315_904.0, 234_671.0));
    assert_metres(there, 715_829.94, 734_697.23, 0.02);
    let converter = Converter::new(&"irish-grid".parse().unwrap(), &System::Wgs84).unwrap();
    converter.convert(metres(315_904.0, 234_671.0)).unwrap();
    assert_eq!(converter.operation().accuracy_m, Some(1.0), "{:?}", converter.operation());
    // The origin's latitude is 53.5° (one public definition has 53.3°): the true origin is 200 000, 250 000.
    let origin = carry("EPSG:4300", "irish-grid", degrees(53.5, -8.0));
    assert_metres(origin, 200_000.0, 250_000.0, 1e-3);
    assert_metres(carry("EPSG:4173", "itm", degrees(53.5, -8.0)), 600_000.0, 750_000.0, 1e-3);
}

/// IOGP, Guidance Note 7-2: worked examples of projections, each in the system that the note names.
#[test]
fn guidance_note_7_2_examples() {
    let dms = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
    // Transverse Mercator (the note rounds the scale, hence a centimetre).
    assert_metres(carry("EPSG:4277", "EPSG:27700", degrees(50.5, 0.5)), 577_274.99, 69_740.50, 0.01);
    // Lambert conic conformal with one parallel: JAD69 on the Jamaica grid.
    let there = carry("EPSG:4242", "EPSG:24200", degrees(dms(17.0, 55.0, 55.80), -dms(76.0, 56.0, 37.26)));
    assert_metres(there, 255_966.58, 142_493.51, 0.01);
    // With two parallels, in US survey feet: NAD27 on Texas South Central.
    let there = carry("EPSG:4267", "EPSG:32040", degrees(28.5, -96.0));
    assert_metres(there, 2_963_503.91, 254_759.80, 0.01);
    // Oblique stereographic: Amersfoort on the Dutch grid.
    let there = carry("EPSG:4289", "EPSG:28992", degrees(53.0, 6.0));
    assert_metres(there, 196_105.283, 557_057.739, 0.001);
}

/// GeographicLib (sources): the equator on Greenwich in UTM zone 31; and a place of the issue list of a
/// public library of military references.
#[test]
fn utm_examples() {
    assert_metres(carry("wgs84", "utm-31n", degrees(0.0, 0.0)), 166_021.443, 0.0, 0.001);
    assert_metres(
        carry("wgs84", "utm-11n", degrees(36.236_132_2, -115.082_094_4)),
        672_349.27,
        4_011_844.97,
        0.02,
    );
}

/// Grid north against true north: the meridian convergence that PROJ 9.5.1 gives (pyproj 3.7.2,
/// `Proj(…).get_factors(…).meridian_convergence`), in degrees.
const CONVERGENCES: &[(&str, f64, f64, f64)] = &[
    ("british-grid", 572_000.0, 531_000.0, 2.174_77),
    ("british-grid", 91_492.146, 11_318.804, -3.291_91),
    ("british-grid", 400_000.0, 300_000.0, 0.0),
    ("british-grid", 651_409.903, 313_177.270, 2.957_38),
    ("british-grid", 151_968.652, 966_483.780, -3.634_52),
    ("lambert-93", 652_760.737, 7_033_791.243, -0.481_44),
    ("lambert-93", 147_000.0, 6_837_000.0, -5.429_08),
    ("lambert-93", 700_000.0, 6_600_000.0, 0.0),
    ("lambert-93", 1_049_052.258, 6_843_776.562, 3.436_99),
    ("itm", 715_830.0, 734_697.0, 1.395_95),
    ("itm", 500_000.0, 550_000.0, -1.135_18),
    ("utm-31n", 448_251.796, 5_411_932.678, -0.531_31),
];

#[test]
fn grid_north_and_true_north_are_told_apart() {
    for (grid, easting_m, northing_m, wanted) in CONVERGENCES {
        let found = convergence_deg(&grid.parse().unwrap(), *easting_m, *northing_m).unwrap();
        // A sheet prints a tenth. OSGB36's meridians stand up to some 12 seconds of arc off those of WGS84.
        assert!((found - wanted).abs() < 0.005, "{grid} {easting_m} {northing_m}: {found} {wanted}");
    }
    // A conic conformal projection turns by the sine of its cone times the longitude from its meridian
    // (Snyder, Map projections: a working manual, 1987, p. 107; the sine from IGN, NTG_71: 0.7256077650).
    let grid: System = "lambert-93".parse().unwrap();
    for longitude_deg in [-4.5, -1.0, 2.0, 3.0, 7.25] {
        let Position::Projected { easting_m, northing_m } =
            carry("wgs84", "lambert-93", degrees(48.3, longitude_deg))
        else {
            unreachable!()
        };
        let wanted = 0.725_607_765_0 * (longitude_deg - 3.0);
        let found = convergence_deg(&grid, easting_m, northing_m).unwrap();
        assert!((found - wanted).abs() < 1e-4, "{longitude_deg}: {found} {wanted}");
    }
}
