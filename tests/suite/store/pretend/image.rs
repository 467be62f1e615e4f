//! What lies on the pretended disk. Copies share what neither has changed since.

use super::fate::{Fate, Lots};
use super::state::{Move, Node};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What lies on a disk: what readers see, what is certain, and the changes between.
#[derive(Clone, Debug, Default)]
pub(crate) struct Image {
    pub(super) nodes: Vec<Arc<Node>>,
    pub(super) names: Arc<BTreeMap<PathBuf, usize>>,
    pub(super) certain: Arc<BTreeMap<PathBuf, usize>>,
    pub(super) moves: Vec<Move>,
    /// Goes on with every change of a file.
    pub(super) time: u64,
}

impl Image {
    /// What is left when the power is back.
    pub(crate) fn after_power_loss(&self, fate: Fate) -> Self {
        let mut lots = Lots::new(fate);
        let mut names = (*self.certain).clone();
        for change in &self.moves {
            if lots.name() {
                change.carry_out(&mut names);
            }
        }
        let reachable = |path: &Path| path.ancestors().all(|above| names.contains_key(above));
        let names = names
            .iter()
            .filter(|(path, _)| reachable(path))
            .map(|(path, node)| (path.clone(), *node));
        let names: Arc<BTreeMap<PathBuf, usize>> = Arc::new(names.collect());
        let nodes = self.nodes.iter().map(|node| {
            if node.is_certain() {
                return Arc::clone(node);
            }
            let mut bytes = node.certain.clone();
            for change in &node.pending {
                lots.arrive(change, &mut bytes);
            }
            Arc::new(Node {
                seen: bytes.clone(),
                certain: bytes,
                pending: Vec::new(),
                ..(**node).clone()
            })
        });
        Self {
            nodes: nodes.collect(),
            certain: Arc::clone(&names),
            names,
            moves: Vec::new(),
            time: self.time,
        }
    }

    /// Every file that a loss of power may take or change.
    pub(super) fn uncertain(&self) -> Vec<PathBuf> {
        let uncertain = |(path, node): &(&PathBuf, &usize)| {
            let at = &self.nodes[**node];
            let named = path.ancestors().all(|above| {
                let seen = self.names.get(above);
                seen.is_some() && seen == self.certain.get(above)
            });
            !(at.folder || named && at.is_certain())
        };
        let found = self.names.iter().filter(uncertain);
        found.map(|(path, _)| path.clone()).collect()
    }

    /// Gives a file or folder a name, for certain.
    pub(super) fn put(&mut self, path: &Path, node: Node) {
        let at = self.nodes.len();
        self.nodes.push(Arc::new(node));
        Arc::make_mut(&mut self.names).insert(path.to_owned(), at);
        Arc::make_mut(&mut self.certain).insert(path.to_owned(), at);
    }

    pub(super) fn node(&mut self, node: usize) -> &mut Node {
        Arc::make_mut(&mut self.nodes[node])
    }
}
