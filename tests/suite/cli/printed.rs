//! Commands that are printed can be typed as they stand: each in the sources has all that it asks for,
//! and where a logbook was named, it names that too.

use crate::architecture::root;
use crate::harness::home::{Home, files_below};
use clap::{CommandFactory, Parser};
use hames::cli::Args;
use std::fs;

/// What stands for a value that only a run knows.
const VALUE: &str = "12";

/// Values that are a flag of the command.
const FLAGS: &[(&str, &str)] = &[("hames crew add {add}", "hames crew add --device")];

/// Words of the sentence behind a command that is only spoken of, or behind its last argument.
const PROSE: &[&str] = &[
    "or", "and", "there", "takes", "keeps", "puts", "makes", "on", "says", "does", "needs",
    "finds", "prints", "names", "lists", "judges",
];

/// The texts between quotes in a source, with the values in them told by `VALUE`.
fn texts(source: &str) -> Vec<String> {
    let code = source
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let code = code.collect::<Vec<_>>().join("\n").replace("\\\"", "'");
    let code = FLAGS
        .iter()
        .fold(code, |code, (value, flag)| code.replace(value, flag));
    // An example that goes on in the next line.
    let code = code.replace("\\\\\n", " ");
    let joined: Vec<&str> = code.split("\\\n").collect();
    let joined: Vec<&str> = (0..)
        .zip(joined)
        .map(
            |(at, part): (usize, _)| {
                if at == 0 { part } else { part.trim_start() }
            },
        )
        .collect();
    let texts = joined.concat();
    texts
        .split('"')
        .skip(1)
        .step_by(2)
        .map(|text| {
            let mut told = String::new();
            let mut depth = 0;
            for letter in text.replace("\\n", "\n").chars() {
                match letter {
                    '{' => {
                        depth += 1;
                        if depth == 1 {
                            told.push_str(VALUE);
                        }
                    }
                    '}' => depth -= 1,
                    _ if depth == 0 => told.push(letter),
                    _ => {}
                }
            }
            told
        })
        .collect()
}

/// Each command of the program in a text, word by word.
fn commands(text: &str) -> Vec<Vec<String>> {
    let mut commands = Vec::new();
    for rest in text.split("hames ").skip(1) {
        let line = rest.lines().next().unwrap_or_default();
        // What stands behind a command in the examples is no part of it.
        let line = line.split("   ").next().unwrap_or_default();
        let line = line.split(" <<<").next().unwrap_or_default();
        let line = line.split(" > ").next().unwrap_or_default();
        let mut words = vec!["hames".to_owned()];
        let (mut program, mut open) = (Args::command(), false);
        for word in line.split(' ').filter(|word| !word.is_empty()) {
            if !open && !program.has_subcommands() && PROSE.contains(&word) {
                break;
            }
            let bare = word.trim_end_matches(['.', ',', ';', ':', ')', '`', '”']);
            if open {
                let last = words.last_mut().unwrap();
                *last = format!("{last} {}", bare.trim_end_matches('\''));
            } else {
                words.push(bare.trim_matches('\'').to_owned());
            }
            open = (open || word.starts_with('\'')) && !bare.ends_with('\'');
            if let Some(under) = program.find_subcommand(bare).cloned() {
                program = under;
            }
            if !open && bare != word {
                break;
            }
        }
        commands.push(words);
    }
    commands
}

#[test]
fn every_command_in_the_sources_can_be_typed() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for file in files_below(&root().join("src")) {
        let source = fs::read_to_string(root().join("src").join(&file)).unwrap();
        let source = source.split("#[cfg(test)]").next().unwrap();
        for text in texts(source) {
            for words in commands(&text) {
                if !is_a_command(&words) {
                    continue;
                }
                seen += 1;
                if let Err(why) = Args::try_parse_from(&words) {
                    let why = why.to_string();
                    let why = why.lines().take(2).collect::<Vec<_>>().join(" ");
                    wrong.push(format!("{file}: {}: {why}", words.join(" ")));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(seen > 100, "{seen}");
}

/// Whether it is more than a word of a sentence: it goes down to a command that does something, and
/// what follows is not the rest of the sentence.
fn is_a_command(words: &[String]) -> bool {
    let (mut program, mut at) = (Args::command(), 1);
    while program.has_subcommands() {
        let word = words.get(at).map_or("", String::as_str);
        let Some(under) = program.find_subcommand(word).cloned() else {
            return false;
        };
        program = under;
        at += 1;
    }
    words.len() > at || !MENTIONED.contains(&words[1..].join(" ").as_str())
}

/// Commands that sentences speak of without having them typed.
const MENTIONED: &[&str] = &["verify", "logbook merge"];

#[test]
fn where_a_logbook_was_named_the_commands_that_are_printed_name_it() {
    let home = Home::new();
    for (typed, told) in [
        (
            "doctor --logbook barn",
            "The first hames walk --logbook barn makes one",
        ),
        ("crew request --logbook barn", "There is no logbook in barn"),
    ] {
        let ended = home.hames(typed).run();
        let all = ended.out + &ended.err;
        assert!(all.contains(told), "{typed}: {all}");
    }
    let demo = super::demo::sealed();
    for (typed, told) in [
        (
            "crew retire nobody --why x --demo",
            "See who is with hames crew list --demo.",
        ),
        (
            "crew retire nobody --why x --logbook share/hames/demo",
            "See who is with hames crew list --logbook share/hames/demo.",
        ),
    ] {
        let ended = demo.hames(typed).typed("demo\ndemo\ndemo\n").run();
        let all = ended.out + &ended.err;
        assert!(all.contains(told), "{typed}: {all}");
    }
}
