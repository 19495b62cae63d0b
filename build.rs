//! Packs the Ordnance Survey's OSTN15 shifts into a small file that the binary carries.
//!
//! The table comes as a perfect-hash map that makes a binary of 30 MB when linked. Here its east and
//! north shifts are written in whole millimetres (as published), row by row from the south-west, each
//! as the difference from its western neighbour, zigzag and variable length, then deflated: 0.5 MB.
//! `src/coordinates/ostn15.rs` reads it back.
//!
//! Likewise the notices of what is inside the binary, which `src/run/licences.rs` reads back.

use std::io::Write;
use std::path::PathBuf;

/// Nodes of the published table, a kilometre apart, from (0, 0) to (700, 1250) km.
const COLUMNS: i32 = 701;
const ROWS: i32 = 1251;

// Its one file goes to the compiler, never to a person: pack/ has no part in it.
#[allow(clippy::disallowed_methods)]
fn main() -> std::io::Result<()> {
    println!("cargo::rerun-if-changed=build.rs");
    let mut plain = Vec::new();
    let (mut east, mut north) = (Vec::new(), Vec::new());
    for row in 0..ROWS {
        let (mut last_east, mut last_north) = (0, 0);
        for column in 0..COLUMNS {
            let key = column + row * COLUMNS + 1;
            let (e, n, _) = ostn15_phf::ostn15_lookup(&key)
                .ok_or_else(|| std::io::Error::other(format!("OSTN15 lacks its node {key}")))?;
            let (e, n) = ((e * 1000.0).round() as i32, (n * 1000.0).round() as i32);
            variable(&mut east, e - last_east);
            variable(&mut north, n - last_north);
            (last_east, last_north) = (e, n);
        }
    }
    plain.append(&mut east);
    plain.append(&mut north);
    pack("ostn15.bin", &plain)?;
    for name in ["crates", "libraries", "fonts"] {
        let path = format!("docs/licences/{name}.txt");
        println!("cargo::rerun-if-changed={path}");
        pack(&format!("{name}.bin"), &std::fs::read(path)?)?;
    }
    Ok(())
}

/// Deflates bytes into a file for the compiler.
#[allow(clippy::disallowed_methods)]
fn pack(name: &str, plain: &[u8]) -> std::io::Result<()> {
    let mut packed = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
    packed.write_all(plain)?;
    let folder = std::env::var_os("OUT_DIR").map(PathBuf::from).unwrap_or_default();
    std::fs::write(folder.join(name), packed.finish()?)
}

/// Zigzag (small numbers of either sign become small), then seven bits a byte, lowest first.
fn variable(to: &mut Vec<u8>, value: i32) {
    let mut zigzag = ((value << 1) ^ (value >> 31)) as u32;
    while zigzag >= 0x80 {
        to.push(zigzag as u8 | 0x80);
        zigzag >>= 7;
    }
    to.push(zigzag as u8);
}
