//! A whole logbook, read once, and what reports need of it kept.

use crate::cli::clerk::{Books, Left, PROGRAM, Plans, TripRead, barn_name};
use crate::cli::logbook::gather::Gathered;
use crate::cli::logbook::glances::Glances;
use crate::cli::logbook::shelf::{Failed, shown};
use crate::cli::lot::lots;
use crate::cli::supply::settings;
use crate::haul::{Flagged, flagged};
use crate::logbook::table::OpenQuestion;
use crate::record::Id;
use crate::report::Made;
use crate::review::trend::Trends;
use crate::review::{Asking, Glance, attention};
use crate::rig::Rig;
use crate::store::{Local, TripFolder};
use crate::world::{Machine, World};
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::slice;

/// What there is to report of.
pub(in crate::cli::logbook) struct Whole {
    /// The trips that can be walked again, in order of time, each with its folder.
    pub(in crate::cli::logbook) trips: Vec<(Glance, PathBuf)>,
    /// What each of those of the days that are told of found not to be well.
    pub(in crate::cli::logbook) flagged: HashMap<Id, Vec<Flagged>>,
    /// The others, as sentences.
    pub(in crate::cli::logbook) closed: Vec<String>,
    /// How readings move, by the trips up to the last day.
    pub(in crate::cli::logbook) trends: Trends,
    /// What walks left.
    pub(in crate::cli::logbook) left: Left,
    /// The rigs, each as it was on its newest trip up to the last day.
    pub(in crate::cli::logbook) rigs: BTreeMap<String, Rig>,
    /// What managers asked, and what still stands.
    pub(in crate::cli::logbook) open: Vec<OpenQuestion>,
    /// What may be asked about how records came about.
    pub(in crate::cli::logbook) came_about: Vec<Asking>,
}

impl Whole {
    /// What a trip found not to be well.
    pub(in crate::cli::logbook) fn flagged(&self, trip: &Glance) -> &[Flagged] {
        self.flagged.get(&trip.trip).map_or(&[], Vec::as_slice)
    }
}

/// What is known of a report before anything is read.
pub(in crate::cli::logbook) fn made(place: &Path) -> Result<Made, Failed> {
    let books = Books::open(&Local, place)?;
    let named = settings(place).ok().flatten().and_then(|barn| barn.name);
    Ok(Made {
        barn: named.unwrap_or_else(|| barn_name(&books)),
        mode: books.mode(),
        at: Machine::this().now().wall,
        program: PROGRAM.to_owned(),
    })
}

/// Reads every trip once. Of readings and of the rigs themselves what came after the last day is
/// left out.
pub(in crate::cli::logbook) fn read(
    place: &Path,
    until: Option<NaiveDate>,
) -> Result<Whole, Failed> {
    let mut whole = Whole {
        trips: Vec::new(),
        flagged: HashMap::new(),
        closed: Vec::new(),
        trends: Trends::default(),
        left: Left::default(),
        rigs: BTreeMap::new(),
        open: Vec::new(),
        came_about: Vec::new(),
    };
    let (mut plans, now) = (Plans::default(), Some(Machine::this().now().wall));
    let mut gathered = Gathered::default();
    for lot in lots(slice::from_ref(&place.to_owned()), &[])? {
        whole.left.say(&lot.statements);
        let mut glances = Glances::beside(&lot.statements);
        let mut newest: HashMap<String, DateTime<FixedOffset>> = HashMap::new();
        let mut taken: HashSet<Id> = HashSet::new();
        let mut see = |folder: &TripFolder, read: &TripRead| {
            gathered.take(folder, (Ok(read), read.finding()), &lot.statements);
            let glance = glances.take(folder, read);
            let (Some(glance), Some(trip), Ok(walk)) = (glance, read.trip(), read.walk()) else {
                return;
            };
            whole.left.take(read, (trip, &walk));
            let is_in = until.is_none_or(|until| glance.at.date_naive() <= until);
            if is_in && taken.insert(trip.begun().trip.clone()) {
                whole.trends.take((trip, &walk));
                let flagged = flagged(&walk);
                if !flagged.is_empty() {
                    whole.flagged.insert(trip.begun().trip.clone(), flagged);
                }
                let at = newest.entry(glance.rig.clone()).or_insert(glance.at);
                if *at <= glance.at {
                    *at = glance.at;
                    let rig = walk.plan().rig().clone();
                    whole.rigs.insert(glance.rig.clone(), rig);
                }
            }
        };
        let section = lot.judge_seeing(&mut plans, now, &mut see)?;
        let looked = glances.settled(&section);
        whole.trips.extend(looked.glances);
        let closed = looked.closed.iter();
        let closed = closed.map(|(path, finding)| format!("{} is {finding}", shown(path)));
        whole.closed.extend(closed);
        gathered.leave_ended(&section.judged);
        whole.open.extend(OpenQuestion::all(&lot.statements));
    }
    whole.trips.sort_by_key(|(glance, _)| glance.at);
    whole.came_about = attention(gathered.briefs);
    Ok(whole)
}
