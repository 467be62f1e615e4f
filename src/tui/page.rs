//! A page of text: blocks by rank, of which a small window shows the first ranks only.

mod placed;

use crate::tui::Look;
use crate::tui::page::placed::{Laid, Placed};
use crate::tui::text::{MEASURE, columns, wrap};
use crate::tui::theme::Ink;
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use std::borrow::Cow;

/// A line of which the text is drawn so, and not the rest of its row.
pub(super) fn inked(text: impl Into<Cow<'static, str>>, style: Style) -> Line<'static> {
    Line::from(Span::styled(text, style))
}

/// How much a block is needed. In a window too small for all, the highest ranks go first; what is
/// needed never goes, it scrolls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// Without it the step cannot be done or answered.
    Needed,
    /// Shows at a glance what it means.
    Wanted,
    /// Explains the limit or the consequence.
    Useful,
    /// Good to know.
    Extra,
}

/// A line to choose: what is pressed for it, what it says, and what stands small behind it.
pub(super) struct Listed {
    pub(super) head: String,
    pub(super) text: String,
    pub(super) tail: String,
}

/// A page being written.
pub(super) struct Page {
    look: Look,
    width: usize,
    blocks: Vec<Block>,
}

struct Block {
    rank: Rank,
    /// Whether it belongs to the block before it, with no gap between.
    close: bool,
    lines: Vec<Line<'static>>,
    /// Line and column of the cursor.
    cursor: Option<(usize, usize)>,
    /// A line that stays in sight.
    focus: Option<usize>,
}

impl Page {
    /// An empty page so many columns wide; running text keeps to the measure.
    pub(super) fn new(look: Look, width: u16) -> Self {
        let measure = if look.big { 40 } else { MEASURE };
        Self {
            look,
            width: usize::from(width).min(measure),
            blocks: Vec::new(),
        }
    }

    /// Columns of text.
    pub(super) fn width(&self) -> usize {
        self.width
    }

    pub(super) fn look(&self) -> Look {
        self.look
    }

    /// A paragraph.
    pub(super) fn say(&mut self, rank: Rank, ink: Ink, text: &str) {
        let lines = self.wrapped(ink, text, "");
        self.lines(rank, lines);
    }

    /// A paragraph whose later lines stand in below a first word: `1  Latched, pin through`.
    pub(super) fn item(&mut self, rank: Rank, head: &str, ink: Ink, text: &str) {
        let lines = self.hung(head, ink, text);
        self.lines(rank, lines);
    }

    /// What the last block rests on: it stands right below it, and may go alone.
    pub(super) fn beneath(&mut self, rank: Rank, text: &str) {
        self.lines(rank, self.wrapped(Ink::Body, text, "  "));
        if let Some(block) = self.blocks.last_mut() {
            block.close = true;
        }
    }

    /// A paragraph whose first word is drawn in its own way.
    pub(super) fn marked(&mut self, head: &str, ink: Ink, text: &str) {
        let mut lines = self.hung(head, Ink::Strong, text);
        if let Some(first) = lines.first_mut().and_then(|line| line.spans.first_mut()) {
            *first = Span::styled(head.to_owned(), self.look.style(ink));
        }
        if let Some(line) = lines.first_mut() {
            line.spans.insert(1, Span::raw(" "));
        }
        self.lines(Rank::Needed, lines);
    }

    /// Several hanging paragraphs without a gap.
    pub(super) fn items(&mut self, rank: Rank, items: &[(String, Ink, String)]) {
        let lines = items
            .iter()
            .flat_map(|(head, ink, text)| self.hung(head, *ink, text));
        let lines = lines.collect();
        self.lines(rank, lines);
    }

    /// Rows of a hanging paragraph.
    pub(super) fn rows_of(&self, head: &str, text: &str) -> usize {
        self.hung(head, Ink::Body, text).len()
    }

    /// Lines to choose from, each with what stands small behind it; one of them is marked and kept
    /// in sight.
    pub(super) fn listed(&mut self, items: &[Listed], marked: Option<usize>) {
        let lines: Vec<_> = items
            .iter()
            .map(|item| {
                let tail = Some(&item.tail).filter(|tail| !tail.is_empty());
                let text = tail.map_or_else(
                    || item.text.clone(),
                    |tail| format!("{}  {tail}", item.text),
                );
                (item.head.clone(), Ink::Body, text)
            })
            .collect();
        self.choices(&lines, marked);
        let dim = self.look.style(Ink::Dim);
        let Some(block) = self.blocks.last_mut() else {
            return;
        };
        for (line, item) in block.lines.iter_mut().zip(items) {
            let Some(last) = line.spans.last_mut() else {
                continue;
            };
            // A line that had to be broken keeps its tail as it is.
            let split = last.content.strip_suffix(item.tail.as_str());
            if let Some(text) = split.filter(|_| !item.tail.is_empty()) {
                *last = Span::styled(text.to_owned(), last.style);
                line.spans.push(Span::styled(item.tail.clone(), dim));
            }
        }
    }

    /// As [`items`](Self::items), with one of them marked and kept in sight.
    pub(super) fn choices(&mut self, items: &[(String, Ink, String)], marked: Option<usize>) {
        let mut lines = Vec::new();
        let mut focus = None;
        for (at, (head, ink, text)) in items.iter().enumerate() {
            let here = marked == Some(at);
            if here {
                focus = Some(lines.len());
            }
            let head = format!("{} {head}", if here { ">" } else { " " });
            lines.extend(self.hung(&head, if here { Ink::Strong } else { *ink }, text));
        }
        self.blocks.push(Block {
            rank: Rank::Needed,
            close: false,
            lines,
            cursor: None,
            focus,
        });
    }

    /// Lines as they are.
    pub(super) fn lines(&mut self, rank: Rank, lines: Vec<Line<'static>>) {
        self.blocks.push(Block {
            rank,
            close: false,
            lines,
            cursor: None,
            focus: None,
        });
    }

    /// A field with what is typed in it, and the cursor behind that.
    pub(super) fn field(&mut self, head: &str, typed: &str, tail: &str) {
        let room = self
            .width
            .saturating_sub(columns(head) + columns(tail) + 2)
            .max(1);
        // The end of a long text is what is being typed.
        let mut start = typed;
        while columns(start) > room {
            let mut letters = start.chars();
            letters.next();
            start = letters.as_str();
        }
        let filled = columns(start);
        let blank = "_".repeat(room.saturating_sub(filled).min(24));
        let line = Line::from(vec![
            Span::styled(head.to_owned(), self.look.style(Ink::Strong)),
            Span::raw(" "),
            Span::styled(start.to_owned(), self.look.style(Ink::Input)),
            Span::styled(blank, self.look.style(Ink::Dim)),
            Span::raw(" "),
            Span::styled(tail.to_owned(), self.look.style(Ink::Strong)),
        ]);
        let cursor = Some((0, columns(head) + 1 + filled));
        let focus = (!typed.is_empty()).then_some(0);
        self.blocks.push(Block {
            rank: Rank::Needed,
            close: false,
            lines: vec![line],
            cursor,
            focus,
        });
    }

    /// Takes the keys from what is written so far: none of its lines can be chosen.
    pub(super) fn take_keys(&mut self) {
        let lines = self.blocks.iter_mut().flat_map(|block| &mut block.lines);
        lines.flat_map(|line| &mut line.spans).for_each(unpressed);
    }

    /// Steps what is written so far back behind what follows: what is needed of it stays, plain to
    /// the eye, and goes before what follows does.
    pub(super) fn step_back(&mut self) {
        let dim = self.look.style(Ink::Dim);
        self.blocks.retain(|block| block.rank == Rank::Needed);
        for block in &mut self.blocks {
            block.rank = Rank::Useful;
            (block.cursor, block.focus) = (None, None);
            let spans = block.lines.iter_mut().flat_map(|line| &mut line.spans);
            spans.for_each(|span| span.style = dim);
        }
        // Apart from what follows, also where nothing else has room around it.
        self.lines(Rank::Useful, vec![Line::default()]);
        if let Some(blank) = self.blocks.last_mut() {
            blank.close = true;
        }
    }

    /// Writes blocks with no gap between.
    pub(super) fn together(&mut self, write: impl FnOnce(&mut Self)) {
        let first = self.blocks.len();
        write(self);
        let blocks = self.blocks.iter_mut().skip(first + 1);
        blocks.for_each(|block| block.close = true);
    }

    fn wrapped(&self, ink: Ink, text: &str, indent: &str) -> Vec<Line<'static>> {
        wrap(text, self.width.saturating_sub(indent.len()))
            .into_iter()
            .map(|line| inked(format!("{indent}{line}"), self.look.style(ink)))
            .collect()
    }

    fn hung(&self, head: &str, ink: Ink, text: &str) -> Vec<Line<'static>> {
        let indent = columns(head) + 1;
        let wrapped = wrap(text, self.width.saturating_sub(indent));
        let lines = wrapped.into_iter().enumerate().map(|(at, line)| {
            let head = if at == 0 {
                format!("{head} ")
            } else {
                " ".repeat(indent)
            };
            Line::from(vec![
                Span::styled(head, self.look.style(Ink::Key)),
                Span::styled(line, self.look.style(ink)),
            ])
        });
        lines.collect()
    }

    /// The page as it fits: with gaps, then without, then by rank, and then from `scroll` on; with
    /// no scroll, so that the line to keep in sight is in it.
    pub(super) fn placed(&self, height: usize, scroll: usize) -> Placed {
        self.fitted(height).placed(height, scroll)
    }

    /// Rows the page takes with everything on it, and with what explains but no more.
    pub(super) fn wishes(&self) -> [usize; 2] {
        [Rank::Extra, Rank::Useful].map(|most| self.height(most, 1))
    }

    /// Rows the page takes with what is needed and what shows at a glance, and nothing between.
    pub(super) fn wishes_at_the_least(&self) -> usize {
        self.height(Rank::Wanted, 0)
    }

    /// How far the page can be scrolled in this height.
    pub(super) fn most_scroll(&self, height: usize) -> usize {
        self.fitted(height).over(height)
    }

    /// The fullest way of laying the page that fits, else the barest.
    fn fitted(&self, height: usize) -> Laid {
        let usual: &[(Rank, usize)] = &[
            (Rank::Extra, 1),
            (Rank::Useful, 1),
            (Rank::Extra, 0),
            (Rank::Wanted, 1),
            (Rank::Useful, 0),
            (Rank::Wanted, 0),
        ];
        // What is read at arm's length is little, with room around it.
        let big = &[(Rank::Wanted, 2), (Rank::Wanted, 1), (Rank::Wanted, 0)];
        let ways = if self.look.big { big } else { usual };
        let fits = |(rank, gap): &(Rank, usize)| self.height(*rank, *gap) <= height;
        let way = ways.iter().copied().find(fits);
        let (rank, gap) = way.unwrap_or((Rank::Needed, 0));
        self.laid(rank, gap)
    }

    /// The blocks of these ranks, each with the gap before it.
    fn kept(&self, most: Rank, gap: usize) -> impl Iterator<Item = (usize, &Block)> {
        let blocks = self.blocks.iter().filter(move |block| block.rank <= most);
        blocks.enumerate().map(move |(at, block)| {
            let gap = if at == 0 || block.close { 0 } else { gap };
            (gap, block)
        })
    }

    fn height(&self, most: Rank, gap: usize) -> usize {
        self.kept(most, gap)
            .map(|(gap, block)| gap + block.lines.len())
            .sum()
    }

    fn laid(&self, most: Rank, gap: usize) -> Laid {
        let mut laid = Laid {
            lines: Vec::new(),
            cursor: None,
            focus: None,
        };
        for (gap, block) in self.kept(most, gap) {
            laid.lines.extend(std::iter::repeat_n(Line::default(), gap));
            let first = laid.lines.len();
            if let Some((line, column)) = block.cursor {
                laid.cursor = Some((first + line, column));
            }
            laid.focus = block.focus.map(|line| first + line).or(laid.focus);
            laid.lines.extend(block.lines.iter().cloned());
        }
        laid
    }
}

/// The key a line is chosen by becomes a dash, as wide as it was.
fn unpressed(head: &mut Span<'static>) {
    let mut letters = head.content.chars();
    let one = letters
        .next()
        .is_some_and(|key| key.is_ascii_alphanumeric());
    if one && letters.as_str() == " " {
        head.content = Cow::Borrowed("- ");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tui::Theme;

    const LOOK: Look = Look {
        theme: Theme::Own,
        colour: true,
        ascii: false,
        big: false,
    };

    fn text(placed: &Placed) -> Vec<String> {
        placed.lines.iter().map(ToString::to_string).collect()
    }

    fn page(width: u16) -> Page {
        let mut page = Page::new(LOOK, width);
        page.say(Rank::Needed, Ink::Body, "needed");
        page.say(Rank::Wanted, Ink::Body, "wanted");
        page.say(Rank::Extra, Ink::Body, "extra");
        page
    }

    #[test]
    fn running_text_keeps_to_the_measure_however_wide_the_window_is() {
        let mut page = Page::new(LOOK, 200);
        page.say(Rank::Needed, Ink::Body, &"word ".repeat(40));
        let lines = text(&page.placed(20, 0));
        assert!(
            lines.iter().all(|line| columns(line) <= MEASURE),
            "{lines:?}"
        );
    }

    #[test]
    fn what_explains_goes_first_then_the_gaps_and_what_is_needed_never() {
        let page = page(40);
        assert_eq!(
            text(&page.placed(5, 0)),
            ["needed", "", "wanted", "", "extra"]
        );
        assert_eq!(text(&page.placed(4, 0)), ["needed", "", "wanted"]);
        assert_eq!(text(&page.placed(2, 0)), ["needed", "wanted"]);
        assert_eq!(text(&page.placed(1, 0)), ["needed"]);
        assert_eq!(text(&page.placed(0, 0)), [""; 0]);
    }

    #[test]
    fn what_is_needed_scrolls_to_its_last_line_and_no_further() {
        let mut page = Page::new(LOOK, 40);
        for word in ["one", "two", "three", "four"] {
            page.say(Rank::Needed, Ink::Body, word);
        }
        let placed = page.placed(3, 0);
        assert_eq!(
            (text(&placed), placed.more),
            (
                vec!["one".to_owned(), "two".to_owned()],
                Some("-- Down: more --")
            )
        );
        assert_eq!(page.most_scroll(3), 2);
        let placed = page.placed(3, 9);
        assert_eq!(
            (text(&placed), placed.more),
            (
                vec!["three".to_owned(), "four".to_owned()],
                Some("-- Up: more --")
            )
        );
    }

    #[test]
    fn the_field_being_typed_in_stays_in_sight_with_its_cursor() {
        let mut page = Page::new(LOOK, 20);
        for _ in 0..9 {
            page.say(Rank::Needed, Ink::Body, "line");
        }
        page.field("Reading:", "65", "psi");
        let placed = page.placed(4, 0);
        assert_eq!(placed.lines.len(), 3);
        assert_eq!(placed.cursor, Some((2, 11)));
    }
}
