//! One binary and nothing else: run where there is no library, no data file, no environment.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use super::common::{copy, demo, said};

/// Runs `/strew` with `folder` as the whole file system and an empty environment. As root by `chroot`; as
/// anyone else in a user namespace of its own.
fn run_alone(folder: &Path, arguments: &[&str]) -> Output {
    let me = Command::new("id").arg("-u").output().unwrap();
    let root = String::from_utf8_lossy(&me.stdout).trim() == "0";
    let mut command = if root {
        Command::new("chroot")
    } else {
        let mut command = Command::new("unshare");
        command.args(["--user", "--map-root-user", "chroot"]);
        command
    };
    let path = std::env::var("PATH").unwrap_or_default();
    command
        .arg(folder)
        .arg("/strew")
        .args(arguments)
        .env_clear()
        .env("PATH", format!("{path}:/usr/sbin:/sbin"));
    command.output().expect("chroot runs")
}

/// An empty folder with the binary in it.
fn binary_alone() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::copy(env!("CARGO_BIN_EXE_strew"), folder.path().join("strew")).unwrap();
    folder
}

#[test]
fn the_binary_needs_no_library() {
    let output = Command::new("ldd").arg(env!("CARGO_BIN_EXE_strew")).output().unwrap();
    let words =
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    assert!(words.contains("statically linked") || words.contains("not a dynamic executable"), "{words}");
}

#[test]
fn it_converts_alone() {
    let folder = binary_alone();
    // Caister Water Tower, Ordnance Survey, A guide to coordinate systems in Great Britain (OSTN15).
    let output =
        run_alone(folder.path(), &["convert", "52.658007833, 1.716073973", "--to", "british-grid", "--json"]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    let line: serde_json::Value = serde_json::from_str(out.trim()).unwrap();
    assert!((line["easting"].as_f64().unwrap() - 651_409.804).abs() < 0.001, "{out}");
    assert!((line["northing"].as_f64().unwrap() - 313_177.450).abs() < 0.001, "{out}");
    // And through PROJ's own database, which travels inside.
    let output = run_alone(folder.path(), &["convert", "48.8582, 2.2945", "--to", "lambert-93", "--json"]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
}

#[test]
fn it_reports_alone() {
    let folder = binary_alone();
    copy(demo().parent().unwrap(), &folder.path().join("study"));
    let output = run_alone(folder.path(), &["report", "/study/study.toml", "--out", "/pack"]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    for file in
        ["report.html", "MANIFEST.json", "maps/finds-by-cell.png", "layers/strew.gpkg", "layers/density.tif"]
    {
        assert!(folder.path().join("pack").join(file).is_file(), "{file} is missing");
    }
}
