//! A document made of a tree, with the text it is written as, and without reading that text again.

use crate::document::grow::{Content, Entry, Item, Step};
use crate::document::{Document, Remarks, Spot, Tree};

impl Document {
    /// The document a tree is written as.
    pub(crate) fn of(tree: &Tree) -> Self {
        let mut items = Vec::new();
        plant(tree, None, Step::Own, &mut items);
        Self {
            text: tree.written(&Remarks::default()),
            items,
            faults: Vec::new(),
        }
    }

    /// Its text.
    pub(crate) fn text(&self) -> &str {
        &self.text
    }
}

/// Puts a value and all below it behind the items so far, in the order the parser meets them.
fn plant(tree: &Tree, parent: Option<Spot>, step: Step, items: &mut Vec<Item>) -> Spot {
    let spot = add(parent, step, items);
    let content = match tree {
        Tree::Text(text) => Content::Text(text.clone()),
        Tree::Bare(bare) => match bare.as_str() {
            "true" => Content::Flag(true),
            "false" => Content::Flag(false),
            digits => Content::Number(digits.to_owned()),
        },
        Tree::List(values) => {
            let values = values.iter().enumerate();
            let planted = values.map(|(at, value)| plant(value, Some(spot), Step::At(at), items));
            Content::List(planted.collect())
        }
        Tree::Map(entries) => {
            let planted = entries.iter().map(|(key, value)| {
                let own = add(Some(spot), Step::Own, items);
                fill(own, Content::Text(key.clone()), items);
                let value = plant(value, Some(spot), Step::Under(own), items);
                Entry { key: own, value }
            });
            Content::Map(planted.collect())
        }
    };
    fill(spot, content, items);
    spot
}

fn add(parent: Option<Spot>, step: Step, items: &mut Vec<Item>) -> Spot {
    let spot = Spot(items.len());
    items.push(Item {
        parent,
        step,
        content: Content::Nothing,
    });
    spot
}

fn fill(spot: Spot, content: Content, items: &mut [Item]) {
    if let Some(item) = items.get_mut(spot.0) {
        item.content = content;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_document_of_a_tree_is_the_one_its_text_reads_as() {
        for text in [
            "format: some/1\nlist:\n  - { id: a, flag: true, count: 54, size: 5/8 in }\n  - b\nempty: {}\nodd: \"54\"\n",
            include_str!("../../checklists/hitch-bumper.yaml"),
            include_str!("../../checklists/season-service.yaml"),
            include_str!("../../checklists/demo/juniper.yaml"),
        ] {
            let tree = Document::parse(text).unwrap().tree();
            let planted = Document::of(&tree);
            let read = Document::parse(planted.text()).unwrap();
            assert_eq!(format!("{:?}", planted.items), format!("{:?}", read.items));
            assert_eq!(planted.text(), read.text());
        }
    }
}
