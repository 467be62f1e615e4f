//! Which clauses of a text ask for an act.
//!
//! English shows an order by a verb in its bare form at the head of a clause. The verbs are a list:
//! one that is missing lets an act through unseen, and never accuses a good text.

/// Verbs that are hardly anything else at the head of a clause.
const PLAIN: [&str; 78] = [
    "adjust",
    "apply",
    "ask",
    "attach",
    "bring",
    "call",
    "check",
    "choose",
    "clean",
    "clip",
    "close",
    "compare",
    "connect",
    "count",
    "crank",
    "disconnect",
    "drive",
    "ensure",
    "fasten",
    "fetch",
    "find",
    "fit",
    "follow",
    "go",
    "hang",
    "have",
    "hold",
    "hook",
    "inspect",
    "install",
    "keep",
    "leave",
    "listen",
    "loosen",
    "lower",
    "make",
    "measure",
    "move",
    "open",
    "place",
    "point",
    "press",
    "pull",
    "push",
    "put",
    "raise",
    "read",
    "record",
    "release",
    "remove",
    "repeat",
    "replace",
    "reset",
    "roll",
    "see",
    "set",
    "shake",
    "show",
    "slide",
    "stay",
    "start",
    "stop",
    "swing",
    "take",
    "tell",
    "test",
    "tighten",
    "touch",
    "try",
    "turn",
    "type",
    "unclip",
    "unhook",
    "unload",
    "untie",
    "wait",
    "wipe",
    "write",
];

/// Words that are verbs only before a thing: `plug the cord in`, but `plug off`.
const TWO_FACED: [&str; 21] = [
    "back", "block", "brake", "chock", "empty", "fill", "gauge", "grease", "latch", "level",
    "lift", "light", "lock", "look", "pin", "plug", "tape", "time", "walk", "watch", "weigh",
];

/// What follows a two-faced word that is a verb.
const BEFORE_A_THING: [&str; 21] = [
    "a", "again", "all", "along", "an", "at", "both", "each", "every", "for", "into", "it", "its",
    "one", "round", "that", "the", "them", "under", "up", "your",
];

/// Words that may stand before the verb of an order.
const LEADS: [&str; 7] = ["also", "and", "finally", "now", "please", "slowly", "then"];

/// How an order not to do a thing begins, and how one for every time does.
const ORDERS: [&str; 5] = ["always", "do", "don't", "must", "never"];

/// The clauses of a text that ask for an act.
pub(super) fn acts(text: &str) -> usize {
    clauses(text).iter().filter(|clause| asks(clause)).count()
}

/// Whether any clause orders something, or forbids it.
pub(super) fn orders(text: &str) -> bool {
    clauses(text).iter().any(|clause| {
        asks(clause)
            || clause
                .first()
                .is_some_and(|first| ORDERS.contains(&first.as_str()))
    })
}

/// Whether the clause begins with a verb in its bare form.
fn asks(clause: &[String]) -> bool {
    let Some(first) = clause.first().map(String::as_str) else {
        return false;
    };
    let next = clause.get(1).map_or("", String::as_str);
    PLAIN.contains(&first) || (TWO_FACED.contains(&first) && BEFORE_A_THING.contains(&next))
}

/// The words of each clause, lower case, without what may stand before a verb.
fn clauses(text: &str) -> Vec<Vec<String>> {
    let mut clauses = vec![Vec::new()];
    for written in text.split_whitespace() {
        let word: String = written
            .chars()
            .filter(|letter| letter.is_alphanumeric() || matches!(letter, '\'' | '-'))
            .flat_map(char::to_lowercase)
            .collect();
        if matches!(word.as_str(), "and" | "then") {
            clauses.push(Vec::new());
        } else if let Some(clause) = clauses.last_mut()
            && !(clause.is_empty() && LEADS.contains(&word.as_str()))
        {
            clause.push(word);
        }
        if written.ends_with(['.', ',', ';', ':', '!', '?']) {
            clauses.push(Vec::new());
        }
    }
    clauses
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_second_verb_at_the_head_of_a_clause_is_a_second_act() {
        for (text, count) in [
            ("Press the lever down.", 1),
            ("Press the lever down and push the pin in.", 2),
            ("Lower the coupler, then close the latch.", 2),
            ("Lower the coupler; close the latch.", 2),
            ("Look under the coupler. Press the lever.", 2),
            (
                "Look along bumper, fenders and tongue for gear left lying.",
                1,
            ),
            (
                "Pull the trailer forward one foot, plug off and breakaway pin out.",
                1,
            ),
            ("Plug the cord in and latch the cover.", 2),
            ("Hook it again, crossed, untwisted and in its own eye.", 1),
            ("Read the marks on receiver, drawbar, ball and coupler.", 1),
            ("", 0),
        ] {
            assert_eq!(acts(text), count, "{text}");
        }
    }

    #[test]
    fn an_order_is_told_from_a_danger_named() {
        for (text, ordered) in [
            ("The tongue drops if the jack slips.", false),
            (
                "A pin left out drains the battery and burns the switch.",
                false,
            ),
            ("Keep your hands clear.", true),
            ("The tongue drops: stand aside and keep clear.", true),
            ("Never reach under the tongue.", true),
            ("Do not reach under the tongue.", true),
        ] {
            assert_eq!(orders(text), ordered, "{text}");
        }
    }
}
