//! The partition of the country for one audience: fixed by the agreement and public ground before any
//! register is read.
//!
//! It holds the ladder of disclosed areas, the `near` rules (whole squares), the parishes and their shares of
//! each cell, and the reach of the study. [`Partition::told`] is the only place where a side can grow because
//! of the ground.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Mutex, PoisonError};

use geo::{Line, LinesIter, MultiPolygon, Rect};

use super::Ground;
use super::cover::area_within;
use super::disclosed::Region;
use super::edges::Edges;
use super::ladder::{Ladder, Needed, Pool, Rung};
use super::masks::Masks;
use crate::coordinates::Cell;
use crate::fault::Result;
use crate::study::vocabulary::fold;
use crate::study::{Precision, PublicStudy, StricterRule, ladder};

/// How far from the box round the public ground a place may lie and still belong to the study, metres.
const REACH_M: f64 = 20_000.0;

/// A parish with less of a cell than this share of what parishes have of it is rounding.
const LEAST_SHARE: f64 = 1e-9;

/// Where a parish is agreed, the only squares are those of finds given too coarsely for a parish; their
/// sides step up from this one, metres.
const SIDE_WITHOUT_SQUARE_M: u32 = 1_000;

/// For one audience: which side a cell is shown at, and which parish ground belongs to.
pub struct Partition<'a> {
    ground: &'a Ground,
    /// The edges of the parishes, numbered as they are.
    edges: Edges,
    /// Parishes by folded name, the first of each.
    by_name: BTreeMap<String, usize>,
    near: Vec<NearRule>,
    /// The sides a square may step up through, the agreed one first.
    sides: Vec<u32>,
    reach: Option<Rect<f64>>,
    needed: Needed,
    /// All the ground on which finds may lie.
    region: Region,
    ladder: Ladder,
    masks: Masks,
    /// Shares that were worked out before: a register asks for the same cells over and over.
    shares: Mutex<BTreeMap<Cell, Shares>>,
}

/// How the finds of a cell are told, by public ground alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told<'a> {
    /// In this square: the cell itself, or a larger one.
    Square(Cell),
    /// By this parish alone; by the stated one where the study has no layer of parishes.
    Parish(Option<&'a str>),
    /// Not at all: its ground is too small to show.
    TooSmall,
    /// Not at all: a large square with hardly any ground, which counts as far from the study's.
    Far,
}

/// What may be said of the finds of a place besides it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sayable {
    /// The parish as stated.
    pub stated_parish: bool,
    /// Whether it lay on the beach.
    pub beach: bool,
    /// Its setting, whatever it is.
    pub setting: bool,
}

/// Numbers of parishes with their shares of a cell.
type Shares = Vec<(usize, f64)>;

/// A rule of the agreement that asks for more where certain ground is near.
pub(super) struct NearRule {
    edges: Edges,
    pub(super) distance_m: f64,
    pub(super) precision: Precision,
}

impl<'a> Partition<'a> {
    /// Fixes the partition.
    pub fn fix(study: &'a PublicStudy, ground: &'a Ground) -> Result<Self> {
        let mut by_name = BTreeMap::new();
        for (index, parish) in ground.parishes.iter().enumerate() {
            for name in std::iter::once(&parish.name).chain(&parish.also) {
                by_name.entry(fold(name)).or_insert(index);
            }
        }
        let rules = study.agreement.stricter.iter().filter_map(|stricter| match &stricter.rule {
            StricterRule::Near { distance_m, .. } => Some((*distance_m, stricter.precision)),
            _ => None,
        });
        let near = rules
            .zip(&ground.near)
            .map(|((distance_m, precision), shapes)| NearRule {
                edges: Edges::of([lines(shapes)]),
                distance_m,
                precision,
            })
            .collect();
        let needed = Needed::of(&study.agreement);
        let mut partition = Self {
            ground,
            edges: Edges::of(ground.parishes.iter().map(|parish| lines(&parish.shape))),
            by_name,
            near,
            sides: ladder(study.agreement.precision.side_m().unwrap_or(SIDE_WITHOUT_SQUARE_M)),
            reach: ground.frame().map(|frame| widened(frame, REACH_M)),
            needed,
            region: Region::of(ground),
            ladder: Ladder::default(),
            masks: Masks::of(study, ground, needed),
            shares: Mutex::new(BTreeMap::new()),
        };
        partition.ladder = Ladder::fix(ground, needed, &partition.sides, |cell| partition.main_parish(cell))?;
        Ok(partition)
    }

    /// The parish whose ground holds a place or comes nearest to it (parishes part the whole country,
    /// sea included, within the study's reach). Where two do so alike, the first by name. `None` without
    /// a parish layer or out of reach.
    pub fn parish_at(&self, easting_m: f64, northing_m: f64) -> Option<&'a str> {
        self.parish_index(easting_m, northing_m).map(|index| self.name(index))
    }

    fn parish_index(&self, x: f64, y: f64) -> Option<usize> {
        let reach = self.reach?;
        let (min, max) = (reach.min(), reach.max());
        // Written so that NaN is out of reach too.
        if !(x >= min.x && x <= max.x && y >= min.y && y <= max.y) {
            return None;
        }
        let holding = self.edges.holding(x, y).first().copied();
        holding.or_else(|| self.edges.nearest(x, y).map(|near| near.shape))
    }

    fn name(&self, index: usize) -> &'a str {
        &self.ground.parishes[index].name
    }

    /// The parish of that name, as the layer spells it: case, accents and punctuation do not matter.
    pub fn parish_named(&self, stated: &str) -> Option<&'a str> {
        self.by_name.get(&fold(stated)).map(|index| self.name(*index))
    }

    /// Known parish names, for hints.
    pub fn parish_names(&self) -> Vec<&'a str> {
        self.ground.parishes.iter().map(|p| p.name.as_str()).collect()
    }

    /// The parishes a cell lies in, each with its share of the cell's ground (shares add to 1), in order
    /// of name. A cell with no parish ground goes whole to the nearest. Empty without a parish layer,
    /// and out of the study's reach.
    pub fn parish_shares(&self, cell: Cell) -> Vec<(&'a str, f64)> {
        self.shares_of(cell).into_iter().map(|(index, share)| (self.name(index), share)).collect()
    }

    fn shares_of(&self, cell: Cell) -> Shares {
        // A poisoned lock would mean a panic elsewhere; what it guards is whole after every insertion.
        let lock = || self.shares.lock().unwrap_or_else(PoisonError::into_inner);
        let known = lock().get(&cell).cloned();
        known.unwrap_or_else(|| {
            let shares = self.work_out_shares(cell);
            lock().insert(cell, shares.clone());
            shares
        })
    }

    fn work_out_shares(&self, cell: Cell) -> Shares {
        let rect = cell.rect();
        let centre = rect.center();
        let mut touched: BTreeSet<usize> = self.edges.meeting(rect, 0.0);
        let whole = || self.parish_index(centre.x, centre.y).map(|index| (index, 1.0)).into_iter().collect();
        if touched.is_empty() {
            // No edge crosses the cell: it lies in one parish whole, or in none.
            return whole();
        }
        touched.extend(self.edges.holding(centre.x, centre.y));
        let areas: Shares = touched
            .into_iter()
            .map(|index| (index, area_within(&self.ground.parishes[index].shape, rect)))
            .collect();
        let least = LEAST_SHARE * areas.iter().map(|(_, area)| area).sum::<f64>().max(1e-6);
        let areas: Shares = areas.into_iter().filter(|(_, area)| *area > least).collect();
        let total: f64 = areas.iter().map(|(_, area)| area).sum();
        if areas.is_empty() {
            return whole();
        }
        areas.into_iter().map(|(index, area)| (index, area / total)).collect()
    }

    /// The parish that has most of a cell, the first by name where several have as much.
    fn main_parish(&self, cell: Cell) -> Option<usize> {
        self.shares_of(cell).into_iter().reduce(|a, b| if b.1 > a.1 { b } else { a }).map(|(index, _)| index)
    }

    /// How the finds of `cell` are told, by public ground alone.
    ///
    /// The ladder comes first: the square that leaves enough ground, or the parish that its slivers are told
    /// by. Then the rules `near` certain ground, which work by whole squares of the side they ask for: the
    /// first side of the ladder that is at least the rule's own and a multiple of the square's. When the square
    /// of that side comes within the rule's distance, the whole square is shown as one; so every cell in it
    /// answers alike, and the answer tells nothing of where in it a find lies. A rule that asks for the parish
    /// goes by the squares that are shown, and tells the parish that has most of the square.
    pub fn told(&self, cell: Cell) -> Told<'a> {
        let unit = match self.rung(cell) {
            Ok(unit) => unit,
            Err(told) => return told,
        };
        let mut shown = unit;
        for rule in &self.near {
            let asked = rule.precision.side_m().unwrap_or(0).max(unit.side_m);
            let square = self.sides.iter().filter(|side| **side >= asked).find_map(|side| unit.within(*side));
            let square = square.unwrap_or(unit);
            match rule.precision {
                _ if !rule.is_near(square) => {}
                Precision::Square { .. } if square.side_m > shown.side_m => shown = square,
                Precision::Square { .. } => {}
                Precision::Parish => {
                    return Told::Parish(self.main_parish(unit).map(|index| self.name(index)));
                }
            }
        }
        match self.rung(shown) {
            Ok(square) => Told::Square(square),
            Err(told) => told,
        }
    }

    /// The square that the ladder shows a cell in, or how its finds are told instead.
    pub(super) fn rung(&self, cell: Cell) -> std::result::Result<Cell, Told<'a>> {
        let enough = |cell: Cell| {
            let left = self.region.left(cell);
            // Open water leaves the whole square.
            left.area_m2 <= super::disclosed::LEAST_GROUND_M2 || self.needed.met_by(left)
        };
        match self.ladder.rung(cell, enough) {
            Rung::Square(square) => Ok(square),
            Rung::Pool(Pool::Parish(index)) => Err(Told::Parish(Some(self.name(index)))),
            Rung::Pool(Pool::Nowhere) => Err(Told::TooSmall),
            Rung::Beyond => Err(Told::Far),
        }
    }

    /// What may be said of the finds of a square besides it: what leaves enough ground whatever it says.
    pub fn sayable_in(&self, cell: Cell) -> Sayable {
        self.masks.of_cell(cell, &self.region, || {
            self.shares_of(cell).into_iter().map(|(index, _)| &self.ground.parishes[index].shape).collect()
        })
    }

    /// The same for finds told by their parish alone.
    pub fn sayable_in_parish(&self) -> Sayable {
        self.masks.of_parish()
    }

    /// The rules `near` certain ground, each with that ground.
    pub(super) fn rules(&self) -> impl Iterator<Item = (&NearRule, &'a MultiPolygon<f64>)> {
        self.near.iter().zip(&self.ground.near)
    }

    /// The sides a square may step up through, the agreed one first.
    pub(super) fn sides(&self) -> &[u32] {
        &self.sides
    }

    /// The squares that the ladder shows as one, in order.
    pub fn stepped(&self) -> Vec<Cell> {
        self.ladder.closed().collect()
    }

    /// The squares that the ladder does not show, in order, and the parish that tells their finds (`None`: they
    /// are set aside).
    pub fn unshown(&self) -> Vec<(Cell, Option<&'a str>)> {
        let told = |pool| match pool {
            Pool::Parish(index) => Some(self.name(index)),
            Pool::Nowhere => None,
        };
        self.ladder.pooled().map(|(cell, pool)| (cell, told(pool))).collect()
    }

    /// The smallest side that the ladder shows, metres; `None` where nothing is asked of the ground.
    pub fn smallest_side_m(&self) -> Option<u32> {
        self.ladder.first_m()
    }

    /// Whether a piece of ground leaves a find at least so much: all of it where it holds none.
    pub fn leaves(&self, shape: &MultiPolygon<f64>, area_m2: f64, places: u32) -> bool {
        let left = self.region.within(shape).whole();
        left.area_m2 <= super::disclosed::LEAST_GROUND_M2 || Needed { area_m2, places }.met_by(left)
    }

    /// The ground of a parish, by its name; of several that were told as one under another agreement, by the names of
    /// all of them.
    pub fn parish_shape(&self, name: &str) -> Option<MultiPolygon<f64>> {
        let shape = |name: &str| {
            let index = *self.by_name.get(&fold(name))?;
            self.ground.parishes.get(index).map(|parish| parish.shape.clone())
        };
        shape(name).or_else(|| {
            let parts: Vec<MultiPolygon<f64>> = name.split(" + ").filter_map(shape).collect();
            let polygons: Vec<_> = parts.iter().flat_map(|part| part.0.iter()).collect();
            (!polygons.is_empty()).then(|| geo::unary_union(polygons))
        })
    }

    /// The slivers whose finds this parish tells.
    pub fn slivers_of(&self, name: &str) -> Vec<Cell> {
        let Some(index) = self.by_name.get(&fold(name)) else { return Vec::new() };
        let told = self.ladder.pooled().filter(|(_, pool)| *pool == Pool::Parish(*index));
        told.map(|(cell, _)| cell).collect()
    }

    /// Whether a cell comes within reach of the public ground (20 km of the box round land, parishes and
    /// shore). True when the study has none of these layers.
    pub fn in_reach(&self, cell: Cell) -> bool {
        use geo::Intersects;
        self.reach.is_none_or(|reach| reach.intersects(&cell.rect()))
    }
}

impl NearRule {
    pub(super) fn is_near(&self, square: Cell) -> bool {
        let rect = square.rect();
        let centre = rect.center();
        // Wholly inside a shape no edge need be near.
        !self.edges.meeting(rect, self.distance_m).is_empty()
            || !self.edges.holding(centre.x, centre.y).is_empty()
    }
}

fn lines(shape: &MultiPolygon<f64>) -> impl Iterator<Item = Line<f64>> + '_ {
    shape.lines_iter()
}

fn widened(rect: Rect<f64>, by: f64) -> Rect<f64> {
    Rect::new((rect.min().x - by, rect.min().y - by), (rect.max().x + by, rect.max().y + by))
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use geo::wkt;

    use super::Partition;
    use super::Told;
    use crate::coordinates::Cell;
    use crate::ground::{Ground, Parish};
    use crate::study::{PublicStudy, Study};

    fn study(agreement: &str) -> PublicStudy {
        let text = format!(
            "[study]\ntitle = \"Test\"\n[register]\nfiles = [\"finds.csv\"]\n[agreement.public]\n{agreement}"
        );
        Study::parse(&text, PathBuf::from(".")).unwrap().audience("public").unwrap().clone()
    }

    fn ground(study: &PublicStudy) -> Ground {
        let parish = |name: &str, shape| Parish { name: name.to_owned(), also: Vec::new(), shape };
        Ground {
            parishes: vec![
                parish("Ashcombe", wkt!(MULTIPOLYGON(((0. 0.,1050. 0.,1050. 1000.,0. 1000.,0. 0.))))),
                parish(
                    "St. Éloi-Les Grèves",
                    wkt!(MULTIPOLYGON(((1050. 0.,2000. 0.,2000. 1000.,1050. 1000.,1050. 0.)))),
                ),
            ],
            ..Ground::empty(study)
        }
    }

    fn cell(side_m: u32, column: i32, row: i32) -> Cell {
        Cell { side_m, column, row }
    }

    #[test]
    fn parishes_by_place_and_by_name() {
        let study = study("precision = \"100 m\"");
        let ground = ground(&study);
        let partition = Partition::fix(&study, &ground).unwrap();
        assert_eq!(partition.parish_at(10.0, 10.0), Some("Ashcombe"));
        assert_eq!(partition.parish_at(1500.0, 10.0), Some("St. Éloi-Les Grèves"));
        assert_eq!(partition.parish_at(1500.0, -900.0), Some("St. Éloi-Les Grèves"), "at sea: the nearest");
        assert_eq!(partition.parish_at(1050.0, -900.0), Some("Ashcombe"), "as near to both: by name");
        assert_eq!(partition.parish_at(1500.0, -21_000.0), None);
        assert_eq!(partition.parish_at(f64::NAN, 0.0), None);
        assert_eq!(partition.parish_named("st eloi les greves"), Some("St. Éloi-Les Grèves"));
        assert_eq!(partition.parish_named("Elsewhere"), None);
    }

    #[test]
    fn shares_of_a_cell() {
        let study = study("precision = \"100 m\"");
        let ground = ground(&study);
        let partition = Partition::fix(&study, &ground).unwrap();
        assert_eq!(partition.parish_shares(cell(100, 2, 2)), [("Ashcombe", 1.0)]);
        let shares = partition.parish_shares(cell(100, 10, 2));
        assert_eq!(shares, [("Ashcombe", 0.5), ("St. Éloi-Les Grèves", 0.5)]);
        let shares = partition.parish_shares(cell(1000, 1, 0));
        assert!((shares[0].1 - 0.05).abs() < 1e-12 && (shares[1].1 - 0.95).abs() < 1e-12, "{shares:?}");
        assert_eq!(partition.parish_shares(cell(100, 2, -5)), [("Ashcombe", 1.0)], "sea: the nearest");
        assert!(partition.parish_shares(cell(100, 2, -900)).is_empty(), "out of reach");
    }

    #[test]
    fn no_layers_no_parishes_and_everything_in_reach() {
        let study = study("precision = \"100 m\"");
        let ground = Ground::empty(&study);
        let partition = Partition::fix(&study, &ground).unwrap();
        assert_eq!(partition.parish_at(1.0, 1.0), None);
        assert!(partition.parish_shares(cell(100, 0, 0)).is_empty());
        assert!(partition.in_reach(cell(100, 90_000, 0)));
    }

    #[test]
    fn near_ground_asks_by_whole_squares() {
        let rule = "precision = \"100 m\"\n[[agreement.public.stricter]]\n\
                    near = { file = \"sites.geojson\", distance = \"150 m\" }\nprecision = \"1 km\"\n";
        let study = study(rule);
        let mut ground = ground(&study);
        ground.near = vec![wkt!(MULTIPOLYGON(((1100. 500.,1200. 500.,1200. 600.,1100. 600.,1100. 500.))))];
        let partition = Partition::fix(&study, &ground).unwrap();
        let square = |cell: Cell, side_m| Told::Square(cell.within(side_m).unwrap());
        // Kilometre squares (0, 0) and (1, 0) come within 150 m; (2, 0) and (0, 1) do not.
        for column in 0..20 {
            for row in 0..10 {
                assert_eq!(partition.told(cell(100, column, row)), square(cell(100, column, row), 1000));
            }
        }
        assert_eq!(partition.told(cell(100, 20, 5)), square(cell(100, 20, 5), 100));
        assert_eq!(partition.told(cell(100, 5, 10)), square(cell(100, 5, 10), 100));
        assert_eq!(partition.told(cell(1000, 1, 0)), square(cell(1000, 1, 0), 1000));
        assert_eq!(
            partition.told(cell(2000, 0, 0)),
            square(cell(2000, 0, 0), 2000),
            "coarser than the rule already"
        );
    }

    #[test]
    fn near_ground_inside_a_large_shape_and_asking_for_the_parish() {
        let rule = "precision = \"100 m\"\n[[agreement.public.stricter]]\n\
                    near = { file = \"sites.geojson\", distance = \"10 m\" }\nprecision = \"parish\"\n";
        let study = study(rule);
        let mut ground = ground(&study);
        ground.near = vec![wkt!(MULTIPOLYGON(((0. 0.,1000. 0.,1000. 1000.,0. 1000.,0. 0.))))];
        let partition = Partition::fix(&study, &ground).unwrap();
        assert_eq!(partition.told(cell(100, 5, 5)), Told::Parish(Some("Ashcombe")));
        assert_eq!(partition.told(cell(100, 10, 5)), Told::Parish(Some("Ashcombe")), "touches it");
        assert_eq!(partition.told(cell(100, 11, 5)), Told::Square(cell(100, 11, 5)));
    }
}
