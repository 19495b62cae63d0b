//! A pack on disk: whole or not at all, and nothing of anybody else's touched.

use std::fs;
use std::path::PathBuf;
use strew::pack::{Pack, Readers};

use super::pack_made::{office, public};

#[test]
fn a_folder_of_somebody_elses_is_refused_and_left_as_it_was() {
    let place = tempfile::tempdir().unwrap();
    let target = place.path().join("public");
    let pack = public("en");
    fs::create_dir(&target).unwrap();
    fs::write(target.join("notes.txt"), "mine").unwrap();
    let fault = pack.write(&target).unwrap_err();
    assert_eq!(fault.id, "pack-folder-foreign");
    assert_eq!(fs::read_to_string(target.join("notes.txt")).unwrap(), "mine");
    // Nor is a manifest of another program's a licence to remove what it lies with.
    fs::write(target.join("MANIFEST.json"), "{\"made_by\": {\"program\": \"other\"}, \"files\": []}")
        .unwrap();
    assert_eq!(pack.write(&target).unwrap_err().id, "pack-folder-foreign");
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1, "nothing is left behind");
    let file = place.path().join("file");
    fs::write(&file, "x").unwrap();
    assert_eq!(pack.write(&file).unwrap_err().id, "pack-folder-is-file");
}

#[test]
fn an_earlier_pack_is_replaced_whole() {
    let place = tempfile::tempdir().unwrap();
    let target = place.path().join("new/public");
    public("fr").write(&target).unwrap();
    let pack = public("en");
    pack.write(&target).unwrap();
    let written = super::common::files(&target);
    assert_eq!(written.len(), pack.files().len());
    for path in written {
        let name = path.to_string_lossy().replace('\\', "/");
        assert!(fs::read(target.join(&path)).unwrap() == pack.files()[&name]);
    }
    assert_eq!(fs::read_dir(target.parent().unwrap()).unwrap().count(), 1, "nothing is left behind");
    // Something that a person put there is not thrown away with the old pack.
    fs::write(target.join("notes.txt"), "mine").unwrap();
    assert_eq!(pack.write(&target).unwrap_err().id, "pack-folder-additions");
    assert!(target.join("notes.txt").exists() && target.join("report.html").exists());
}

#[test]
fn a_fault_on_the_way_leaves_nothing_behind() {
    let place = tempfile::tempdir().unwrap();
    let mut pack = Pack::default();
    pack.add("a", "file");
    pack.add("a/b", "a file inside a file");
    assert_eq!(pack.write(&place.path().join("new/pack")).unwrap_err().id, "pack-not-written");
    let mut pack = Pack::default();
    pack.add("../outside", "elsewhere");
    assert_eq!(pack.write(&place.path().join("pack")).unwrap_err().id, "pack-path");
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 0, "nothing is left behind");
    // An earlier pack stays when the new one cannot be written.
    public("en").write(&place.path().join("pack")).unwrap();
    assert!(pack.write(&place.path().join("pack")).is_err());
    assert!(place.path().join("pack/report.html").exists());
}

#[cfg(unix)]
#[test]
fn a_pack_not_for_publication_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let place = tempfile::tempdir().unwrap();
    let mode = |path: PathBuf| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    public("en").write(&place.path().join("public")).unwrap();
    assert_eq!(mode(place.path().join("public")), 0o755);
    assert_eq!(mode(place.path().join("public/layers/cells.kml")), 0o644);
    office("en").write(&place.path().join("office")).unwrap();
    assert_eq!(mode(place.path().join("office")), 0o700);
    assert_eq!(mode(place.path().join("office/finds.csv")), 0o600);
}

#[test]
fn one_file_is_written_whole_or_refused() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("map.svg");
    strew::pack::write_file(&path, b"one", Readers::Everyone).unwrap();
    strew::pack::write_file(&path, b"two", Readers::Everyone).unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"two");
    let fault = strew::pack::write_new_file(&path, b"three", Readers::Everyone).unwrap_err();
    assert_eq!(fault.id, "pack-file-exists");
    assert_eq!(fs::read(&path).unwrap(), b"two");
    assert_eq!(
        strew::pack::write_file(place.path(), b"x", Readers::Everyone).unwrap_err().id,
        "pack-file-is-folder"
    );
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
}
