//! The plan of the house as `docs/architecture.md` writes it: two tables and two sentences.

/// What the document says.
pub(crate) struct Plan {
    pub(crate) layers: Vec<Layer>,
    /// How many of the first layers are pure.
    pub(crate) pure: usize,
    /// Names that no pure layer may use.
    pub(crate) never: Vec<String>,
    /// Outside names, each with the only layers that may use it.
    pub(crate) only_in: Vec<(String, Vec<String>)>,
}

/// One row of the table of layers.
pub(crate) struct Layer {
    pub(crate) name: String,
    pub(crate) may_name: Vec<String>,
}

/// What each word of the sentence “They never name …” means in code.
const MEANINGS: [(&str, &[&str]); 8] = [
    ("files", &["std::fs"]),
    ("environment", &["std::env"]),
    ("network", &["std::net"]),
    ("processes", &["std::process"]),
    ("threads", &["std::thread"]),
    (
        "a clock",
        &["SystemTime", "Instant", "Utc::now", "Local::now"],
    ),
    ("randomness", &["rand", "getrandom"]),
    ("printing", &["print!", "println!", "eprint!", "eprintln!"]),
];

impl Plan {
    /// Reads the document; a part that is missing stops the test with its name.
    pub(crate) fn read(markdown: &str) -> Self {
        let layers: Vec<Layer> = rows(markdown, "| layer | what it is | may name |")
            .into_iter()
            .map(|cells| Layer {
                name: cells[0].clone(),
                may_name: list(&cells[2]),
            })
            .collect();
        let only_in = rows(markdown, "| name | only in |")
            .into_iter()
            .flat_map(|cells| {
                let layers = list(&cells[1]);
                list(&cells[0])
                    .into_iter()
                    .map(move |name| (name, layers.clone()))
            })
            .collect();
        let last_pure = sentence(markdown, "The pure layers are `", ".");
        let last_pure = last_pure.rsplit('`').nth(1).expect("the last pure layer");
        let pure = 1 + layers
            .iter()
            .position(|layer| layer.name == last_pure)
            .expect("the last pure layer has a row");
        let never = never(sentence(markdown, "They never name ", "."));
        Self {
            layers,
            pure,
            never,
            only_in,
        }
    }

    /// Where `layer` stands in the table.
    pub(crate) fn place(&self, layer: &str) -> Option<usize> {
        self.layers.iter().position(|row| row.name == layer)
    }

    /// Whether `layer` may name the layer `other`.
    pub(crate) fn allows(&self, layer: &str, other: &str) -> bool {
        let row = self.place(layer).map(|place| &self.layers[place]);
        layer == other || row.is_some_and(|row| row.may_name.iter().any(|name| name == other))
    }

    /// The outside names that `layer` must not use. A row of the table is the finer word: it lets
    /// a pure layer use what the sentence keeps from the others.
    pub(crate) fn forbidden(&self, layer: &str) -> Vec<&str> {
        let (mine, others): (Vec<_>, Vec<_>) = self
            .only_in
            .iter()
            .partition(|(_, layers)| layers.iter().any(|name| name == layer));
        let pure = self.place(layer).is_some_and(|place| place < self.pure);
        let kept = self.never.iter().filter(|_| pure);
        let mut names: Vec<&str> = others
            .iter()
            .map(|(name, _)| name)
            .chain(kept)
            .filter(|name| mine.iter().all(|(allowed, _)| allowed != *name))
            .map(String::as_str)
            .collect();
        names.sort_unstable();
        names.dedup();
        names
    }
}

/// The rows below the one that reads `head`, as trimmed cells.
fn rows(markdown: &str, head: &str) -> Vec<Vec<String>> {
    let rows: Vec<Vec<String>> = markdown
        .lines()
        .skip_while(|line| line.trim() != head)
        .skip(2)
        .take_while(|line| line.starts_with('|'))
        .map(|line| line.trim().trim_matches('|').split('|'))
        .map(|cells| cells.map(|cell| cell.trim().to_owned()).collect())
        .collect();
    assert!(!rows.is_empty(), "no table `{head}` in the document");
    rows
}

/// `a, b` as names; a dash is none.
fn list(cell: &str) -> Vec<String> {
    cell.split(',')
        .map(|name| name.trim().trim_matches('`').to_owned())
        .filter(|name| !matches!(name.as_str(), "" | "–" | "-"))
        .collect()
}

fn sentence<'a>(markdown: &'a str, opening: &str, closing: &str) -> &'a str {
    let (_, rest) = markdown
        .split_once(opening)
        .unwrap_or_else(|| panic!("no sentence `{opening}…` in the document"));
    rest.split_once(closing).expect("the sentence ends").0
}

/// The list of the sentence as names in code. A word without a meaning here would be a promise
/// that nothing holds, so it stops the test.
fn never(list: &str) -> Vec<String> {
    list.replace(" or ", ", ")
        .split(", ")
        .flat_map(|word| {
            if let Some(name) = word.trim().strip_prefix('`') {
                return vec![name.trim_end_matches('`')];
            }
            let (_, names) = MEANINGS
                .iter()
                .find(|(meant, _)| *meant == word.trim())
                .unwrap_or_else(|| panic!("what does ‘never name {word}’ mean in code?"));
            names.to_vec()
        })
        .map(str::to_owned)
        .collect()
}
