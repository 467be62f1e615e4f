//! The parser's complaints, told so that whoever wrote the file can mend it.

use crate::document::{Fault, Place, retrace};

/// What a key is said to be when something else stands in its place.
pub(crate) const A_WORD_AS_KEY: &str = "a word as key";

/// What is said to be wanted where nothing more is.
pub(crate) const NOTHING_MORE: &str = "nothing more";

/// One kind of complaint.
struct Complaint {
    /// Words in the parser's sentence by which it is known.
    sign: &'static str,
    /// Where to point: what the parser was in the middle of, when that helps more than the place
    /// where it gave up.
    began: Option<&'static str>,
    what: &'static str,
    fix: &'static str,
}

/// The first whose sign fits is taken.
const COMPLAINTS: [Complaint; 19] = [
    Complaint {
        sign: NOTHING_MORE,
        began: None,
        what: "a second document begins here",
        fix: "keep one document to a file, and take the line `---` between them away",
    },
    Complaint {
        sign: "unexpected document indicator",
        began: None,
        what: "a quote is still open at this line `---` or `...`",
        fix: "close the quote above",
    },
    Complaint {
        sign: "while parsing a quoted scalar",
        began: None,
        what: "a backslash in double quotes has no meaning here",
        fix: "use single quotes around text that holds a backslash",
    },
    Complaint {
        sign: QUOTED,
        began: Some(QUOTED),
        what: "a quote opens here and is never closed",
        fix: "close it, or put the other kind of quote around text that holds one",
    },
    Complaint {
        sign: TAB,
        began: None,
        what: "a tab stands where only blanks may",
        fix: "indent with blanks",
    },
    Complaint {
        sign: "cannot start any token",
        began: None,
        what: "no value can begin with this character",
        fix: "put quotes around the value",
    },
    Complaint {
        sign: "mapping values are not allowed",
        began: None,
        what: "a colon stands where no key can",
        fix: "put quotes around text that holds a colon and a blank, or mend the indentation",
    },
    Complaint {
        sign: "could not find expected ':'",
        began: Some("while scanning a simple key"),
        what: "a key without a colon begins here",
        fix: "write keys as `key: value`",
    },
    Complaint {
        sign: "did not find expected key",
        began: None,
        what: "no key begins here",
        fix: "line the keys of a map up under each other, and put quotes around all of a text or none",
    },
    Complaint {
        sign: "did not find expected '-' indicator",
        began: None,
        what: "no list entry begins here",
        fix: "line the `-` of a list up under each other",
    },
    Complaint {
        sign: "did not find expected ',' or ']'",
        began: Some("while parsing a flow sequence"),
        what: "a list opens here and is not closed",
        fix: "close it with `]`, and put a comma between its values",
    },
    Complaint {
        sign: "did not find expected ',' or '}'",
        began: Some("while parsing a flow mapping"),
        what: "a map opens here and is not closed",
        fix: "close it with `}`, and put a comma between its keys",
    },
    Complaint {
        sign: "did not find expected node content",
        began: None,
        what: "a value is wanted here",
        fix: "write one, or put quotes around text that begins with a bracket, a brace or a comma",
    },
    Complaint {
        sign: "block sequence entries are not allowed",
        began: None,
        what: "a list entry cannot begin here",
        fix: "begin each entry on its own line, or put quotes around text that begins with `- `",
    },
    Complaint {
        sign: "mapping keys are not allowed",
        began: None,
        what: "a key cannot begin here",
        fix: "put quotes around text that begins with `? `",
    },
    Complaint {
        sign: "<document start>",
        began: None,
        what: "more stands behind the end of the file's value",
        fix: "keep one map to a file",
    },
    Complaint {
        sign: "directive",
        began: None,
        what: "a line that begins with `%` is an order to the parser",
        fix: "take the line away",
    },
    Complaint {
        sign: "recursion limit exceeded",
        began: None,
        what: "lists and maps stand too deep in one another here",
        fix: "write them less deep",
    },
    Complaint {
        sign: A_WORD_AS_KEY,
        began: None,
        what: "a list or map stands here as a key",
        fix: "write keys as plain words, and put quotes around a value that begins with `{` or `[`",
    },
];

const TAB: &str = "tab character";
const QUOTED: &str = "while scanning a quoted scalar";

/// The fault behind an error of the parser.
pub(crate) fn fault(text: &str, error: &serde_yaml::Error) -> Fault {
    let said = error.to_string();
    let known = complaint(text, error, &said);
    // At the end of a file the parser counts a line that is not there.
    let gave_up = retrace::place_of(error).min(Place::after(text));
    let began = known.and_then(|known| began(&said, known.began?));
    let (what, fix) = match known {
        Some(known) => (known.what.to_owned(), known.fix),
        None => (
            format!("this is not well-formed YAML ({said})"),
            "check the indentation, the colons and the quotes here",
        ),
    };
    Fault {
        place: began.unwrap_or(gave_up),
        path: String::new(),
        what,
        fix: fix.to_owned(),
        lacking: false,
    }
}

fn complaint(text: &str, error: &serde_yaml::Error, said: &str) -> Option<&'static Complaint> {
    let at = error.location().map(|location| location.index());
    let on_tab = at.and_then(|index| text.chars().nth(index)) == Some('\t');
    let said = if on_tab { TAB } else { said };
    COMPLAINTS.iter().find(|known| said.contains(known.sign))
}

/// Where the parser began what it was in the middle of, which it tells only in words.
fn began(said: &str, what: &str) -> Option<Place> {
    let (_, rest) = said.split_once(what)?;
    let Some(place) = rest.strip_prefix(" at line ") else {
        return Some(Place::START);
    };
    let (line, column) = place.split_once(" column ")?;
    Some(Place {
        line: line.parse().ok()?,
        column: column.parse().ok()?,
    })
}
