//! A record drawn.

use crate::desk::{TaleLine, Weight};
use crate::tui::page::{Page, Rank};
use crate::tui::record::Reading;
use crate::tui::text::escaped;
use crate::tui::theme::Ink;

/// Writes the record: findings and exceptions first.
pub(in crate::tui) fn body(reading: &Reading, page: &mut Page) {
    let tale = &reading.tale;
    lines(page, "What checking the record found", &tale.findings);
    lines(page, "Signatures", &tale.signatures);
    let exceptions: Vec<&TaleLine> = tale
        .lines
        .iter()
        .filter(|line| line.weight == Weight::Exception)
        .collect();
    if exceptions.is_empty() {
        page.say(Rank::Needed, Ink::Strong, "No exceptions");
    } else {
        page.say(Rank::Needed, Ink::Strong, "Exceptions");
        page.items(Rank::Needed, &told(exceptions.into_iter()));
    }
    page.say(Rank::Needed, Ink::Strong, "Every line");
    page.items(Rank::Needed, &told(tale.lines.iter()));
    for line in tale.heading.iter().skip(2) {
        page.say(Rank::Needed, Ink::Body, &escaped(line));
    }
}

fn lines(page: &mut Page, title: &str, texts: &[String]) {
    if texts.is_empty() {
        return;
    }
    page.say(Rank::Needed, Ink::Strong, title);
    for text in texts {
        page.say(Rank::Needed, Ink::Body, &escaped(text));
    }
}

fn told<'a>(lines: impl Iterator<Item = &'a TaleLine>) -> Vec<(String, Ink, String)> {
    let told = lines.map(|line| {
        let (mark, ink) = match line.weight {
            Weight::Plain => (" ", Ink::Body),
            Weight::Exception => ("!", Ink::Strong),
        };
        (
            format!("{mark} {}", escaped(&line.time)),
            ink,
            escaped(&line.what),
        )
    });
    told.collect()
}
