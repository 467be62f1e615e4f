//! The sheet as one page that needs nothing else: no script, no font, no picture from elsewhere.

use crate::paper::{Sheet, SheetStep, Wanted};
use crate::text::escaped;
use std::fmt::Write;

const STYLE: &str = "\
body{font:11pt/1.35 serif;max-width:46em;margin:1em auto;padding:0 1em;color:#000;background:#fff}\
h1{font-size:16pt;margin:0}h2{font-size:12pt;border-bottom:1px solid #000;margin:1.2em 0 .3em}\
p{margin:.2em 0}ol,ul{margin:.2em 0;padding:0;list-style:none}\
.step{display:grid;grid-template-columns:2.4em 1fr;align-items:baseline;margin:.5em 0;break-inside:avoid}\
.number{font-weight:bold}.warning{font-weight:bold;border:1px solid #000;padding:.1em .4em}\
.blank{display:inline-block;border-bottom:1px solid #000;min-width:7em;height:1.1em}\
.box{display:inline-block;width:.8em;height:.8em;border:1px solid #000;margin-right:.5em}\
.leads{font-weight:bold}.limit{font-size:9.5pt}.later{break-before:page}\
@media print{body{margin:0;max-width:none}}";

/// The sheet as one HTML page.
pub fn html(sheet: &Sheet) -> String {
    let mut page = Page(String::new());
    let title = escaped(&sheet.title);
    page.put(&format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}, revision {}</title>\n\
         <style>{STYLE}</style>\n</head>\n<body>\n<h1>{title}</h1>",
        sheet.revision
    ));
    page.words(
        "p",
        &format!("Revision {}. Rig: {}", sheet.revision, sheet.rig),
    );
    if let Some(standing) = &sheet.standing {
        page.put(&format!("<p class=\"warning\">{}</p>", escaped(standing)));
    }
    page.fields(&[
        &["Date", "Began", "Ended", "Odometer"],
        &["Reads and writes", "Does the work"],
        &["Second person", "Air temperature"],
    ]);
    for caution in &sheet.cautions {
        page.put(&format!("<p><b>Caution:</b> {}</p>", escaped(caution)));
    }
    for section in &sheet.sections {
        if section.steps.is_empty() {
            continue;
        }
        let pause = if section.pause {
            "PAUSE, everything else stops: "
        } else {
            ""
        };
        page.words("h2", &format!("{pause}{}", section.title));
        for step in &section.steps {
            page.step(step);
        }
        page.put(&format!(
            "<p>{BOX}Complete: {}</p>",
            escaped(&section.complete)
        ));
    }
    page.put("<h2 class=\"later\">If something was found</h2>");
    for branch in &sheet.branches {
        page.put("<div class=\"step\">");
        page.put(&format!(
            "<span class=\"number\">{}</span><div>",
            escaped(&branch.mark)
        ));
        page.words("p", &branch.found);
        page.list(&branch.now);
        page.words("p", branch.ends);
        page.put("</div></div>");
    }
    if !sheet.limits.is_empty() {
        page.put("<h2 class=\"later\">Limits, to be read once the reading is written</h2>");
        for step in &sheet.limits {
            page.put(&format!(
                "<div class=\"step\"><span class=\"number\">{}</span><div>",
                step.number
            ));
            page.words("p", &step.name);
            page.list(&step.limits);
            page.put("</div></div>");
        }
    }
    if !sheet.left.is_empty() {
        page.put("<h2>Left out for this rig</h2>");
        let left = sheet
            .left
            .iter()
            .map(|(step, because)| format!("{step}: {because}"));
        page.list(&left.collect::<Vec<_>>());
    }
    page.words(
        "p",
        "What passed, by whom, when, with what: this sheet says no more than that.",
    );
    page.put(&format!(
        "<p>Outcome: {BOX}complete {BOX}incomplete {BOX}not fit to go {BOX}abandoned</p>"
    ));
    page.fields(&[&["Signed", "Printed name", "Time"]]);
    page.put("</body>\n</html>");
    page.0
}

const BOX: &str = "<span class=\"box\"></span>";

const BLANK: &str = "<span class=\"blank\"></span>";

struct Page(String);

impl Page {
    fn put(&mut self, text: &str) {
        self.0.push_str(text);
        self.0.push('\n');
    }

    fn words(&mut self, tag: &str, words: &str) {
        self.put(&format!("<{tag}>{}</{tag}>", escaped(words)));
    }

    fn list(&mut self, lines: &[String]) {
        self.put("<ul>");
        for line in lines {
            self.words("li", line);
        }
        self.put("</ul>");
    }

    fn fields(&mut self, rows: &[&[&str]]) {
        for row in rows {
            let fields = row.iter().fold(String::new(), |mut fields, name| {
                let _ = write!(fields, "{} {BLANK} ", escaped(name));
                fields
            });
            self.put(&format!("<p>{fields}</p>"));
        }
    }

    fn step(&mut self, step: &SheetStep) {
        self.put(&format!(
            "<div class=\"step\"><span class=\"number\">{}</span><div>",
            step.number
        ));
        if let Some(warning) = &step.warning {
            self.put(&format!(
                "<p class=\"warning\">WARNING: {}</p>",
                escaped(warning)
            ));
        }
        self.put(&format!(
            "<p><b>{}.</b> {}</p>",
            escaped(&step.name),
            escaped(&step.act)
        ));
        if let Some(when) = &step.when {
            self.words("p", &format!("Only if {when}."));
        }
        match &step.wanted {
            Wanted::Reading {
                unit,
                instrument,
                second,
                limits,
            } => {
                let who = if *second {
                    format!(" read by {BLANK}")
                } else {
                    String::new()
                };
                self.put(&format!(
                    "<p>{BLANK} {} with the {} {BLANK}{who} at {BLANK}</p>",
                    escaped(unit),
                    escaped(&instrument.replace('-', " "))
                ));
                self.put("<div class=\"limit\">");
                self.list(limits);
                self.put("</div>");
            }
            Wanted::Sighting { choices, second } => {
                self.put("<ul>");
                for choice in choices {
                    let leads = choice
                        .leads
                        .as_ref()
                        .map(|leads| format!(" <span class=\"leads\">{}</span>", escaped(leads)));
                    self.put(&format!(
                        "<li>{BOX}{}{}</li>",
                        escaped(&choice.seen),
                        leads.unwrap_or_default()
                    ));
                }
                self.put("</ul>");
                if *second {
                    self.put(&format!("<p>Looked at by {BLANK} at {BLANK}</p>"));
                }
            }
        }
        self.put("</div></div>");
    }
}
