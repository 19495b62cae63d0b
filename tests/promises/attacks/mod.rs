//! The attack suite: twelve programs of an honest attacker. Each is first shown to beat a twin that does what a
//! careless program would do, the lower end of the 95% interval of its hits above chance; then it is held at chance on
//! the real code. The attacker has the packs, the public layers, the source and the settings.
//!
//! An attack that still comes off on the real code is written as the promise that it breaks, and ignored by name until
//! the code keeps it: `cargo test -- --ignored attacks` lists what is open.

mod companions;
mod densities;
mod histories;
mod lattice;
mod oracle;
mod rebuilding;
mod residue;
mod scatters;
mod sides;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use strew::exact::{Ledger, Register, Release};
use strew::fault::Result;
use strew::ground::{Ground, Partition};
use strew::study::{PublicStudy, Study};

use super::common::Silent;

/// A seeded generator.
fn seeded(seed: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(seed)
}

/// How often an attack came off.
#[derive(Clone, Copy, Default)]
struct Rate {
    hits: usize,
    of: usize,
}

impl Rate {
    fn add(&mut self, hit: bool) {
        self.hits += usize::from(hit);
        self.of += 1;
    }

    /// The 95% interval of the share (Wilson 1927, from memory).
    fn interval(self) -> (f64, f64) {
        assert!(self.of > 0, "nothing was tried");
        let (n, z) = (self.of as f64, 1.96_f64);
        let share = self.hits as f64 / n;
        let middle = share + z * z / (2.0 * n);
        let reach = z * (share * (1.0 - share) / n + z * z / (4.0 * n * n)).sqrt();
        let whole = 1.0 + z * z / n;
        (((middle - reach) / whole).max(0.0), ((middle + reach) / whole).min(1.0))
    }

    fn said(self) -> String {
        let (low, high) = self.interval();
        format!("{} of {} (95%: {low:.3} to {high:.3})", self.hits, self.of)
    }
}

/// Prints both rates, and holds them: the twin's above chance, the real one's at it. Where chance is nothing at all, not
/// one hit is let pass.
fn judge(attack: &str, chance: f64, twin: Rate, real: Rate) {
    println!("{attack}: chance {chance:.3}; twin {}; real {}", twin.said(), real.said());
    assert!(twin.interval().0 > chance, "{attack}: the attack is too weak to show anything: {}", twin.said());
    if chance == 0.0 {
        assert_eq!(real.hits, 0, "{attack}: {}", real.said());
    } else {
        assert!(real.interval().0 <= chance, "{attack} comes off: {}", real.said());
    }
}

/// A study in a folder of its own.
struct Bench {
    folder: tempfile::TempDir,
}

const HEAD: &str =
    "[study]\ntitle = \"A study to attack\"\ndate = 2026-10-01\n[register]\nfiles = [\"finds.csv\"]\n";

impl Bench {
    /// A study without ground: `rest` follows its title and register.
    fn bare(rest: &str) -> Self {
        let bench = Self { folder: tempfile::tempdir().unwrap() };
        bench.study(&format!("{HEAD}{rest}"));
        bench
    }

    fn study(&self, text: &str) {
        fs::write(self.path().join("study.toml"), text).unwrap();
        if !self.path().join("finds.csv").exists() {
            self.register("No,Class\n");
        }
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn file(&self) -> PathBuf {
        self.path().join("study.toml")
    }

    fn register(&self, text: &str) {
        fs::write(self.path().join("finds.csv"), text).unwrap();
    }

    fn open(&self, audience: &str) -> Open {
        let study = Study::load(&self.file()).unwrap();
        let public = study.audience(audience).unwrap().clone();
        let ground = Ground::read(&public, self.path()).unwrap();
        Open { study, public, ground }
    }
}

/// A study opened for one audience.
struct Open {
    study: Study,
    public: PublicStudy,
    ground: Ground,
}

impl Open {
    /// Today's register, released as if nothing had been told before.
    fn release(&self) -> Release {
        let partition = Partition::fix(&self.public, &self.ground).unwrap();
        Register::read(&self.study).unwrap().release(&self.public, &partition).unwrap()
    }

    /// Today's register, released as the commands do.
    fn remembering(&self) -> Result<Release> {
        let partition = Partition::fix(&self.public, &self.ground)?;
        let mut ledger = Ledger::open(&self.study.private)?;
        Register::read(&self.study)?.release_remembering(&self.public, &partition, &mut ledger)
    }

    /// Every file of the pack.
    fn pack(&self) -> BTreeMap<String, Vec<u8>> {
        let pack = strew::run::pack(&self.public, &self.ground, &self.release(), &Silent).unwrap();
        pack.files().clone()
    }
}

/// What a classifier of one threshold learnt: which figure, where it parts, and whether above it means yes.
struct Stump {
    figure: usize,
    at: f64,
    above: bool,
}

impl Stump {
    /// The figure and threshold that part the examples best; the first of several that do alike.
    fn learn(examples: &[(Vec<f64>, bool)]) -> Self {
        let figures = examples.iter().map(|(figures, _)| figures.len()).min().unwrap_or(0);
        let mut best = (0, Self { figure: 0, at: f64::INFINITY, above: true });
        for figure in 0..figures {
            let mut line: Vec<(f64, bool)> =
                examples.iter().map(|(figures, yes)| (figures[figure], *yes)).collect();
            line.sort_by(|a, b| a.0.total_cmp(&b.0));
            let all = line.iter().filter(|(_, yes)| *yes).count();
            let mut below = 0;
            for at in 0..line.len() - 1 {
                below += usize::from(line[at].1);
                if line[at].0 == line[at + 1].0 {
                    continue;
                }
                // Right where yes lies above, and where it lies below.
                let over = (at + 1 - below) + (all - below);
                for (right, above) in [(over, true), (line.len() - over, false)] {
                    if right > best.0 {
                        best = (right, Self { figure, at: f64::midpoint(line[at].0, line[at + 1].0), above });
                    }
                }
            }
        }
        best.1
    }

    fn says(&self, figures: &[f64]) -> bool {
        (figures.get(self.figure).copied().unwrap_or(0.0) > self.at) == self.above
    }

    /// Learnt on the first half of the examples, tried on the second.
    fn tried(examples: &[(Vec<f64>, bool)]) -> Rate {
        let (learnt, tried) = examples.split_at(examples.len() / 2);
        let stump = Self::learn(learnt);
        let mut rate = Rate::default();
        for (figures, yes) in tried {
            rate.add(stump.says(figures) == *yes);
        }
        rate
    }
}

/// The classifier learns what there is to learn, and nothing from noise.
#[test]
fn the_classifier_learns() {
    use rand::Rng;
    let mut random = seeded(1);
    let mut examples = |signal: bool| -> Vec<(Vec<f64>, bool)> {
        (0..2_000)
            .map(|index| {
                let yes = index % 2 == 0;
                let mut figures: Vec<f64> = (0..50).map(|_| random.random_range(0.0..1.0)).collect();
                if signal {
                    figures[17] += f64::from(u8::from(yes));
                }
                (figures, yes)
            })
            .collect()
    };
    let (with, without) = (Stump::tried(&examples(true)), Stump::tried(&examples(false)));
    assert_eq!(with.hits, with.of);
    assert!(without.hits.abs_diff(without.of / 2) < without.of / 16, "{}", without.said());
}
