//! What a record may hold at most, and what its words may not: size, depth, and characters that hide
//! or turn the writing; judged by the program and by the second verifier.

use super::barns::{change, whole};
use super::bench::{Batch, Folder};
use crate::barn50::making::{Barn, Left, people};
use crate::record_statements::key;
use crate::record_trip::{LAPTOP, Trip, WREN, crew, id, phrase, words};
use hames::record::{
    Countersigned, Crew, Deed, Digest, MAX_LINE, MAX_STATEMENT, MAX_TRIP, Mode, Namespace, Opinion,
    Says, Statement,
};

const SHORT: &str = "open\n see down\n end incomplete: the vet called";
const JOURNAL: &str = "trip.jsonl";
const WREN_ID: &str = "wren.ashdown";
const ODILE: &str = "odile.marsh";

/// Characters that are refused in words: controls, blanks, what hides and what turns.
const REFUSED: [char; 12] = [
    '\u{7f}',
    '\u{85}',
    '\u{a0}',
    '\u{ad}',
    '\u{61c}',
    '\u{200b}',
    '\u{200f}',
    '\u{202e}',
    '\u{2028}',
    '\u{2066}',
    '\u{feff}',
    '\u{e0041}',
];

/// An unsealed journal whose last line was rewritten so, by somebody who knows how lines are bound.
fn rewritten(change: impl Fn(&str) -> String) -> Folder {
    let whole = Folder::of(&Trip::of(SHORT)).unsealed();
    let text = String::from_utf8(whole.file(JOURNAL).to_vec()).unwrap();
    let (before, last) = text.trim_end().rsplit_once('\n').unwrap();
    let changed = change(last);
    assert_ne!(changed, last);
    whole.with(JOURNAL, format!("{before}\n{changed}\n").as_bytes())
}

/// The last line with another body.
fn with_body(last: &str, kind: &str, body: &str) -> String {
    let (heading, _) = last.split_once("\"kind\"").unwrap();
    format!("{heading}\"kind\":\"{kind}\",\"body\":{body}}}")
}

/// Words of at most 400 letters that fill a list to so many bytes.
fn filled(bytes: usize) -> Vec<String> {
    let quoted = |letters: usize| format!("\"{}\"", "x".repeat(letters));
    let (mut words, mut left) = (Vec::new(), bytes + 1);
    while left > 800 {
        words.push(quoted(397));
        left -= 400;
    }
    let (one, other) = (left / 2, left - left / 2);
    words.extend([quoted(one - 3), quoted(other - 3)]);
    words
}

/// A line of so many bytes.
fn long(last: &str, bytes: usize) -> String {
    let handed = |steps: &[String]| {
        let steps = steps.join(",");
        let body = format!(
            "{{\"reader\":\"Wren Ashdown\",\"doer\":\"Tobias Fenn\",\"look_again\":[{steps}]}}"
        );
        with_body(last, "handed-over", &body)
    };
    let line = handed(&filled(bytes - handed(&[]).len()));
    assert_eq!(line.len(), bytes);
    line
}

#[test]
fn both_take_a_line_as_long_and_as_deep_as_may_be_and_no_longer_or_deeper() {
    let mut batch = Batch::new(&[crew()]);
    batch.put("longest", rewritten(|last| long(last, MAX_LINE)));
    batch.put("longer", rewritten(|last| long(last, MAX_LINE + 1)));
    // The line is the first level and its body the second.
    for levels in 6..9 {
        let deep = format!("{}1{}", "[".repeat(levels), "]".repeat(levels));
        let body = format!("{{\"outcome\":\"incomplete\",\"words\":{deep}}}");
        let folder = rewritten(|last| with_body(last, "ended", &body));
        batch.put(&format!("{levels} lists in a body"), folder);
    }
    let told = batch.both();
    let words: Vec<&str> = told.iter().map(|(_, word)| word.as_str()).collect();
    assert_eq!(
        words,
        ["unsealed", "altered", "unreadable", "altered", "altered"]
    );
}

#[test]
fn both_refuse_words_in_a_line_that_hide_something_or_are_too_long() {
    let mut batch = Batch::new(&[crew()]);
    for hidden in REFUSED {
        let word = format!("the vet{hidden}called");
        let place = format!("{:x}", u32::from(hidden));
        let body = rewritten(|last| last.replace("the vet called", &word));
        batch.put(&format!("{place} in a body"), body);
        let name = format!("Wren{hidden}Ashdown");
        let actor = rewritten(|last| last.replace("Wren Ashdown", &name));
        batch.put(&format!("{place} in a heading"), actor);
    }
    for (name, word) in [
        ("blank in front", " the vet called".to_owned()),
        ("blank behind", "the vet called ".to_owned()),
        ("nothing", String::new()),
        ("401 letters", "é".repeat(401)),
    ] {
        batch.put(
            name,
            rewritten(|last| last.replace("the vet called", &word)),
        );
    }
    let longest = "é".repeat(400);
    batch.put(
        "400 letters",
        rewritten(|last| last.replace("the vet called", &longest)),
    );
    let mut told = batch.both();
    assert_eq!(told.pop().unwrap().1, "unsealed");
    for (case, word) in told {
        let heading = case.ends_with("heading");
        let wanted = if heading { "altered" } else { "unreadable" };
        assert_eq!(word, wanted, "{case}");
    }
}

/// A trip whose seal was rewritten so and signed again by those who hold the keys.
fn resealed(change: impl Fn(&str) -> String) -> Folder {
    let whole = Folder::of(&Trip::of(SHORT));
    let seal = change(std::str::from_utf8(whole.file("seal.json")).unwrap());
    let seal = seal.as_bytes();
    let performed = Namespace::new(Deed::Performed, Mode::Real);
    let witnessed = Namespace::new(Deed::Witnessed, Mode::Real);
    let person = WREN.sign(&phrase(), performed, seal).unwrap();
    let device = LAPTOP.sign(witnessed, seal).unwrap();
    let whole = whole.with("seal.json", seal);
    let whole = whole.with("seal.person.sig", person.as_bytes());
    whole.with("seal.device.sig", device.as_bytes())
}

#[test]
fn both_refuse_a_seal_whose_words_hide_something_or_have_no_end() {
    let meaning = |words: &str| {
        resealed(|seal| {
            let (before, rest) = seal.split_once("\"meaning\":\"").unwrap();
            let (_, after) = rest.split_once("\",\"name\"").unwrap();
            format!("{before}\"meaning\":\"{words}\",\"name\"{after}")
        })
    };
    let mut batch = Batch::new(&[crew()]);
    for hidden in REFUSED {
        let name = format!("Wren{hidden}Ashdown");
        let place = format!("{:x}", u32::from(hidden));
        batch.put(
            &format!("{place} in the name"),
            resealed(|seal| seal.replace("Wren Ashdown", &name)),
        );
    }
    for (name, words) in [
        ("an empty meaning", String::new()),
        ("a blank meaning", " ".to_owned()),
        ("a meaning of 401", "m".repeat(401)),
        ("a control in a meaning", "I did it\u{85}".to_owned()),
    ] {
        batch.put(name, meaning(&words));
    }
    batch.put("a meaning of 400", meaning(&"m".repeat(400)));
    let mut told = batch.both();
    assert_eq!(told.pop().unwrap().1, "intact");
    for (case, word) in told {
        assert_eq!(word, "unreadable", "{case}");
    }
}

/// A barn in which Odile said this, in these bytes.
fn said(change: impl Fn(&str) -> String) -> Barn {
    let mut barn = Barn::founded();
    barn.walk(0, WREN_ID, Left::Sealed);
    let says = Says::Countersigned(Countersigned {
        trip: id("9f0c11b2"),
        device: id("another-laptop"),
        seq: 1,
        seal: Digest::of(b"none"),
        opinion: Opinion::Asked,
        opened: vec![],
        remarks: Some(words("why so late?")),
        took_ms: None,
    });
    barn.state(says);
    let mut said = barn.office.said.pop().unwrap();
    barn.files.retain(|path, _| !path.contains("/000002-"));
    let text = change(std::str::from_utf8(&said.statement).unwrap());
    said.signature = key(ODILE)
        .sign(Statement::namespace(Mode::Real), text.as_bytes())
        .unwrap()
        .into_bytes();
    said.statement = text.into_bytes();
    let hash = Statement::hash(&said.statement).to_string();
    let folder = format!("mgr/{ODILE}/000002-{}", &hash[..8]);
    barn.files
        .insert(format!("{folder}/statement.json"), said.statement);
    barn.files
        .insert(format!("{folder}/statement.sig"), said.signature);
    barn
}

#[test]
fn both_take_a_statement_as_long_as_may_be_and_no_longer_and_none_that_hides_something() {
    let long = |bytes: usize| {
        said(|text| {
            let opened = filled(bytes - text.len()).join(",");
            let text = text.replace("\"opened\":[]", &format!("\"opened\":[{opened}]"));
            assert_eq!(text.len(), bytes);
            text
        })
    };
    // A trip that a countersign names is not here.
    assert_eq!(whole(&long(MAX_STATEMENT)), "gap");
    assert_eq!(whole(&long(MAX_STATEMENT + 1)), "unreadable");
    for hidden in REFUSED {
        let word = format!("why so{hidden}late?");
        let hides = said(|text| text.replace("why so late?", &word));
        assert_eq!(whole(&hides), "unreadable", "{hidden:?}");
    }
}

#[test]
fn both_refuse_a_file_that_is_too_large() {
    const MOST: usize = 1024 * 1024;
    let mut barn = Barn::founded();
    let at = barn.walk(0, WREN_ID, Left::Sealed);
    barn.countersign(at, Opinion::Agreed);
    assert_eq!(whole(&barn), "intact");
    let text = people(false).text().to_owned();
    let line = format!("# {}\n", "x".repeat(77));
    let text = text.clone() + &line.repeat((MOST - text.len()) / line.len());
    let crew = Crew::read(text.as_bytes()).unwrap();
    let mut large = barn.clone();
    change(&mut large, ODILE, crew, &[]);
    assert_eq!(whole(&large), "intact", "a crew file of a mebibyte");
    let folder = barn.trips[at].folder.clone();
    let stated = |name: &str| {
        let mut files = barn.files.keys();
        let stated = files.find(|path| path.contains("/000002-") && path.ends_with(name));
        stated.unwrap().clone()
    };
    let cases = [
        (format!("{folder}/{JOURNAL}"), MAX_TRIP),
        (format!("{folder}/checklist.yaml"), MOST),
        (format!("{folder}/rig.yaml"), MOST),
        (format!("{folder}/seal.json"), MOST),
        (format!("{folder}/seal.person.sig"), MOST),
        (stated("statement.json"), MAX_STATEMENT),
        (stated("statement.sig"), MOST),
    ];
    for (path, most) in cases {
        let mut barn = barn.clone();
        let file = barn.files.get_mut(&path).unwrap();
        file.resize(most + 1, b'\n');
        assert_eq!(whole(&barn), "unreadable", "{path}");
    }
}
