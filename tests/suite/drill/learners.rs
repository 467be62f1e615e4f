//! Two simulated learners on the shipped scenarios, as the dice throw them: one looks everywhere and
//! measures, the other looks once and hopes.

use super::bench::{Learner, drill, scenarios};
use hames::drill::{Run, Stage};

const SEED: u64 = 1;

/// Of so many drills with a fault, in how many it was caught; and drills without any slip.
#[derive(Debug, Default)]
struct Sum {
    faulty: usize,
    caught: usize,
    clean: usize,
    drills: usize,
}

impl Sum {
    fn takes(&mut self, run: &Run) {
        let score = run.score();
        let faulty = run.drill().fault().is_some();
        let caught = score.caught().next().is_some() && score.missed().next().is_none();
        self.faulty += usize::from(faulty);
        self.caught += usize::from(faulty && caught);
        self.clean += usize::from(score.is_clean());
        self.drills += 1;
    }
}

#[test]
fn a_careless_learner_and_a_careful_one_come_to_clearly_different_scores() {
    let (mut careful, mut careless) = (Sum::default(), Sum::default());
    for scenario in scenarios() {
        let thrown = || drill(scenario, scenario.thrown(SEED), SEED);
        careful.takes(&Learner::new(thrown(), Stage::Solo, None).plays());
        careless.takes(&Learner::careless(thrown()).plays());
    }
    assert_eq!(
        (careful.caught, careful.clean),
        (careful.faulty, careful.drills)
    );
    assert!(careless.caught * 2 < careless.faulty, "{careless:?}");
    assert!(careless.clean * 10 < careless.drills, "{careless:?}");
}
