//! Which squares belong to concentrations at all, and the patches that they make.

use super::field::{Field, Lattice};

/// The squares of highest density over their ground that together hold `share` of the mass: the smallest
/// ground that does, a highest-density region (Hyndman 1996, The American Statistician 50: 120–126). Squares
/// as dense as the last one are all taken.
pub(super) fn densest(field: &Field, share: f64) -> Vec<bool> {
    let mut order: Vec<usize> = (0..field.lattice.len()).filter(|at| field.mass(*at) > 0.0).collect();
    order.sort_by(|a, b| field.density[*b].total_cmp(&field.density[*a]).then(a.cmp(b)));
    let wanted = share * order.iter().map(|at| field.mass(*at)).sum::<f64>();
    let mut held = 0.0;
    let mut level = f64::INFINITY;
    for at in order {
        if held >= wanted {
            break;
        }
        held += field.mass(at);
        level = field.density[at];
    }
    // A hair of tolerance, so that squares alike by symmetry are treated alike.
    let level = level * (1.0 - 1e-9);
    field.density.iter().map(|density| *density > 0.0 && *density >= level).collect()
}

/// Parts the squares of a region into pieces that hang together by their sides and drain to one peak. In
/// order of their first square; each piece in order of index.
pub(super) fn patches(lattice: &Lattice, region: &[bool], peaks: &[Option<usize>]) -> Vec<Vec<usize>> {
    let mut left = region.to_vec();
    let mut patches = Vec::new();
    for first in 0..left.len() {
        if !std::mem::take(&mut left[first]) {
            continue;
        }
        let mut patch = vec![first];
        let mut waiting = vec![first];
        while let Some(at) = waiting.pop() {
            for (next, _) in lattice.neighbours(at, false) {
                if left[next] && peaks[next] == peaks[first] {
                    left[next] = false;
                    patch.push(next);
                    waiting.push(next);
                }
            }
        }
        patch.sort_unstable();
        patches.push(patch);
    }
    patches
}

#[cfg(test)]
mod tests {
    use rand::{Rng, SeedableRng};
    use rand_chacha::ChaCha8Rng;

    use super::{Field, Lattice, densest, patches};

    fn row(density: &[f64], ground_ha: &[f64]) -> Field {
        let lattice = Lattice { side_m: 100, west: 0, south: 0, columns: density.len(), rows: 1 };
        Field { lattice, density: density.to_vec(), ground_ha: ground_ha.to_vec() }
    }

    fn taken(region: &[bool]) -> Vec<usize> {
        (0..region.len()).filter(|at| region[*at]).collect()
    }

    #[test]
    fn the_densest_squares_by_hand() {
        // Densities 10, 8, 4, 1 pieces a hectare, 19 pieces less 4: the second has half a hectare of ground.
        let field = row(&[10.0, 8.0, 4.0, 1.0], &[1.0, 0.5, 1.0, 1.0]);
        let names = |share| taken(&densest(&field, share));
        assert_eq!(names(0.5), [0]);
        assert_eq!(names(0.6), [0, 1]);
        assert_eq!(names(0.9), [0, 1, 2]);
        assert_eq!(names(0.999), [0, 1, 2, 3]);
    }

    /// Against the definition: the level is the greatest whose squares hold the share.
    #[test]
    fn the_region_is_the_smallest_by_trying_every_level() {
        for seed in 0..100 {
            let mut random = ChaCha8Rng::seed_from_u64(seed);
            let density: Vec<f64> = (0..40).map(|_| f64::from(random.random_range(0..30u32))).collect();
            let ground: Vec<f64> = (0..40).map(|_| random.random_range(0.01..1.0)).collect();
            let field = row(&density, &ground);
            let total: f64 = (0..40).map(|at| field.mass(at)).sum();
            for share in [0.5, 0.75, 0.9] {
                let held = |level: f64| -> f64 {
                    (0..40).filter(|at| density[*at] >= level).map(|at| field.mass(at)).sum()
                };
                let level = (1..30).rev().map(f64::from).find(|l| held(*l) >= share * total - 1e-9);
                let slow: Vec<usize> = (0..40).filter(|at| density[*at] >= level.unwrap()).collect();
                assert_eq!(taken(&densest(&field, share)), slow, "seed {seed}");
            }
        }
    }

    #[test]
    fn corners_do_not_join_and_peaks_part() {
        let lattice = Lattice { side_m: 100, west: 0, south: 0, columns: 3, rows: 2 };
        let region = [true, true, false, false, false, true];
        let one = vec![Some(0); 6];
        assert_eq!(patches(&lattice, &region, &one), [vec![0, 1], vec![5]]);
        let two = [Some(0), Some(1), Some(1), Some(0), Some(1), Some(1)];
        assert_eq!(patches(&lattice, &[true; 6], &two), [vec![0, 3], vec![1, 2, 4, 5]]);
    }
}
