//! Sealing: a sealed submission opens for its recipient and nobody else, tells little by its size, and nothing of
//! it meets the disk unsealed. Opened here by another's library of the age v1 format (pyrage).

use std::collections::BTreeSet;
use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::time::Duration;

use strew::pack::size_for;

use super::common::{files, forget, python, root, said, strew};

const WORDS: &str = "gannet anvil thimble ostler brine";

/// A study with a register of `finds` rows, in a folder of its own.
fn study(finds: usize, more: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let text = format!(
        "[study]\ntitle = \"Flint of Nowhere\"\n[register]\nfiles = [\"finds.csv\"]\n\
         [agreement.public]\nprecision = \"1 km\"\n[agreement.office]\nprecision = \"10 m\"\n{more}"
    );
    fs::write(folder.path().join("study.toml"), text).unwrap();
    let rows: String = (0..finds).map(|n| format!("{n},OV 52{n:03} 41733,flake,J. Petrel\n")).collect();
    fs::write(folder.path().join("finds.csv"), format!("No,Grid ref,Class,Found by\n{rows}")).unwrap();
    folder
}

fn submit(folder: &Path, arguments: &[&str]) -> Output {
    let study = folder.join("study.toml");
    let mut all = vec!["submit", study.to_str().unwrap()];
    all.extend(arguments);
    strew(&all).current_dir(folder).output().unwrap()
}

fn script(arguments: &[&str]) -> Output {
    Command::new(python()).arg(root().join("tests/reference/sealing.py")).args(arguments).output().unwrap()
}

/// A secret key and the key that belongs to it.
fn keys() -> (String, String) {
    let (out, err) = said(&script(&["keys"]));
    let mut lines = out.lines().map(str::to_owned);
    (lines.next().unwrap_or_else(|| panic!("{err}")), lines.next().unwrap())
}

/// Opens a sealed file; the length of what is inside, and the folder that it was unpacked into.
fn open(file: &Path, kind: &str, secret: &str) -> Option<(u64, tempfile::TempDir)> {
    let out = tempfile::tempdir().unwrap();
    let done = script(&["open", file.to_str().unwrap(), kind, secret, out.path().to_str().unwrap()]);
    let (length, err) = said(&done);
    match done.status.code() {
        Some(0) => Some((length.trim().parse().unwrap(), out)),
        Some(4) => None,
        _ => panic!("{err}"),
    }
}

#[test]
fn a_sealed_submission_opens_for_its_recipients_alone() {
    let folder = study(40, "");
    let (first, second, other) = (keys(), keys(), keys());
    let list = format!("# the office\n\n{}\n", second.1);
    fs::write(folder.path().join("office.keys"), list).unwrap();
    let done = submit(folder.path(), &["--seal-to", &first.1, "office.keys"]);
    assert!(done.status.success(), "{}", said(&done).1);
    assert!(said(&done).1.contains("age-encryption.org/v1"), "the sender is told what to say");
    let sealed = folder.path().join("office-submission.zip.age");
    assert_eq!(fs::metadata(&sealed).unwrap().permissions().mode() & 0o777, 0o600);
    forget(folder.path());
    assert!(submit(folder.path(), &["--out", "plain"]).status.success());
    for secret in [&first.0, &second.0] {
        let (length, opened) = open(&sealed, "--key", secret).expect("it opens");
        assert_eq!(length, size_for(length), "filled up to one of the sizes");
        let inside = opened.path().join("submission");
        let plain = folder.path().join("plain");
        for file in files(&plain) {
            assert!(
                fs::read(plain.join(&file)).unwrap() == fs::read(inside.join(&file)).unwrap(),
                "{file:?}"
            );
        }
        let more: Vec<PathBuf> =
            files(&inside).into_iter().filter(|file| !plain.join(file).exists()).collect();
        assert_eq!(more, [Path::new("SEALED.txt"), Path::new("padding.bin")]);
        assert!(fs::read(inside.join("padding.bin")).unwrap().iter().all(|byte| *byte == 0));
    }
    assert!(open(&sealed, "--key", &other.0).is_none(), "another key does not open it");
    assert!(open(&sealed, "--words", WORDS).is_none());
    // A byte changed on the way is noticed.
    let mut bytes = fs::read(&sealed).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&sealed, bytes).unwrap();
    assert!(open(&sealed, "--key", &first.0).is_none());
}

#[test]
fn a_passphrase_comes_from_a_file_or_from_the_terminal_without_being_shown() {
    let folder = study(5, "");
    fs::write(folder.path().join("words"), format!("{WORDS}\nanother line\n")).unwrap();
    let done = submit(folder.path(), &["--passphrase-file", "words", "--json"]);
    assert!(done.status.success(), "{}", said(&done).1);
    let told: serde_json::Value = serde_json::from_str(&said(&done).0).unwrap();
    assert!(told["sealed_to_keys"].is_null() && told["file"].is_string());
    let sealed = folder.path().join("office-submission.zip.age");
    assert!(open(&sealed, "--words", WORDS).is_some());
    assert!(open(&sealed, "--words", "gannet anvil thimble ostler").is_none());
    fs::remove_file(&sealed).unwrap();
    let study = folder.path().join("study.toml");
    let program = env!("CARGO_BIN_EXE_strew");
    let typed = |again: &str| {
        script(&["type", WORDS, again, program, "submit", study.to_str().unwrap(), "--passphrase"])
    };
    let done = typed("something else altogether");
    assert_eq!(done.status.code(), Some(1));
    assert!(said(&done).0.contains("the two passphrases differ"), "{}", said(&done).0);
    assert!(!sealed.exists());
    let done = typed(WORDS);
    assert_eq!(done.status.code(), Some(0), "{}", said(&done).0);
    assert!(!said(&done).0.contains("gannet"), "what is typed is not shown");
    assert!(open(&sealed, "--words", WORDS).is_some());
}

#[test]
fn sealed_bytes_differ_and_their_number_tells_little() {
    let (secret, key) = keys();
    let mut sizes = BTreeSet::new();
    for finds in [30, 31, 33] {
        let folder = study(finds, "");
        let out = folder.path().join("a.age");
        assert!(submit(folder.path(), &["--seal-to", &key, "--out", "a.age"]).status.success());
        forget(folder.path());
        assert!(submit(folder.path(), &["--seal-to", &key, "--out", "b.age"]).status.success());
        let (one, two) = (fs::read(&out).unwrap(), fs::read(folder.path().join("b.age")).unwrap());
        assert!(one != two, "a fresh key each time");
        // The library adds some bytes by chance before the sealed part, as the format allows.
        assert!(one.len().abs_diff(two.len()) < 1024, "{} and {}", one.len(), two.len());
        let mut inside = |file: &Path| {
            let (length, opened) = open(file, "--key", &secret).unwrap();
            sizes.insert(length);
            let all = files(opened.path());
            all.iter().map(|file| fs::read(opened.path().join(file)).unwrap()).collect::<Vec<_>>()
        };
        assert!(inside(&out) == inside(&folder.path().join("b.age")), "the same inside");
    }
    assert_eq!(sizes.len(), 1, "a find more or less does not show: {sizes:?}");
}

#[test]
fn sealing_is_a_choice_and_the_study_file_may_make_it() {
    let (secret, key) = keys();
    let folder = study(3, &format!("seal_to = \"{key}\"\n"));
    assert!(submit(folder.path(), &[]).status.success());
    let sealed = folder.path().join("office-submission.zip.age");
    assert!(open(&sealed, "--key", &secret).is_some());
    assert!(!folder.path().join("office-submission").exists());
    assert!(submit(folder.path(), &["--unsealed"]).status.success());
    assert!(folder.path().join("office-submission/finds.csv").exists());
    let again = said(&submit(folder.path(), &[])).1;
    assert!(again.contains("A submission that is not sealed lies at"), "{again}");
    assert!(submit(study(3, "").path(), &[]).status.success(), "and is never the default");
    let public = study(
        3,
        &format!("[agreement.all]\nprecision = \"1 km\"\npublication = true\nseal_to = [\"{key}\"]\n"),
    );
    let done = submit(public.path(), &[]);
    assert!(said(&done).1.contains("agreement.all.seal_to"), "{}", said(&done).1);
}

#[test]
fn what_cannot_be_sealed_to_is_refused_with_what_to_do() {
    let folder = study(3, "");
    let (secret, key) = keys();
    fs::write(folder.path().join("mixed"), format!("{key}\nage1nonsense\n")).unwrap();
    fs::write(folder.path().join("secret"), format!("{secret}\n")).unwrap();
    fs::write(folder.path().join("empty"), "# nobody\n").unwrap();
    fs::write(folder.path().join("short"), "open sesame\n").unwrap();
    fs::create_dir(folder.path().join("full")).unwrap();
    let cases: [(&[&str], &str); 10] = [
        (&["--seal-to", "age1nonsense"], "is no key to seal to"),
        (&["--seal-to", "ssh-ed25519 AAAA"], "is no key to seal to"),
        (&["--seal-to", &secret], "this is a secret key"),
        (&["--seal-to", "secret"], "secret, row 1: this is a secret key"),
        (&["--seal-to", "mixed"], "mixed, row 2: \"age1nonsense\""),
        (&["--seal-to", "empty"], "empty: no key to seal to"),
        (&["--seal-to", "nowhere"], "nowhere cannot be read"),
        (&["--passphrase-file", "short"], "fewer than 16 characters"),
        (&["--passphrase"], "there is no terminal"),
        (&["--seal-to", &key, "--out", "full"], "is a folder, and a sealed submission is one file"),
    ];
    for (arguments, words) in cases {
        let done = submit(folder.path(), arguments);
        let (out, err) = said(&done);
        assert_eq!(done.status.code(), Some(1), "{arguments:?}: {err}");
        assert!(err.contains(words), "{arguments:?}: {err}");
        assert!(err.lines().count() >= 2, "with a hint: {err}");
        assert!(!(out + &err).contains(&secret), "a secret key is not repeated");
    }
    assert_eq!(submit(folder.path(), &["--seal-to", &key, "--passphrase"]).status.code(), Some(2));
    let left: Vec<PathBuf> = files(folder.path());
    assert!(!left.iter().any(|file| file.to_string_lossy().contains("submission")), "{left:?}");
}

/// Every file that the run opens for writing, makes or renames, by the system calls themselves.
#[test]
fn only_the_sealed_file_reaches_the_disk() {
    let (_, key) = keys();
    let folder = study(40, "");
    let (elsewhere, log) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let log = log.path().join("calls");
    let study = folder.path().join("study.toml");
    let done = Command::new("strace")
        .args(["-f", "-qq", "-y", "-e", "trace=open,openat,openat2,creat,mkdir,mkdirat,rename,renameat,renameat2,link,linkat,symlink,symlinkat,mknod,mknodat,memfd_create,truncate"])
        .args(["-o", log.to_str().unwrap(), env!("CARGO_BIN_EXE_strew")])
        .args(["submit", study.to_str().unwrap(), "--seal-to", &key])
        .env("TMPDIR", elsewhere.path())
        .env("HOME", elsewhere.path())
        .output()
        .expect("strace is missing: run make test-tools");
    assert!(done.status.success(), "{}", said(&done).1);
    let calls = fs::read_to_string(&log).unwrap();
    assert!(calls.contains("finds.csv"), "the register is read in sight of the trace");
    let writing = regex::Regex::new(
        r"O_(?:WRONLY|RDWR|CREAT|TMPFILE)|\b(?:creat|mkdir|mkdirat|rename\w*|link\w*|symlink\w*|mknod\w*|memfd_create|truncate)\(",
    )
    .unwrap();
    let hidden = format!("{}/.strew-", folder.path().display());
    let mut made = 0;
    for call in calls.lines().filter(|call| writing.is_match(call)) {
        // Calls that failed changed nothing; terminals and null are no disk.
        if call.contains(" = -1 ") || call.contains("\"/dev/null\"") || call.contains("\"/dev/tty\"") {
            continue;
        }
        // The private ledger is the owner's own, and is written before anything is given.
        if call.contains("/ledger") {
            continue;
        }
        assert!(call.contains(&hidden), "something else is written: {call}");
        made += 1;
    }
    assert!(made >= 2, "made under another name and put in place: {calls}");
    assert!(files(elsewhere.path()).is_empty(), "nothing in the folders for temporary files");
    let mut left: Vec<PathBuf> = files(folder.path());
    left.retain(|file| !file.to_string_lossy().starts_with("ledger"));
    left.sort();
    assert_eq!(left, ["finds.csv", "office-submission.zip.age", "study.toml"].map(PathBuf::from));
}

#[test]
fn a_killed_run_leaves_nothing_unsealed() {
    let (_, key) = keys();
    let folder = study(300, "");
    let elsewhere = tempfile::tempdir().unwrap();
    let start = || {
        strew(&["submit", "study.toml", "--seal-to", &key, "-q"])
            .current_dir(folder.path())
            .env("TMPDIR", elsewhere.path())
            .env("HOME", elsewhere.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap()
    };
    let before = std::time::Instant::now();
    assert!(start().wait().unwrap().success());
    let mut whole = before.elapsed();
    fs::remove_file(folder.path().join("office-submission.zip.age")).unwrap();
    let mut killed = 0;
    // Most of the kills at the end, where the sealing and the writing are.
    for share in [5, 20, 40, 60, 75, 85, 90, 93, 95, 97, 98, 99, 100, 101, 103] {
        let mut run = start();
        let began = std::time::Instant::now();
        while began.elapsed() < whole * share / 100 {
            std::thread::sleep(Duration::from_millis(2));
            if run.try_wait().unwrap().is_some() {
                // Other work on the machine slowed the run that was timed.
                whole = began.elapsed();
                break;
            }
        }
        run.kill().unwrap();
        killed += u32::from(!run.wait().unwrap().success());
        assert!(files(elsewhere.path()).is_empty(), "nothing in the folders for temporary files");
        for file in files(folder.path()) {
            let name = file.to_string_lossy().into_owned();
            if matches!(name.as_str(), "study.toml" | "finds.csv") || name.starts_with("ledger") {
                continue;
            }
            let bytes = fs::read(folder.path().join(&file)).unwrap();
            let sealed = bytes.starts_with(b"age-encryption.org/v1\n-> X25519 ");
            assert!(bytes.is_empty() || sealed, "{name} is not sealed");
            assert_eq!(fs::metadata(folder.path().join(&file)).unwrap().permissions().mode() & 0o077, 0);
            fs::remove_file(folder.path().join(&file)).unwrap();
        }
    }
    assert!(killed >= 5, "{killed} of 15 runs were killed before their end");
}
