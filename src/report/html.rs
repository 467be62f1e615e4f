//! A page as one HTML file that needs nothing else: no script, no font, no picture and no address
//! from elsewhere, and a policy in it that forbids them.

use crate::report::page::{Block, Chart, DayCell, Days, Item, Page, Table};
use crate::text::escaped;

/// Forbids all but the style in the file itself, whatever else might have come in.
const POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// Black on white, so that it prints without colour; no size of paper, so that it fits any.
const STYLE: &str = "\
@page{margin:10mm}*{box-sizing:border-box}\
body{font:10.5pt/1.35 sans-serif;color:#000;background:#fff;max-width:62em;margin:1em auto;\
padding:0 1em}\
h1{font-size:1.5em;margin:0 0 .2em}h2{font-size:1.12em;border-bottom:1.5px solid #000;\
margin:.6em 0 .2em;break-after:avoid}h3{font-size:1em;margin:.3em 0 .1em}\
p{margin:.2em 0}ul,ol{margin:.2em 0;padding-left:1.4em}li{margin:.1em 0}\
.warning{font-weight:bold;border:2px solid #000;padding:.2em .5em}\
.strong{font-weight:bold}.short{columns:2;column-gap:2em;padding:0;list-style:none}.items{columns:2;column-gap:2.5em}\
.top{display:grid;grid-template-columns:1fr 1fr;gap:1.5em;align-items:start}\
figure{margin:0}figcaption{font-size:.88em}svg{display:block;width:100%;height:auto}\
table{border-collapse:collapse;width:100%;font-size:.92em}\
caption{text-align:left;font-size:.95em;padding:.1em 0}\
th,td{text-align:left;vertical-align:top;padding:.04em .5em .04em 0;border-bottom:1px solid #999;\
font-weight:normal}thead th{font-weight:bold;border-bottom:1.5px solid #000}\
tr.strong th,tr.strong td{font-weight:bold}tr{break-inside:avoid}\
.days{table-layout:fixed}.days td{border:1px solid #999;padding:.2em .35em;height:4.4em;\
font-size:.92em}.days td.strong{border:2.5px solid #000;font-weight:bold}.days .none{background:#eee}\
.day{display:block;font-weight:bold}\
.charts{display:grid;grid-template-columns:repeat(3,1fr);gap:.5em 1.2em}\
.charts figure{break-inside:avoid}.charts p{font-size:.88em}\
.foot{margin-top:1em;border-top:1.5px solid #000;font-size:.88em}\
@media screen and (max-width:48em){.top,.charts{grid-template-columns:1fr}.short,.items{columns:1}}\
@media print{body{font-size:7.7pt;line-height:1.2;max-width:none;margin:0;padding:0}\
.top{grid-template-columns:1.25fr .75fr}p{margin:.1em 0}.short{columns:3;column-gap:1.5em}.small{grid-template-columns:repeat(4,1fr)}\
thead{display:table-header-group}}";

/// The page as one HTML file.
pub fn html(page: &Page) -> String {
    let title = escaped(&page.title);
    let mut out = Out(format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{title}</title>\n\
         <style>{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n"
    ));
    if let Some(warning) = &page.warning {
        out.words("p class=\"warning\"", warning);
    }
    out.put("<div class=\"top\">\n<div>");
    for line in &page.cover {
        out.words("p", line);
    }
    out.put("</div>");
    if let Some(picture) = &page.picture {
        out.put("<figure>");
        out.put(picture.svg.trim_end());
        out.words("figcaption", &picture.told);
        out.put("</figure>");
    }
    out.put("</div>");
    for part in &page.parts {
        out.put("<section>");
        out.words("h2", &part.title);
        for block in &part.blocks {
            out.block(block);
        }
        out.put("</section>");
    }
    out.put("</main>\n<footer class=\"foot\">");
    for line in &page.foot {
        out.words("p", line);
    }
    out.put("</footer>\n</body>\n</html>");
    out.0
}

/// Letters of a word after which a line may end inside it: no honest word is so long.
const LONGEST: usize = 24;

/// Text as HTML shows it, with a place to break in words that are too long for a column.
fn shown(text: &str) -> String {
    let (mut shown, mut run) = (String::with_capacity(text.len()), 0_usize);
    for letter in text.chars() {
        run = if letter == ' ' { 0 } else { run + 1 };
        if run > LONGEST {
            shown.push_str("<wbr>");
            run = 1;
        }
        shown.push_str(&escaped(letter.encode_utf8(&mut [0; 4])));
    }
    shown
}

struct Out(String);

impl Out {
    fn put(&mut self, markup: &str) {
        self.0.push_str(markup);
        self.0.push('\n');
    }

    /// An element, which may have attributes, around words.
    fn words(&mut self, tag: &str, words: &str) {
        let (name, _) = tag.split_once(' ').unwrap_or((tag, ""));
        self.put(&format!("<{tag}>{}</{name}>", shown(words)));
    }

    fn list(&mut self, tag: &str, lines: &[String]) {
        self.put(&format!("<{tag}>"));
        for line in lines {
            self.words("li", line);
        }
        self.put("</ul>");
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Words(words) => self.words("p", words),
            Block::Strong(words) => self.words("p class=\"strong\"", words),
            Block::List(lines) => self.list("ul", lines),
            Block::Run(lines) => self.words("p", &lines.join(" · ")),
            Block::Short(lines) => self.list("ul class=\"short\"", lines),
            Block::Items(items) => self.items(items),
            Block::Table(table) => self.table(table),
            Block::Days(days) => self.days(days),
            Block::Charts(charts) => self.charts("charts", charts),
            Block::Small(charts) => self.charts("charts small", charts),
        }
    }

    fn items(&mut self, items: &[Item]) {
        self.put("<ol class=\"items\">");
        for Item { head, lines } in items {
            let lines: Vec<String> = lines.iter().map(|line| shown(line)).collect();
            let lines = lines.join("<br>\n");
            self.put(&format!("<li>{}<br>\n{lines}</li>", shown(head)));
        }
        self.put("</ol>");
    }

    fn table(&mut self, table: &Table) {
        self.put("<table>");
        self.words("caption", &table.caption);
        self.put("<thead><tr>");
        for head in &table.heads {
            self.words("th scope=\"col\"", head);
        }
        self.put("</tr></thead>\n<tbody>");
        for row in &table.rows {
            let class = if row.strong { " class=\"strong\"" } else { "" };
            let mut cells = row.cells.iter();
            let first = cells.next().map_or("", String::as_str);
            let first = format!("<th scope=\"row\">{}</th>", shown(first));
            let cells = cells.map(|cell| format!("<td>{}</td>", shown(cell)));
            let cells: Vec<String> = cells.collect();
            self.put(&format!("<tr{class}>{first}{}</tr>", cells.concat()));
        }
        self.put("</tbody>\n</table>");
    }

    fn days(&mut self, days: &Days) {
        self.put("<table class=\"days\">");
        self.words("caption", &days.caption);
        self.put("<thead><tr>");
        for day in WEEKDAYS {
            self.words("th scope=\"col\"", day);
        }
        self.put("</tr></thead>\n<tbody>");
        for week in &days.weeks {
            let cells: String = week.iter().map(|day| cell(day.as_ref())).collect();
            self.put(&format!("<tr>{cells}</tr>"));
        }
        self.put("</tbody>\n</table>");
    }

    fn charts(&mut self, class: &str, charts: &[Chart]) {
        self.put(&format!("<div class=\"{class}\">"));
        for chart in charts {
            self.put("<figure>");
            self.words("h3", &chart.title);
            if let Some(svg) = &chart.svg {
                self.put(svg.trim_end());
            }
            self.put("<figcaption>");
            for line in &chart.told {
                self.words("p", line);
            }
            self.put("</figcaption>\n</figure>");
        }
        self.put("</div>");
    }
}

/// The heads of a month's columns.
pub(super) const WEEKDAYS: [&str; 7] = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];

fn cell(day: Option<&DayCell>) -> String {
    let Some(day) = day else {
        return "<td class=\"none\"></td>".to_owned();
    };
    let class = if day.strong { " class=\"strong\"" } else { "" };
    let lines: Vec<String> = day.lines.iter().map(|line| shown(line)).collect();
    format!(
        "<td{class}><span class=\"day\">{}</span>{}</td>",
        day.day,
        lines.join("<br>")
    )
}
