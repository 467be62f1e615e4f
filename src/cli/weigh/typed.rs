//! Tickets as typed behind the flags.

use crate::cli::args::{ScaleUnit, WeighArgs};
use crate::figures::weighing::Tickets;
use crate::rig::HitchKind;
use crate::units::{Exact, Quantity, Unit};
use std::fmt;

/// Tickets whose numbers could be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedTickets {
    unit: Unit,
    step: Exact,
    /// Whether the step is the usual one, which nobody typed.
    usual: bool,
    alone: [Exact; 2],
    hitched: [Exact; 3],
    bars: Option<[Exact; 3]>,
    trailer: Option<Exact>,
}

/// Why what was typed is no ticket.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTyped {
    /// Other than so many numbers behind a flag.
    NotSoMany(&'static str, usize),
    /// Something that is no number.
    NotANumber(&'static str, String),
    /// Numbers that do not make the total typed behind them: what they make, and the total.
    OtherTotal(&'static str, Quantity, Quantity),
    /// No step is typed, and every reading is a whole number of these.
    StepUnsaid(Quantity),
    /// Nobody says how the ball is carried.
    Unjoined,
}

/// A scale whose readings are all whole numbers of so many usual steps may print no finer.
const COARSER: i64 = 5;

impl TypedTickets {
    /// The tickets behind the flags, if there are any.
    pub(in crate::cli) fn read(args: &WeighArgs) -> Result<Option<Self>, NotTyped> {
        let (Some(alone), Some(hitched), Some(unit)) = (&args.alone, &args.hitched, args.unit)
        else {
            return Ok(None);
        };
        let unit = match unit {
            ScaleUnit::Lb => Unit::Pound,
            ScaleUnit::Kg => Unit::Kilogram,
        };
        let one = |flag, text: &Option<String>| {
            let text = text.as_deref();
            text.map(|text| readings(flag, text, unit).map(|[one]| one))
                .transpose()
        };
        let bars = args.bars.as_deref();
        let mut typed = Self {
            unit,
            step: Exact::zero(),
            usual: args.step.is_none(),
            alone: readings("--alone", alone, unit)?,
            hitched: readings("--hitched", hitched, unit)?,
            bars: bars
                .map(|text| readings("--bars", text, unit))
                .transpose()?,
            trailer: one("--trailer", &args.trailer)?,
        };
        typed.step = match one("--step", &args.step)? {
            Some(step) => step,
            None => typed.usual_step()?,
        };
        Ok(Some(typed))
    }

    /// Of a rig of this kind.
    pub(super) fn of(&self, kind: HitchKind) -> Tickets {
        let own = self.clone();
        Tickets {
            kind,
            unit: own.unit,
            step: own.step,
            alone: own.alone,
            hitched: own.hitched,
            bars: own.bars,
            trailer: own.trailer,
        }
    }

    /// The usual step, where nobody typed one.
    pub(super) fn unsaid_step(&self) -> Option<Quantity> {
        self.usual
            .then(|| Quantity::new(self.step.clone(), self.unit))
    }

    /// The step that most public scales print, unless these readings look coarser.
    fn usual_step(&self) -> Result<Exact, NotTyped> {
        let usual = Tickets::usual_step(self.unit).unwrap_or_else(Exact::zero);
        let coarse = &usual * &Exact::whole(COARSER);
        let whole = |reading: &Exact| reading.over(&coarse).is_some_and(|steps| steps.is_whole());
        let bars = self.bars.iter().flatten();
        let mut all = self
            .alone
            .iter()
            .chain(&self.hitched)
            .chain(bars)
            .chain(&self.trailer);
        if all.all(whole) {
            return Err(NotTyped::StepUnsaid(Quantity::new(coarse, self.unit)));
        }
        Ok(usual)
    }
}

/// Numbers parted by commas, then perhaps a stroke of equality and their total.
fn readings<const N: usize>(
    flag: &'static str,
    text: &str,
    unit: Unit,
) -> Result<[Exact; N], NotTyped> {
    let number = |text: &str| {
        let text = text.trim();
        Exact::parse_decimal(text).map_err(|_| NotTyped::NotANumber(flag, text.to_owned()))
    };
    let (each, total) = match text.split_once('=') {
        Some((each, total)) => (each, Some(number(total)?)),
        None => (text, None),
    };
    let each: Vec<Exact> = each.split(',').map(number).collect::<Result<_, _>>()?;
    let sum = each.iter().fold(Exact::zero(), |sum, next| &sum + next);
    let each = <[Exact; N]>::try_from(each).map_err(|_| NotTyped::NotSoMany(flag, N))?;
    match total {
        Some(total) if total != sum => {
            let [sum, total] = [sum, total].map(|value| Quantity::new(value, unit));
            Err(NotTyped::OtherTotal(flag, sum, total))
        }
        _ => Ok(each),
    }
}

impl fmt::Display for NotTyped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotSoMany(flag, 1) => {
                write!(f, "{flag} takes one weight, without a comma in it.")
            }
            Self::NotSoMany(flag, many) => write!(
                f,
                "{flag} takes {many} weights parted by commas, without commas inside a weight."
            ),
            Self::NotANumber(flag, text) => write!(
                f,
                "{flag}: “{text}” is no plain number. Type it as the ticket prints it, without unit."
            ),
            Self::OtherTotal(flag, sum, total) => write!(
                f,
                "{flag}: these make {sum}, and the total is {total}: one of them is mistyped."
            ),
            Self::StepUnsaid(coarse) => write!(
                f,
                "Every reading is a whole number of {coarse}, so the scale may print no finer. \
                 Say its smallest step with --step."
            ),
            Self::Unjoined => f.write_str(
                "Say which share is asked for: --bumper-pull, --gooseneck, or --rig FILE|ID.",
            ),
        }
    }
}
