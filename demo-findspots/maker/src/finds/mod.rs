//! The finds, and the three registers that different hands keep of them.

mod dating;
mod faults;
mod french;
mod phone;
mod pieces;
mod place;
mod plan;
mod society;
mod society_faults;

use rand::SeedableRng;
use rand_chacha::ChaCha12Rng;

pub use faults::Fault;
pub use pieces::Find;

use crate::island::Island;
use crate::walks::Keeper;
use crate::write::geojson::Degrees;

/// A register as written: file name, bytes, and the faults planted in it with their rows.
pub struct Written {
    pub name: &'static str,
    pub bytes: Vec<u8>,
    pub faults: Vec<Fault>,
}

/// Invents the finds and writes the three registers.
pub fn registers(
    island: &Island,
    degrees: &Degrees,
    seed: u64,
) -> Result<Vec<Written>, Box<dyn std::error::Error>> {
    let mut rng = ChaCha12Rng::seed_from_u64(seed);
    let finds = pieces::finds(island, &mut rng);
    let of = |keeper: Keeper| -> Vec<Find> {
        let mut own: Vec<Find> = finds.iter().filter(|find| find.keeper == keeper).cloned().collect();
        own.sort_by_key(|find| (find.day, find.ground));
        own
    };
    Ok(vec![
        society::write(island, of(Keeper::Society), &mut rng)?,
        phone::write(island, degrees, of(Keeper::Phone), &mut rng)?,
        french::write(island, of(Keeper::Visitor), &mut rng)?,
    ])
}
