//! Somebody who describes a rig: answers each question as its own example has it, but where a
//! second axle, a second chain or another kind of rig wants something else.

use hames::rig::describe::{Ask, Interview, Question};

/// What somebody says to a question.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Says {
    /// This.
    This(&'static str),
    /// Nothing.
    Skip,
}

/// Somebody with a rig.
pub(crate) struct Person {
    /// Answers that are not the examples, by path.
    own: Vec<(&'static str, Says)>,
    /// Whether all is left out that may be.
    hurried: bool,
}

const SECOND: [(&str, Says); 4] = [
    (
        "hitch.chains.right.truck-eye",
        Says::This("-6 in, -8 in, 14 in"),
    ),
    (
        "hitch.chains.right.trailer-eye",
        Says::This("14 in, 5 in, 16 in"),
    ),
    ("hitch.chains.right", Says::This("1")),
    ("trailer.axles[1].behind-ball", Says::This("183 in")),
];

impl Person {
    pub(crate) fn with_a_bumper_pull() -> Self {
        let mut own = SECOND.to_vec();
        // A spring is told by its rate or by its arm.
        own.push(("trailer.axles[0].spring.rate", Says::Skip));
        own.push(("instruments", Says::This("2")));
        Self {
            own,
            hurried: false,
        }
    }

    pub(crate) fn with_a_gooseneck() -> Self {
        let mut own = SECOND.to_vec();
        own.extend([
            ("truck.ball-behind-rear-axle", Says::This("-4 in")),
            ("hitch.joint", Says::This("2")),
            ("hitch.chains.right", Says::This("2")),
            ("trailer.axles[0].suspension", Says::This("2")),
            ("trailer.axles[1].suspension", Says::This("equalized-leaf")),
            ("trailer.axles[1]", Says::This("2")),
            ("trailer.spare", Says::This("2")),
            ("load[0].weight", Says::Skip),
            ("load[0].in", Says::Skip),
        ]);
        Self {
            own,
            hurried: false,
        }
    }

    pub(crate) fn in_a_hurry() -> Self {
        Self {
            own: Self::with_a_bumper_pull().own,
            hurried: true,
        }
    }

    /// Goes through all questions and gives back the file.
    pub(crate) fn describes(&self, mut interview: Interview) -> String {
        while let Some(question) = interview.question() {
            self.answers(&mut interview, &question);
        }
        interview.text()
    }

    /// The same, but the interview is begun anew from the file after every answer. What was left
    /// out is asked again then, so it is left out again.
    pub(crate) fn describes_with_a_power_cut_after_every_answer(&self) -> String {
        let mut text = Interview::default().text();
        loop {
            let mut interview = Interview::take_up(&text).unwrap();
            let answered = loop {
                let Some(question) = interview.question() else {
                    break false;
                };
                self.answers(&mut interview, &question);
                if interview.text() != text {
                    break true;
                }
            };
            if !answered {
                return interview.text();
            }
            text = interview.text();
        }
    }

    /// Answers one question.
    pub(crate) fn answers(&self, interview: &mut Interview, question: &Question) {
        let ask = question.field.ask;
        match self.says(question) {
            Says::Skip => {
                interview.skip(question);
            }
            Says::This(answer) => {
                let typed: Vec<String> = match ask.slots() {
                    [_] => vec![answer.to_owned()],
                    _ => answer.split(", ").map(str::to_owned).collect(),
                };
                for so_far in 1..=typed.len() {
                    interview
                        .hear(question, &typed[..so_far])
                        .unwrap_or_else(|no| panic!("{}: {answer}: {no:?}", question.path));
                }
                let evidence = ask.has_evidence().then_some(("plate", "where it stands"));
                interview
                    .answer(question, &typed, evidence)
                    .unwrap_or_else(|no| panic!("{}: {answer}: {no:?}", question.path));
            }
        }
    }

    fn says(&self, question: &Question) -> Says {
        let own = self.own.iter().find(|(path, _)| *path == question.path);
        if let Ask::More(_) = question.field.ask {
            // One thing of each list, as the example names it.
            let first = question.now.is_none() && !self.hurried;
            return if first {
                Says::This(question.field.example)
            } else {
                Says::Skip
            };
        }
        // The standard instruments are taken as they are.
        let standard = self.own.iter().any(|(path, _)| *path == "instruments");
        match own {
            Some((_, says)) => *says,
            None if standard && question.path.starts_with("instruments[") => Says::Skip,
            None if self.hurried && question.may_be_left_out() => Says::Skip,
            None => Says::This(question.field.example),
        }
    }
}
