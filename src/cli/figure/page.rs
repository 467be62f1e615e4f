//! The pages of formulas as text: one for `hames figure NAME --page`, all for `docs/mechanics.md`.

use crate::mechanics::Page;
use std::fmt::Write;

/// What stands before the pages of all formulas.
const ABOUT: &str = "\
# Mechanics

For whoever wants to know where a computed number comes from before trusting it.

This page is what `hames figure --page` prints, made of the pages that stand beside the formulas; a test holds it to that.
On a walk, `why` opens the same page with the numbers of the rig.

## How to read it

Every name of an input ends in its unit: `gross_lb`, `pressure_psi`, `length_in`.
Pressure is by gauge unless it says otherwise.
On the truck, x runs rearward from the front axle; on the trailer, rearward from the middle of the ball.
z runs up from the ground, y to the right.
Pitch is positive with the trailer's nose up.
A push on the ball is positive downward.
The rate of an axle is that of both its sides, its tires counted in.

`hames figure NAME` reads inputs as JSON and prints outputs as JSON.
An input out of range is refused with what the formula takes; nothing is clamped, and nothing comes out that is no number.

## What is never done with it

No number here gives leave to drive, and no speed is called right.
A scale ticket, a plate, a stamp and a maker's manual come before any formula here.
Nothing is shown finer than it is known: 10 lb, 0.1 degree, 0.1 in, 1 psi.
Where the rig file does not say what a formula needs, the program says so and falls back to a rule of thumb by name; it does not guess.

## How it is checked

[`tests/vectors/mechanics`](../tests/vectors/mechanics) holds a table of rows for each part: inputs, what must come out, how nearly, and the source beside it.
The rows come from printed tables, regulations, published examples, reckoning by hand, and a model written apart from this program.
Beside the formulas stand the laws that must hold for any number: forces and moments in balance, more load never from less pressure, there and back again.
";

/// The page of every formula, after an introduction.
pub(super) fn all(pages: impl Iterator<Item = &'static Page>) -> String {
    pages.fold(ABOUT.to_owned(), |text, page| text + "\n" + &one(page))
}

/// The page of one formula.
pub(super) fn one(page: &Page) -> String {
    let mut text = format!(
        "## {}\n\n`hames figure {}`\n\n{}\n\n```text\n{}\n```\n\n",
        page.title,
        page.name,
        lines(page.situation),
        page.formula.replace("; ", "\n").replace(". ", "\n"),
    );
    text += "| symbol | meaning and unit |\n|---|---|\n";
    for (symbol, meaning) in page.symbols {
        let row = [*symbol, *meaning].map(|cell| cell.replace('|', "\\|"));
        // Writing to a string does not fail.
        let _ = writeln!(text, "| {} |", row.join(" | "));
    }
    for (what, said) in [
        ("Holds for", page.holds),
        ("Takes for granted", page.assumes),
        ("Never", page.never),
    ] {
        let _ = write!(text, "\n**{what}:** {}\n", lines(said));
    }
    let _ = write!(
        text,
        "\n**Source:** {}.\n",
        page.source.trim_end_matches('.')
    );
    text
}

/// One sentence a line.
fn lines(prose: &str) -> String {
    prose.replace(". ", ".\n")
}
