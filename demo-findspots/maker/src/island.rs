//! The whole island: terrain, coast, streams, parishes, roads, fields and the places of the finds.

use geo::{LineString, Polygon};
use rand::seq::SliceRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha12Rng;

use crate::beaches::{Beach, beaches};
use crate::noise::Noise;
use crate::parishes::{Parish, parish_of, parishes};
use crate::raster::{COLUMNS, Place, ROWS, centre, distance, pixel};
use crate::settlement::{Named, Road, roads, villages};
use crate::terrain::Terrain;
use crate::walked::{Field, fields};
use crate::walks::{self, Walk};
use crate::water::{Stream, streams};

/// A piece of ground that the society walked.
pub struct Walked {
    pub name: String,
    pub parish: &'static str,
    pub setting: &'static str,
    pub shape: Polygon<f64>,
    pub middle: Place,
    pub hectares: f64,
    /// The bearing of its long side, radians from east (of the cliff path alone).
    pub turn: f64,
    /// The patch that lies on it, if one does.
    pub patch: Option<Patch>,
    pub walk: Walk,
}

/// The patches that finds lie in, besides the thin background.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Patch {
    /// Late Mesolithic, 60 × 40 m, on the cliff path.
    CliffPath,
    /// Late Mesolithic, 90 × 50 m, in a field at the cliff's edge.
    CliffField,
    /// Every period, 1.5 ha round a spring.
    Spring,
    /// Late Neolithic to Early Bronze Age, 4 ha.
    Spread,
    /// Rolled pieces on a beach, 400 × 20 m.
    BeachStrip,
    /// No patch at all: a member's own paddock, walked every week.
    Paddock,
}

pub struct Island {
    pub terrain: Terrain,
    pub land: Vec<Polygon<f64>>,
    pub streams: Vec<Stream>,
    pub parishes: Vec<Parish>,
    pub roads: Vec<Road>,
    pub places: Vec<Named>,
    pub beaches: Vec<Beach>,
    pub walked: Vec<Walked>,
    pub protected: Vec<(&'static str, Polygon<f64>)>,
    /// The member's house with the garden.
    pub house: Place,
}

/// Fields walked in each parish, besides those chosen for their patches.
const WALKED_IN_PARISH: [usize; 4] = [21, 19, 14, 18];

impl Island {
    pub fn make(seed: u64) -> Self {
        let mut rng = ChaCha12Rng::seed_from_u64(seed);
        let terrain = Terrain::make(seed as u32);
        let land = crate::coast::trace(&terrain.shape);
        let coast = land[0].exterior().clone();
        let streams = streams(&terrain);
        let parishes = parishes(&terrain, &land, &streams);
        let beaches = beaches(&terrain, &coast);
        let mut places = villages(&terrain, &parishes);
        let head = inland_of(&terrain, furthest(&coast, 0.25, 1.0), 90.0);
        let landing = inland_of(&terrain, beaches[2].back[beaches[2].back.len() / 2], 40.0);
        let roads = roads(&terrain, &places, landing, head);
        let middles: Vec<Place> = places.iter().map(|v| v.at).collect();
        let all = fields(&terrain, &roads, &middles, &mut rng);
        let house = Place { x: middles[3].x + 60.0, y: middles[3].y - 45.0 };
        let walked = choose(&terrain, &parishes, &streams, &beaches, &all, &middles, house, &mut rng);
        places.extend(names(&terrain, &coast, &beaches, &streams, head, landing));
        let protected = protect(&terrain, &walked);
        Self { terrain, land, streams, parishes, roads, places, beaches, walked, protected, house }
    }

    pub fn parish(&self, place: Place) -> &'static str {
        parish_of(&self.parishes, place).unwrap_or_else(|| {
            let far = |p: &&Parish| {
                p.shape.0[0].exterior().0.iter().map(|v| distance(*v, place)).fold(f64::INFINITY, f64::min)
            };
            self.parishes
                .iter()
                .min_by(|a, b| far(a).total_cmp(&far(b)))
                .map_or(crate::parishes::NAMES[0], |parish| parish.name)
        })
    }

    pub fn ground(&self, patch: Patch) -> &Walked {
        self.walked.iter().find(|w| w.patch == Some(patch)).expect("each patch has its ground")
    }
}

/// The coast vertex furthest in a direction.
fn furthest(coast: &LineString<f64>, east: f64, north: f64) -> Place {
    let along = |p: &Place| p.x * east + p.y * north;
    *coast.0.iter().max_by(|a, b| along(a).total_cmp(&along(b))).expect("the coast has vertices")
}

/// The land nearest a place that lies at least so far inland.
fn inland_of(terrain: &Terrain, place: Place, inland_m: f64) -> Place {
    let near = (0..COLUMNS * ROWS)
        .filter(|p| terrain.main[*p] && terrain.inland[*p] >= inland_m)
        .min_by(|a, b| distance(centre(*a), place).total_cmp(&distance(centre(*b), place)));
    centre(near.expect("the island has an inland"))
}

/// A rough oval, `long` by `wide` metres across, turned by `turn` radians.
pub fn oval(middle: Place, long: f64, wide: f64, turn: f64, rough: f64, seed: u32) -> Polygon<f64> {
    let noise = Noise::new(seed);
    let ring: Vec<Place> = (0..28)
        .map(|i| {
            let angle = f64::from(i) / 28.0 * std::f64::consts::TAU;
            let (sin, cos) = angle.sin_cos();
            let out = 1.0 + rough * noise.octaves(cos * 1.4 + 5.0, sin * 1.4 + 5.0, 2, 0.5);
            let (x, y) = (cos * long / 2.0 * out, sin * wide / 2.0 * out);
            Place {
                x: middle.x + x * turn.cos() - y * turn.sin(),
                y: middle.y + x * turn.sin() + y * turn.cos(),
            }
        })
        .collect();
    Polygon::new(LineString(ring), vec![])
}

#[allow(clippy::too_many_arguments)]
fn choose(
    terrain: &Terrain,
    parishes: &[Parish],
    streams: &[Stream],
    beaches: &[Beach],
    all: &[Field],
    villages: &[Place],
    house: Place,
    rng: &mut ChaCha12Rng,
) -> Vec<Walked> {
    use geo::Area;
    let mut special: Vec<(Patch, &'static str, Field)> = Vec::new();
    let field = |shape: Polygon<f64>, middle| Field { hectares: shape.unsigned_area() / 1e4, shape, middle };
    // The cliff path: where the cliff stands highest, on the north-west side.
    let path = (0..COLUMNS * ROWS)
        .filter(|p| (34.0..62.0).contains(&terrain.inland[*p]) && terrain.slope(*p) < 0.45)
        .filter(|p| terrain.main[*p])
        .max_by(|a, b| {
            let worth = |p: usize| {
                let at = centre(p);
                terrain.height[p] + (at.y - at.x) / 260.0
            };
            worth(*a).total_cmp(&worth(*b))
        })
        .map(centre)
        .expect("the coast has a cliff");
    let turn = downslope(terrain, path) + std::f64::consts::FRAC_PI_2;
    special.push((Patch::CliffPath, "path", field(oval(path, 230.0, 62.0, turn, 0.16, 4), path)));
    let far = |at: Place, special: &[(Patch, &str, Field)]| {
        special.iter().map(|(_, _, f)| distance(f.middle, at)).fold(f64::INFINITY, f64::min)
    };
    let edge = all
        .iter()
        .filter(|f| far(f.middle, &special) > 2_500.0 && f.hectares > 1.6)
        .filter(|f| terrain.inland.at(f.middle) < 240.0 && terrain.height.at(f.middle) > 16.0)
        .max_by(|a, b| {
            let worth = |f: &Field| terrain.height.at(f.middle) - terrain.inland.at(f.middle) / 5.0;
            worth(a).total_cmp(&worth(b))
        })
        .expect("a field lies at the cliff's edge");
    special.push((Patch::CliffField, "ploughland", edge.clone()));
    let spring = streams
        .iter()
        .map(|s| centre(s.pixels[3]))
        .filter(|at| terrain.inland.at(*at) > 600.0 && far(*at, &special) > 1_500.0)
        .max_by(|a, b| {
            let worth = |at: Place| terrain.inland.at(at) / 400.0 - terrain.slope(pixel(at)) * 20.0;
            worth(*a).total_cmp(&worth(*b))
        })
        .expect("a stream rises inland");
    special.push((Patch::Spring, "pasture", field(oval(spring, 205.0, 160.0, 0.5, 0.2, 8), spring)));
    let spread = all
        .iter()
        .filter(|f| f.hectares > 5.2 && far(f.middle, &special) > 1_700.0)
        .filter(|f| terrain.inland.at(f.middle) > 350.0)
        .min_by(|a, b| {
            let worth = |f: &Field| terrain.slope(pixel(f.middle)) - f.hectares / 60.0;
            worth(a).total_cmp(&worth(b))
        })
        .expect("a large field lies inland");
    special.push((Patch::Spread, "ploughland", spread.clone()));
    let strip = &beaches[0];
    special.push((Patch::BeachStrip, "beach", field(strip.shape.clone(), strip.back[strip.back.len() / 2])));
    let paddock = all
        .iter()
        .filter(|f| f.hectares < 4.5)
        .min_by(|a, b| distance(a.middle, house).total_cmp(&distance(b.middle, house)))
        .expect("a field lies near the house");
    special.push((Patch::Paddock, "pasture", paddock.clone()));

    let taste = Noise::new(31);
    let mut rest: Vec<(f64, &Field)> = all
        .iter()
        .filter(|f| special.iter().all(|(_, _, s)| distance(s.middle, f.middle) > 1.0))
        .map(|f| {
            let home = villages.iter().map(|v| distance(*v, f.middle)).fold(f64::INFINITY, f64::min);
            let luck = taste.octaves(f.middle.x / 1_300.0, f.middle.y / 1_300.0, 3, 0.6);
            (home / 2_600.0 + 1.3 * luck + rng.random_range(0.0..0.35), f)
        })
        .collect();
    rest.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Each parish has its share of the walking, a little uneven.
    let mut left = WALKED_IN_PARISH;
    rest.retain(|(_, f)| {
        let home = parish_of(parishes, f.middle);
        let index = crate::parishes::NAMES.iter().position(|name| Some(*name) == home);
        let Some(left) = index.map(|i| &mut left[i]) else { return false };
        let take = *left > 0;
        *left -= usize::from(take);
        take
    });
    let mut names = field_names(rng);
    let mut walked: Vec<Walked> = special
        .into_iter()
        .map(|(patch, setting, f)| {
            let name = match patch {
                Patch::CliffPath => "Gannet Heugh cliff path".to_owned(),
                Patch::Spring => "Hob Spring".to_owned(),
                Patch::BeachStrip => strip.name.to_owned(),
                Patch::Paddock => "Lantern House paddock".to_owned(),
                _ => names.pop().unwrap_or_default(),
            };
            (Some(patch), setting, f, name)
        })
        .chain(rest.iter().map(|(_, f)| {
            let setting = if taste.at(f.middle.x / 310.0, f.middle.y / 310.0) > 0.42 {
                "pasture"
            } else {
                "ploughland"
            };
            (None, setting, (*f).clone(), String::new())
        }))
        .map(|(patch, setting, f, name)| Walked {
            name,
            parish: parish_of(parishes, f.middle).unwrap_or(parishes[0].name),
            setting,
            shape: f.shape,
            middle: f.middle,
            hectares: f.hectares,
            turn,
            patch,
            walk: walks::plan(patch, f.hectares, rng),
        })
        .collect();
    for field in walked.iter_mut().filter(|w| w.name.is_empty()) {
        field.name = names.pop().unwrap_or_else(|| format!("Field {:.0}", field.middle.x));
    }
    walked
}

/// The bearing of steepest descent, radians from east.
fn downslope(terrain: &Terrain, place: Place) -> f64 {
    let inland = |dx: f64, dy: f64| terrain.inland.at(Place { x: place.x + dx, y: place.y + dy });
    let (dx, dy) = (inland(-40.0, 0.0) - inland(40.0, 0.0), inland(0.0, -40.0) - inland(0.0, 40.0));
    dy.atan2(dx)
}

fn field_names(rng: &mut ChaCha12Rng) -> Vec<String> {
    let first = ["Upper", "Nether", "Long", "Far", "Great", "Little", "Home", "Middle", "Crooked", "Stony"];
    let second = ["Acre", "Croft", "Leas", "Garth", "Piece", "Furlong", "Close", "Intake", "Dale", "Bank"];
    let mut names: Vec<String> =
        first.iter().flat_map(|a| second.iter().map(move |b| format!("{a} {b}"))).collect();
    names.shuffle(rng);
    names
}

fn names(
    terrain: &Terrain,
    coast: &LineString<f64>,
    beaches: &[Beach],
    streams: &[Stream],
    head: Place,
    landing: Place,
) -> Vec<Named> {
    let top = (0..COLUMNS * ROWS)
        .max_by(|a, b| terrain.height[*a].total_cmp(&terrain.height[*b]))
        .map(centre)
        .expect("the island has a summit");
    let second = (0..COLUMNS * ROWS)
        .filter(|p| distance(centre(*p), top) > 2_800.0)
        .max_by(|a, b| terrain.height[*a].total_cmp(&terrain.height[*b]))
        .map(centre)
        .expect("the island has a second hill");
    let middle_of = |beach: &Beach| beach.back[beach.back.len() / 2];
    let mut names = vec![
        Named { name: "Cold Ling Hill", kind: "hill", at: top },
        Named { name: "Tarrant Howe", kind: "hill", at: second },
        Named { name: "Lantern Point", kind: "headland", at: head },
        Named {
            name: "Vessel Nab",
            kind: "headland",
            at: inland_of(terrain, furthest(coast, -1.0, -0.1), 60.0),
        },
        Named {
            name: "Thrum Ness",
            kind: "headland",
            at: inland_of(terrain, furthest(coast, 1.0, 0.1), 60.0),
        },
        Named { name: "Oar Steps", kind: "landing", at: landing },
    ];
    names.extend(beaches[..2].iter().map(|b| Named { name: b.name, kind: "beach", at: middle_of(b) }));
    if let Some(stream) = streams.first() {
        names.push(Named {
            name: "Hob Foot",
            kind: "farm",
            at: offset(stream.line.0[stream.line.0.len() / 2], 130.0),
        });
    }
    names
}

fn offset(place: Place, by: f64) -> Place {
    Place { x: place.x + by, y: place.y + by * 0.6 }
}

/// A ring of stones on high ground: ground that the law of the island protects. It lies in the middle of a
/// two-kilometre square, away from the patches, so that what is shown more coarsely for its sake is little.
fn protect(terrain: &Terrain, walked: &[Walked]) -> Vec<(&'static str, Polygon<f64>)> {
    let square = |at: Place| ((at.x / 2_000.0).floor(), (at.y / 2_000.0).floor());
    let central = |metres: f64| (620.0..1_380.0).contains(&metres.rem_euclid(2_000.0));
    let ridge = (0..COLUMNS * ROWS)
        .filter(|p| terrain.main[*p] && terrain.inland[*p] > 500.0 && terrain.slope(*p) < 0.08)
        .filter(|p| central(centre(*p).x) && central(centre(*p).y))
        .filter(|p| {
            let here = square(centre(*p));
            walked.iter().all(|w| w.patch.is_none() || square(w.middle) != here)
                && walked.iter().all(|w| distance(w.middle, centre(*p)) > 200.0)
        })
        .max_by(|a, b| terrain.height[*a].total_cmp(&terrain.height[*b]))
        .map(centre)
        .expect("the island has high ground away from the patches");
    vec![("Whin Ring", oval(ridge, 150.0, 120.0, 0.3, 0.1, 12))]
}
