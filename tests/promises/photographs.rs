//! Clean copies of photographs: nothing of the camera is left, and not a pixel has changed. Pillow, a published
//! reader, makes the pictures and decodes both.

use std::fs;
use std::path::Path;
use std::process::Command;

use super::audit_plants::camera_note;
use super::common::{files, python, run, said};

/// Makes pictures with everything that a camera writes.
const MAKE: &str = r#"
import sys, random
from PIL import Image, PngImagePlugin, ImageCms
folder = sys.argv[1]
note = open(folder + "/note.bin", "rb").read()
random.seed(1)
profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
picture = Image.new("RGB", (97, 61))
picture.putdata([(random.randrange(256), (i * 3) % 256, (i // 97 * 4) % 256) for i in range(97 * 61)])
exif = Image.Exif()
exif[0x0112] = 6
exif[0x010F] = "Camera of Aurelia"
exif[0xA431] = "SERIAL-4711"
exif[0x013B] = "Aurelia Pennyfeather"
gps = exif.get_ifd(0x8825)
gps[1] = "N"; gps[2] = (54.0, 39.0, 29.03); gps[3] = "E"; gps[4] = (0.0, 36.0, 49.5)
for name, more in (("IMG_20240312_101500.jpg", {}), ("IMG_20240312_101501.jpg", {"progressive": True})):
    path = folder + "/in/" + name
    picture.save(path, exif=exif, icc_profile=profile, quality=88, comment=b"at 556341 543127", **more)
    with open(path, "ab") as end:
        end.write(b"\0\0\0\x18ftypmp42 a film behind, 556341 543127")
upright = Image.Exif(); upright[0x010F] = "Camera of Aurelia"
picture.save(folder + "/in/upright.jpg", exif=upright, quality=70)
words = PngImagePlugin.PngInfo()
words.add_text("Comment", "at 556341 543127"); words.add_text("Packed", "SERIAL-4711" * 50, zip=True)
picture.convert("RGBA").save(folder + "/in/picture.png", pnginfo=words, exif=exif, icc_profile=profile)
picture.save(folder + "/in/picture.webp", exif=exif, icc_profile=profile, xmp=b"<x:xmpmeta>SERIAL-4711</x:xmpmeta>", quality=80)
picture.save(folder + "/in/lossless.webp", exif=exif, lossless=True)
picture.save(folder + "/in/scan.tif")
open(folder + "/in/phone.heic", "wb").write(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")
"#;

/// Compares pixels, profile and orientation of pictures in order of name, and says what else is in the copies.
const COMPARE: &str = r#"
import sys, glob, os
from PIL import Image
folder = sys.argv[1]
before = sorted(p for p in glob.glob(folder + "/in/*") if p.endswith((".jpg", ".png", ".webp")))
after = sorted(glob.glob(folder + "/out/*"))
assert len(before) == len(after), (before, after)
for a, b in zip(before, after):
    one, two = Image.open(a), Image.open(b)
    assert one.size == two.size and one.mode == two.mode, (a, b)
    assert one.tobytes() == two.tobytes(), "pixels differ: " + a
    assert one.info.get("icc_profile") == two.info.get("icc_profile"), "profile: " + a
    kept = dict(two.getexif())
    turned = one.getexif().get(0x0112)
    assert kept == ({0x0112: turned} if turned and turned != 1 else {}), (b, kept)
    assert not dict(two.getexif().get_ifd(0x8825)), b
print(len(after))
"#;

fn pillow(script: &str, folder: &Path) -> String {
    let output = Command::new(python()).args(["-c", script]).arg(folder).output().unwrap();
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    out
}

#[test]
fn nothing_of_the_camera_is_left_and_no_pixel_has_changed() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("in")).unwrap();
    fs::write(folder.path().join("note.bin"), camera_note(54.658, 0.6137)).unwrap();
    pillow(MAKE, folder.path());
    let (from, into) = (folder.path().join("in"), folder.path().join("out"));
    let output = run(&["photographs", from.to_str().unwrap(), "--out", into.to_str().unwrap(), "--json"]);
    let (out, err) = said(&output);
    // TIFF and HEIC are refused with what to do, and are in no way copied.
    assert_eq!(output.status.code(), Some(1), "{out}{err}");
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(told["refused"].as_array().unwrap().len(), 2, "{told}");
    assert!(err.contains("scan.tif") && err.contains("phone.heic") && err.contains("as JPEG"), "{err}");
    assert_eq!(pillow(COMPARE, folder.path()).trim(), "6");
    for file in files(&into) {
        let name = file.to_string_lossy().into_owned();
        assert!(name.starts_with("photograph-") && !name.contains("2024"), "{name}");
        let bytes = fs::read(into.join(&file)).unwrap();
        for word in ["Aurelia", "SERIAL", "556341", "ftyp", "xmpmeta", "Comment", "GPS"] {
            assert!(memchr::memmem::find(&bytes, word.as_bytes()).is_none(), "{name} holds {word}");
        }
    }
    // Clean copies are clean to the audit too; what they were made from is not.
    let study = super::common::demo();
    let audited = |path: &Path| {
        run(&["audit", path.to_str().unwrap(), "--study", study.to_str().unwrap()]).status.code()
    };
    assert_eq!(audited(&into), Some(0));
    assert_eq!(audited(&from), Some(1));
    // Once more over the same folder: nothing is written over.
    let again = run(&["photographs", from.to_str().unwrap(), "--out", into.to_str().unwrap()]);
    assert_eq!(again.status.code(), Some(1));
}

#[test]
fn names_are_kept_when_asked() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("in")).unwrap();
    fs::write(folder.path().join("note.bin"), camera_note(54.658, 0.6137)).unwrap();
    pillow(MAKE, folder.path());
    let picture = folder.path().join("in/upright.jpg");
    let into = folder.path().join("out");
    let output = run(&[
        "photographs",
        picture.to_str().unwrap(),
        "--out",
        into.to_str().unwrap(),
        "--keep-names",
        "--french",
    ]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{out}{err}");
    assert!(into.join("upright.jpg").exists() && err.contains("arrière-plan"), "{err}");
}
