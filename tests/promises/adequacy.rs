//! Adequacy: whatever a release says of a find, the ground that it leaves is as large as was agreed. The real
//! release is run on a lattice of single finds, 10 m apart, times all that may be said of each; what is told
//! alike is one group, and the ground of each group is measured.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;

use geo::{Area, BooleanOps, Contains, MultiPolygon, Point};
use strew::exact::{Reason, Register, ReleasedPlace};
use strew::ground::cover::{Frame, shares};
use strew::ground::{Ground, Partition};
use strew::study::Study;
use strew::study::vocabulary::{Class, Setting};

use super::islands::island;

/// Rows of a pixel: two classes, two settings, the parish stated or not.
const ROWS: u32 = 8;
/// Side of the lattice, metres.
const STEP_M: f64 = 10.0;

type Output = (Option<ReleasedPlace>, Option<Reason>, Option<Class>, Option<Setting>, Option<String>);

/// What one pixel holds, square metres.
struct Pixel {
    ground_m2: f64,
    walked_m2: f64,
    parcels: Vec<usize>,
}

#[test]
fn every_output_leaves_the_agreed_ground() {
    let (mut groups_seen, mut stepped, mut unshown, mut masked, mut parishes_joined) = (0, 0, 0, 0, 0);
    for seed in 0..12 {
        let island = island(seed, [300.0, 450.0, 700.0][(seed % 3) as usize]);
        let folder = tempfile::tempdir().unwrap();
        island.write(folder.path());
        let frame = Frame {
            west_m: (island.bounds.min().x / 1_000.0).floor() * 1_000.0,
            south_m: (island.bounds.min().y / 1_000.0).floor() * 1_000.0,
            pixel_m: STEP_M,
            columns: ((island.bounds.width() / 1_000.0).ceil() as usize + 2) * 100,
            rows: ((island.bounds.height() / 1_000.0).ceil() as usize + 2) * 100,
        };
        let ground = island.land.union(&island.beach);
        let walked = island.walked.iter().fold(MultiPolygon(Vec::new()), |all, one| all.union(one));
        let on_walked = walked.intersection(&ground);
        let (of_ground, of_walked) = (shares(&ground, &frame), shares(&on_walked, &frame));
        // One row a pixel, class and setting: its number says which pixel.
        let mut text = String::from("No,Easting,Northing,Parish,Class,Setting\n");
        let mut pixels: BTreeMap<usize, Pixel> = BTreeMap::new();
        for index in 0..frame.columns * frame.rows {
            if of_ground[index] * 100.0 < 1.0 {
                continue;
            }
            let (column, row) = (index % frame.columns, index / frame.columns);
            let x = frame.west_m + (column as f64 + 0.5) * STEP_M;
            let y = frame.south_m + (row as f64 + 0.5) * STEP_M;
            let at = Point::new(x, y);
            let parish = island.parishes.iter().find(|(_, shape)| shape.contains(&at));
            let parish = parish.map_or("", |(name, _)| name.as_str());
            let parcels = island.parcels.iter().enumerate();
            let parcels =
                parcels.filter(|(_, parcel)| parcel.contains(&at)).map(|(index, _)| index).collect();
            pixels.insert(
                index,
                Pixel { ground_m2: of_ground[index] * 100.0, walked_m2: of_walked[index] * 100.0, parcels },
            );
            // Where a pixel's middle lies in the sea, what of it is ground is beach.
            let ground_setting = if island.land.contains(&at) { "ploughland" } else { "beach" };
            for class in ["flake", "arrowhead"] {
                for setting in [ground_setting, "garden"] {
                    // The parish stated, or left blank.
                    for parish in [parish, ""] {
                        writeln!(text, "{index},{x:.0},{y:.0},{parish},{class},{setting}").unwrap();
                    }
                }
            }
        }
        fs::write(folder.path().join("finds.csv"), &text).unwrap();

        let study = Study::load(&folder.path().join("study.toml")).unwrap();
        let public = study.audience("public").unwrap();
        let read = Ground::read(public, folder.path()).unwrap();

        parishes_joined += island.parishes.len() - read.parishes.len();
        let partition = Partition::fix(public, &read).unwrap();

        let release = Register::read(&study).unwrap().release(public, &partition).unwrap();
        assert_eq!(release.tally.read as usize, pixels.len() * ROWS as usize);
        let mut groups: BTreeMap<Output, BTreeSet<usize>> = BTreeMap::new();
        let mut told = BTreeMap::<usize, u32>::new();
        for find in &release.finds {
            let number = find.details.as_ref().unwrap().number.clone().unwrap();
            let pixel: usize = number.parse().unwrap();
            *told.entry(pixel).or_default() += 1;
            let output =
                (Some(find.place.clone()), None, find.class, find.setting, find.stated_parish.clone());
            groups.entry(output).or_default().insert(pixel);
        }
        for (reason, rows) in &release.tally.set_aside {
            assert_eq!(*reason, Reason::GroundTooSmall, "seed {seed}");
            // Those of which a row is missing are this group's.
            let missing: BTreeSet<usize> =
                pixels.keys().filter(|pixel| told.get(pixel).copied().unwrap_or(0) < ROWS).copied().collect();
            assert!(*rows as usize >= missing.len());
            groups.insert((None, Some(*reason), None, None, None), missing);
        }
        let on = |group: &BTreeSet<usize>, of: &dyn Fn(&Pixel) -> f64| -> f64 {
            group.iter().map(|pixel| of(&pixels[pixel])).sum()
        };
        for (output, group) in &groups {
            groups_seen += 1;
            let walked = if island.walked_is_public { on(group, &|pixel| pixel.walked_m2) } else { 0.0 };
            // A pixel belongs to a group by its centre: edges of parishes, beach and walked ground count whole
            // pixels, so that a little of them may count as nothing.
            let area = if walked > 150.0 { walked } else { on(group, &|pixel| pixel.ground_m2) };
            let rounding = 0.03 * island.smallest_area_m2 + 200.0;
            assert!(
                area + rounding >= island.smallest_area_m2,
                "seed {seed}: {output:?} leaves {area:.0} of {:.0} m²\n{}",
                island.smallest_area_m2,
                island.study
            );
            let parcels: BTreeSet<usize> = group
                .iter()
                .filter(|pixel| walked <= 150.0 || pixels[pixel].walked_m2 > 0.0)
                .flat_map(|pixel| pixels[pixel].parcels.iter().copied())
                .collect();
            assert!(
                parcels.len() + 1 >= island.smallest_places as usize,
                "seed {seed}: {output:?} leaves {} parcels",
                parcels.len()
            );
        }
        stepped += partition.stepped().len();
        unshown += partition.unshown().len();
        masked += groups
            .keys()
            .filter(|(place, _, _, _, stated)| {
                matches!(place, Some(ReleasedPlace::Cell(_))) && stated.is_none()
            })
            .count();
        // The ladder is the same whatever lies where: it is fixed before any register is read.
        fs::write(folder.path().join("finds.csv"), "No,Class\n").unwrap();
        let read_again = Ground::read(public, folder.path()).unwrap();
        let again = Partition::fix(public, &read_again).unwrap();
        assert_eq!(again.stepped(), partition.stepped());
        assert!(ground.unsigned_area() > 0.0);
    }
    println!(
        "{groups_seen} groups; {stepped} squares stepped, {unshown} not shown, {masked} masked, {parishes_joined} parishes joined"
    );
    assert!(groups_seen > 400 && stepped > 20 && unshown > 5 && masked > 5 && parishes_joined > 0);
}
