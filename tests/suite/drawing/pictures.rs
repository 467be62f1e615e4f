//! The pictures for paper, and those kept in `docs/pictures`.

use crate::architecture::root;
use crate::drawing::{marked, rigs, view};
use hames::figures::axle_loads;
use hames::rig::{Place, Rig};
use hames::tui::rig::{Drawing, View};
use std::fs;
use std::path::Path;

/// The pictures in the documents, each with its file's name.
fn pictures() -> Vec<(String, Drawing)> {
    let mut pictures = Vec::new();
    for rig in rigs() {
        for of in View::ALL {
            pictures.push((format!("{}-{}.svg", rig.id, of.word()), view(of, &rig)));
        }
        let loads = view(View::Side, &rig).loaded(axle_loads(&rig));
        pictures.push((format!("{}-loads.svg", rig.id), loads));
        let chains = marked(&rig, Place::Chains);
        pictures.push((format!("{}-chains.svg", rig.id), chains));
    }
    pictures
}

/// When a drawing is meant to change, copy the fresh pictures as the message says, and look at
/// them.
#[test]
fn the_pictures_in_the_documents_are_fresh() {
    let fresh = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures");
    fs::create_dir_all(&fresh).unwrap();
    let kept = root().join("docs/pictures");
    let mut stale = Vec::new();
    for (name, drawing) in pictures() {
        let svg = drawing.svg();
        fs::write(fresh.join(&name), &svg).unwrap();
        if fs::read_to_string(kept.join(&name)).ok() != Some(svg) {
            stale.push(name);
        }
    }
    assert!(
        stale.is_empty(),
        "{stale:?} are stale: cp {}/*.svg {}",
        fresh.display(),
        kept.display()
    );
}

#[test]
fn no_picture_lies_in_the_documents_that_is_no_longer_made() {
    let mut made: Vec<String> = pictures().into_iter().map(|(name, _)| name).collect();
    // The frames in the README, made by the tests of the screens.
    made.extend(["walk.svg", "rig.svg"].map(str::to_owned));
    for entry in fs::read_dir(root().join("docs/pictures")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        assert!(made.contains(&name), "{name}");
    }
}

#[test]
fn a_picture_is_well_formed_names_the_marked_part_and_is_the_same_every_time() {
    for rig in rigs() {
        for (word, place) in Place::WORDS {
            let svg = marked(&rig, place).svg();
            assert_eq!(svg, marked(&rig, place).svg());
            assert_eq!(unclosed(&svg), Vec::<String>::new(), "{word}");
            assert!(svg.contains(&format!(">{}</text>", word.to_uppercase())));
            assert!(!svg.contains("NaN") && !svg.contains("inf"));
        }
    }
}

#[test]
fn a_name_with_signs_of_xml_in_it_stays_text() {
    let [mut rig, _] = rigs();
    rig.name = "<Juniper> & \"friends\"".into();
    rig.load[0].name = "</svg><script>".into();
    let svg = Drawing::side(&rig).svg();
    assert_eq!(unclosed(&svg), Vec::<String>::new());
    assert!(svg.contains("<title>&lt;Juniper&gt; &amp; &quot;friends&quot;: side</title>"));
    assert!(!svg.contains("<script>"));
}

#[test]
fn a_picture_for_paper_is_black_white_and_grey() {
    let [rig, _] = rigs();
    let svg = Drawing::hitch(&rig).svg();
    let inks = ["none", "white", "black", "#444", "#bbb"];
    for attribute in ["fill=\"", "stroke=\""] {
        for part in svg.split(attribute).skip(1) {
            let ink = part.split('"').next().unwrap();
            assert!(inks.contains(&ink), "{ink}");
        }
    }
}

/// The elements left open, or closed unopened: none when the text is well formed. Enough for what
/// we write ourselves: elements, quoted attributes and text.
fn unclosed(svg: &str) -> Vec<String> {
    let mut open: Vec<String> = Vec::new();
    for tag in svg.split('<').skip(1) {
        let Some((tag, text)) = tag.split_once('>') else {
            open.push(format!("no end: {tag}"));
            continue;
        };
        if tag.matches('"').count() % 2 == 1 || text.contains('"') || has_bare_ampersand(text) {
            open.push(format!("bad quotes or text: {tag} {text}"));
        }
        let name = tag
            .trim_start_matches('/')
            .split([' ', '/'])
            .next()
            .unwrap();
        if tag.starts_with('/') {
            let last = open.pop();
            if last.as_deref() != Some(name) {
                open.extend(last);
                open.push(format!("closed unopened: {name}"));
            }
        } else if !tag.ends_with('/') {
            open.push(name.to_owned());
        }
    }
    open
}

fn has_bare_ampersand(text: &str) -> bool {
    let known = ["amp;", "lt;", "gt;", "quot;", "#39;"];
    text.split('&')
        .skip(1)
        .any(|rest| !known.iter().any(|entity| rest.starts_with(entity)))
}

#[test]
fn the_check_for_well_formed_text_finds_what_is_broken() {
    assert!(unclosed("<a><b/></a>").is_empty());
    assert!(!unclosed("<a><b></a>").is_empty());
    assert!(!unclosed("<a>x & y</a>").is_empty());
    assert!(!unclosed("<a b=\"c></a>").is_empty());
    assert!(!unclosed("<a></a></a>").is_empty());
}

#[test]
fn a_longer_rig_gives_a_wider_drawing_and_the_same_picture_width() {
    let width = |rig: &Rig| Drawing::side(rig).scene().window.size().0;
    let [juniper, mesquite] = rigs();
    assert!(width(&mesquite) > width(&juniper));
    for rig in [&juniper, &mesquite] {
        assert!(Drawing::side(rig).svg().contains("viewBox=\"0 0 960 "));
    }
}
