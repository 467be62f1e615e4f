//! A page as lines of text, for mail, terminals and screen readers. Nothing in it moves a cursor.

use crate::report::html::WEEKDAYS;
use crate::report::page::{Block, Days, Page, Table};
use crate::text::{harmless, put};

/// The page as text. No line is longer than 80 columns, but for a word that is.
pub fn text(page: &Page) -> String {
    let mut out = Out(String::new());
    out.put(0, &page.title);
    if let Some(warning) = &page.warning {
        out.put(0, warning);
    }
    for line in &page.cover {
        out.put(0, line);
    }
    for part in &page.parts {
        out.0.push('\n');
        out.put(0, &part.title);
        for block in &part.blocks {
            out.block(block);
        }
    }
    out.0.push('\n');
    for line in &page.foot {
        out.put(0, line);
    }
    out.0
}

struct Out(String);

impl Out {
    fn put(&mut self, indent: usize, words: &str) {
        put(&mut self.0, indent, &harmless(words));
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Words(words) => self.put(2, words),
            Block::Strong(words) => self.put(2, &format!("!! {words}")),
            Block::List(lines) | Block::Run(lines) | Block::Short(lines) => {
                for line in lines {
                    self.put(2, line);
                }
            }
            Block::Items(items) => {
                for (number, item) in (1..).zip(items) {
                    self.put(2, &format!("{number}. {}", item.head));
                    for line in &item.lines {
                        self.put(5, line);
                    }
                }
            }
            Block::Table(table) => self.table(table),
            Block::Days(days) => self.days(days),
            Block::Charts(charts) | Block::Small(charts) => {
                for chart in charts {
                    self.put(2, &chart.title);
                    for line in &chart.told {
                        self.put(5, line);
                    }
                    for line in chart.letters.iter().flat_map(|letters| letters.lines()) {
                        self.0.push_str(&harmless(line));
                        self.0.push('\n');
                    }
                }
            }
        }
    }

    /// A row is told in words: its first cell, then each other one behind its head.
    fn table(&mut self, table: &Table) {
        self.put(2, &table.caption);
        for row in &table.rows {
            let mut cells = table.heads.iter().zip(&row.cells);
            if let Some((_, first)) = cells.next() {
                self.put(2, first);
            }
            let cells = cells.filter(|(_, cell)| !cell.is_empty());
            let told: Vec<String> = cells
                .map(|(head, cell)| format!("{head}: {cell}"))
                .collect();
            self.put(5, &told.join(". "));
        }
    }

    fn days(&mut self, days: &Days) {
        self.put(2, &days.caption);
        for week in &days.weeks {
            for (weekday, day) in WEEKDAYS.iter().zip(week) {
                if let Some(day) = day.as_ref().filter(|day| !day.lines.is_empty()) {
                    self.put(
                        2,
                        &format!("{weekday} {}: {}", day.day, day.lines.join(", ")),
                    );
                }
            }
        }
    }
}
