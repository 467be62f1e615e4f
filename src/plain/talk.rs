//! Lines out, lines in. Nothing else here touches the input or the output.

use crate::plain::Options;
use crate::plain::stop::Stop;
use std::io::{self, BufRead, Write};
use zeroize::Zeroizing;

/// Most bytes kept of one line; what is typed is a reading or a sentence.
const LONGEST: usize = 8 * 1024;

/// The two ends of the conversation.
pub(crate) struct Talk<'a> {
    input: &'a mut dyn BufRead,
    output: &'a mut dyn Write,
    options: Options,
    /// Stands at every prompt: `DEMO`, `DRILL`, `UNAPPROVED`, or nothing.
    pub(crate) mark: String,
}

impl<'a> Talk<'a> {
    pub(crate) fn new(
        input: &'a mut dyn BufRead,
        output: &'a mut dyn Write,
        options: Options,
    ) -> Self {
        Self {
            input,
            output,
            options,
            mark: String::new(),
        }
    }

    /// Writes a line.
    pub(crate) fn say(&mut self, line: &str) -> io::Result<()> {
        let line = fit(line, self.options.ascii);
        writeln!(self.output, "{line}")
    }

    /// Writes an empty line, then a line with the mark before it: the head of a block.
    pub(crate) fn head(&mut self, line: &str) -> io::Result<()> {
        let line = self.marked(line);
        self.say("")?;
        self.say(&line)
    }

    /// Asks, and gives back the line that was typed, blanks at its ends taken off.
    pub(crate) fn ask(&mut self, question: &str) -> Result<String, Stop> {
        self.prompt(question)?;
        let line = self.line()?.ok_or(Stop::InputEnded)?;
        Ok(String::from_utf8_lossy(&line).trim().to_owned())
    }

    /// Asks for what must not be shown.
    pub(crate) fn ask_secret(&mut self, question: &str) -> Result<Zeroizing<String>, Stop> {
        self.prompt(question)?;
        if let Some(read) = self.options.secret {
            return match read() {
                Ok(typed) => Ok(typed),
                Err(error) if error.kind() == io::ErrorKind::UnexpectedEof => Err(Stop::InputEnded),
                Err(error) => Err(Stop::Broken(error)),
            };
        }
        let line = self.line()?.ok_or(Stop::InputEnded)?;
        let typed = std::str::from_utf8(&line).unwrap_or_default();
        Ok(Zeroizing::new(typed.to_owned()))
    }

    /// Before the prompt stands what was recorded, so it is sent out first.
    fn prompt(&mut self, question: &str) -> io::Result<()> {
        let question = self.marked(question);
        self.say(&question)?;
        write!(self.output, "> ")?;
        self.output.flush()
    }

    fn marked(&self, line: &str) -> String {
        if self.mark.is_empty() {
            line.to_owned()
        } else {
            format!("{}. {line}", self.mark)
        }
    }

    /// One line without its end; nothing at the end of the input. The rest of a line that is too
    /// long is dropped, so that it cannot answer the next question.
    fn line(&mut self) -> io::Result<Option<Zeroizing<Vec<u8>>>> {
        let mut line = Zeroizing::new(Vec::with_capacity(LONGEST));
        let mut any = false;
        loop {
            let ready = match self.input.fill_buf() {
                Ok(ready) => ready,
                Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
                Err(error) => return Err(error),
            };
            if ready.is_empty() {
                return Ok(any.then_some(line));
            }
            any = true;
            let end = ready.iter().position(|byte| *byte == b'\n');
            let part = ready.iter().take(end.unwrap_or(ready.len()));
            let room = LONGEST.saturating_sub(line.len());
            line.extend(part.take(room));
            let taken = end.map_or(ready.len(), |end| end + 1);
            self.input.consume(taken);
            if end.is_some() {
                if line.last() == Some(&b'\r') {
                    line.pop();
                }
                return Ok(Some(line));
            }
        }
    }
}

/// A line as the terminal can take it: no control character, and ASCII where asked.
fn fit(line: &str, ascii: bool) -> String {
    let mut fitted = String::with_capacity(line.len());
    for letter in line.chars() {
        match letter {
            letter if letter.is_control() => fitted.push('?'),
            letter if letter.is_ascii() || !ascii => fitted.push(letter),
            '“' | '”' => fitted.push('"'),
            '‘' | '’' => fitted.push('\''),
            '–' | '—' | '·' => fitted.push('-'),
            '…' => fitted.push_str("..."),
            '°' => fitted.push_str("deg"),
            '×' => fitted.push('x'),
            '²' => fitted.push_str("^2"),
            '³' => fitted.push_str("^3"),
            '§' => fitted.push_str("sec."),
            _ => fitted.push('?'),
        }
    }
    fitted
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heard(input: &[u8]) -> Vec<String> {
        let (mut input, mut output) = (input, Vec::new());
        let mut talk = Talk::new(&mut input, &mut output, Options::default());
        std::iter::from_fn(|| talk.ask("?").ok()).collect()
    }

    #[test]
    fn a_line_ends_with_a_line_end_a_windows_line_end_or_the_input() {
        assert_eq!(
            heard(b"65 psi\r\n\n yes \nlast"),
            ["65 psi", "", "yes", "last"]
        );
        assert_eq!(heard(b""), [""; 0]);
    }

    #[test]
    fn the_rest_of_a_line_too_long_answers_nothing() {
        let long = [b"x".repeat(3 * LONGEST), b"\nnext\n".to_vec()].concat();
        let heard = heard(&long);
        assert_eq!(
            (heard.len(), heard[0].len(), heard[1].as_str()),
            (2, LONGEST, "next")
        );
    }

    #[test]
    fn no_control_character_reaches_the_terminal() {
        assert_eq!(fit("a\u{1b}[2Jb\u{9b}c", false), "a?[2Jb?c");
        assert_eq!(fit("“65 N·m” 32 °F", true), "\"65 N-m\" 32 degF");
        assert_eq!(fit("“65 N·m”", false), "“65 N·m”");
    }

    #[test]
    fn the_mark_stands_at_every_prompt() {
        let (mut input, mut output) = (&b"1\n"[..], Vec::new());
        let mut talk = Talk::new(&mut input, &mut output, Options::default());
        talk.mark = "DEMO".to_owned();
        talk.ask("Which rig?").unwrap();
        assert_eq!(output, b"DEMO. Which rig?\n> ");
    }
}
