//! Text inside HTML and SVG.

use crate::text::harmless;

/// The text as HTML and XML show it and nothing else, inside an element or an attribute: a file
/// somebody wrote is never taken for markup. What they forbid stands as its code.
pub fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for letter in harmless(text).chars() {
        match letter {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            // XML has no such letters.
            '\u{fffe}' | '\u{ffff}' => escaped.extend(letter.escape_unicode()),
            letter => escaped.push(letter),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_xml_reads_as_its_own_is_written_otherwise() {
        assert_eq!(
            escaped("<a & 'b' \"c\">"),
            "&lt;a &amp; &#39;b&#39; &quot;c&quot;&gt;"
        );
        assert_eq!(escaped("x]]>-->"), "x]]&gt;--&gt;");
        assert_eq!(escaped("two\u{0}\u{ffff}"), "two\\u{0}\\u{ffff}");
        assert_eq!(escaped("Juniper · 2 horses"), "Juniper · 2 horses");
    }
}
