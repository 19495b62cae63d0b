//! The wall: what cannot be done with an exact place does not compile. Each case has a twin that differs
//! in one thing and compiles, so that a case cannot fail for another reason.

use std::path::PathBuf;
use std::process::Command;

/// Everything that `exact` offers to the rest.
pub const OFFERED: &[&str] = &[
    "Betrayed",
    "CellSummary",
    "Details",
    "Doubt",
    "Field",
    "Figure",
    "FileShape",
    "Guess",
    "Hunt",
    "Ledger",
    "Matter",
    "OwnWord",
    "Private",
    "Problem",
    "Problems",
    "Publication",
    "Published",
    "Reason",
    "Register",
    "Release",
    "ReleasedFind",
    "ReleasedPlace",
    "RowState",
    "Tally",
    "band",
    "guess",
];

/// The library as built for these tests, found beside the running test.
fn library() -> (PathBuf, PathBuf) {
    let deps = std::env::current_exe().unwrap().parent().unwrap().to_path_buf();
    let mut built: Vec<_> = std::fs::read_dir(&deps)
        .unwrap()
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| {
            let name = path.file_name().unwrap().to_string_lossy();
            name.starts_with("libstrew-") && name.ends_with(".rlib")
        })
        .collect();
    // Older builds can lie beside it: the newest is that of this test.
    built.sort_by_key(|path| std::fs::metadata(path).unwrap().modified().unwrap());
    (built.pop().expect("the library was built for this test"), deps)
}

/// Compiles a program against the library; the compiler's words when it refuses.
fn compile(body: &str) -> Result<(), String> {
    let (library, deps) = library();
    let folder = tempfile::tempdir().unwrap();
    let source = folder.path().join("case.rs");
    std::fs::write(&source, format!("#![allow(unused)]\n{body}\n")).unwrap();
    let output = Command::new(std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned()))
        .args([
            "--edition",
            "2024",
            "--crate-type",
            "lib",
            "--emit",
            "metadata",
            "-C",
            "target-feature=+crt-static",
        ])
        .arg("--extern")
        .arg(format!("strew={}", library.display()))
        .arg("-L")
        .arg(format!("dependency={}", deps.display()))
        .arg("-L")
        .arg(format!("dependency={}", deps.parent().unwrap().join("deps").display()))
        // Proc-macros and what they need are built for the host, beside the target's own folder.
        .arg("-L")
        .arg(format!("dependency={}", host_deps().display()))
        .arg("--out-dir")
        .arg(folder.path())
        .arg(&source)
        .output()
        .expect("rustc runs");
    if output.status.success() { Ok(()) } else { Err(String::from_utf8_lossy(&output.stderr).into_owned()) }
}

/// Where cargo puts what is built for the host: `target/release/deps`, two folders above the target's own.
fn host_deps() -> PathBuf {
    let deps = std::env::current_exe().unwrap().parent().unwrap().to_path_buf();
    let profile = deps.parent().unwrap();
    let target = profile.parent().and_then(|triple| triple.parent());
    target.map_or_else(|| deps.clone(), |target| target.join(profile.file_name().unwrap()).join("deps"))
}

/// `refused` does not compile, for the reason given; `twin` does.
fn refuses(refused: &str, reason: &str, twin: &str) {
    if let Err(words) = compile(twin) {
        panic!("the twin does not compile:\n{twin}\n{words}");
    }
    match compile(refused) {
        Ok(()) => panic!("this compiles and must not:\n{refused}"),
        Err(words) => {
            assert!(words.contains(reason), "refused, but for another reason than {reason}:\n{words}")
        }
    }
}

#[test]
fn the_register_keeps_its_finds() {
    refuses(
        "fn f(r: &strew::exact::Register) { let _ = &r.finds; }",
        "E0616",
        "fn f(r: &strew::exact::Register) { let _ = r.tally(); }",
    );
}

#[test]
fn the_exact_find_has_no_name_outside() {
    refuses("use strew::exact::find::ExactFind;", "E0603", "use strew::exact::ReleasedFind;");
    refuses("use strew::exact::ExactPlace;", "E0603", "use strew::exact::ReleasedPlace;");
}

#[test]
fn private_things_have_one_way_out() {
    refuses(
        "fn f(p: &strew::exact::Private<u8>) -> u8 { p.0 }",
        "E0616",
        "fn f(p: &strew::exact::Private<u8>) -> u8 { *p.show_owner() }",
    );
    refuses(
        "fn f(p: &strew::exact::Private<u8>) -> u8 { **p }",
        "E0614",
        "fn f(p: &strew::exact::Private<u8>) -> u8 { *p.show_owner() }",
    );
    refuses(
        "fn f() { let _ = strew::exact::Private::<u8>::new(1); }",
        "E0624",
        "fn f(p: strew::exact::Private<u8>) { let _ = p; }",
    );
}

#[test]
fn private_things_are_not_shown_ordered_or_written() {
    for (bound, allowed) in [
        ("std::fmt::Display", "std::fmt::Debug"),
        ("Ord", "Sized"),
        ("std::hash::Hash", "Sized"),
        ("std::ops::Deref", "Sized"),
        ("Clone", "Sized"),
    ] {
        refuses(
            &format!("fn is<T: {bound}>() {{}} fn f() {{ is::<strew::exact::Private<u8>>() }}"),
            "E0277",
            &format!("fn is<T: {allowed}>() {{}} fn f() {{ is::<strew::exact::Private<u8>>() }}"),
        );
    }
}

#[test]
fn the_register_is_not_written_printed_ordered_or_hashed() {
    for bound in ["std::fmt::Display", "std::fmt::Debug", "Ord", "std::hash::Hash", "std::ops::Deref"] {
        refuses(
            &format!("fn is<T: {bound}>() {{}} fn f() {{ is::<strew::exact::Register>() }}"),
            "E0277",
            "fn is<T>() {} fn f() { is::<strew::exact::Register>() }",
        );
    }
}

#[test]
fn nobody_makes_published_finds_but_publish() {
    refuses(
        "fn f(p: strew::exact::Published) -> strew::exact::Published { strew::exact::Published { ..p } }",
        "E0451",
        "fn f(p: strew::exact::Published) -> strew::exact::Published { p }",
    );
}

#[test]
fn analysis_takes_published_finds_and_no_register() {
    refuses(
        "fn f(r: &strew::exact::Register, s: &strew::study::PublicStudy, g: &strew::ground::Ground) { \
         let _ = strew::analyse::density(r, s, g); }",
        "E0308",
        "fn f(r: &strew::exact::Published, s: &strew::study::PublicStudy, g: &strew::ground::Ground) { \
         let _ = strew::analyse::density(r, s, g); }",
    );
}

#[test]
fn an_audience_takes_the_public_study_alone() {
    refuses(
        "fn f(s: &strew::study::PrivateStudy, g: &strew::ground::Ground) { let _ = strew::ground::Partition::fix(s, g); }",
        "E0308",
        "fn f(s: &strew::study::PublicStudy, g: &strew::ground::Ground) { let _ = strew::ground::Partition::fix(s, g); }",
    );
}

#[test]
fn what_is_withheld_says_so() {
    // `Debug` of private things never shows what is inside.
    let code = std::fs::read_to_string(super::common::root().join("src/exact/find.rs")).unwrap();
    let derived = regex::Regex::new(
        r"#\[derive\(([^)]*)\)\]\s*pub struct (ExactFind|More)|#\[derive\(([^)]*)\)\]\s*pub enum ExactPlace",
    )
    .unwrap();
    let mut seen = 0;
    for found in derived.captures_iter(&code) {
        seen += 1;
        let list = found.get(1).or(found.get(3)).unwrap().as_str();
        for banned in ["Debug", "Serialize", "Display", "Ord", "Hash", "Deref"] {
            assert!(!list.contains(banned), "an exact type derives {banned}");
        }
    }
    assert_eq!(seen, 3);
    assert_eq!(code.matches("f.write_str(\"withheld\")").count(), 3);
}
