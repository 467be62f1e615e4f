//! The sentences about a question.

use crate::rig::describe::{Amends, Interview, Question, Refused};

/// The question, where to look, an answer, what it is used for, and what stands there.
pub(super) fn told(question: &Question) -> Vec<String> {
    let field = question.field;
    let mut lines = vec![field.question.to_owned()];
    lines.push(format!("Where: {}", field.look));
    let need = if question.may_be_left_out() {
        "It may be left out."
    } else if question.is_inside_a_part() {
        "Without it this part is left out."
    } else {
        "The file cannot be walked without it."
    };
    lines.push(format!("Used for {}. {need}", field.used));
    if question.choices.is_empty() {
        lines.push(format!("Such as: {}", field.example));
    }
    for (number, (word, meaning)) in (1..).zip(&question.choices) {
        lines.push(format!("{number}. {word}: {meaning}"));
    }
    if let Some(now) = &question.now {
        lines.push(format!("There now: {now}. Type keep to leave it so."));
    }
    lines
}

/// How the evidence is asked for; `same` is that of the answer before.
pub(super) fn evidence_asked(same: Option<&(String, String)>) -> String {
    let kinds: Vec<String> = (1..)
        .zip(Interview::kinds_of_evidence())
        .map(|(number, (word, _))| format!("{number} {word}"))
        .collect();
    let same = same.map_or(String::new(), |(by, at)| format!(" Or same: {by}, {at}."));
    format!("By what is it known: {}?{same}", kinds.join(", "))
}

/// Why an answer is not taken, and which earlier one it may come from.
pub(super) fn refused(refusal: &Refused) -> (Vec<String>, Option<Amends>) {
    match refusal {
        Refused::NotAnAnswer(sentence) => (vec![sentence.to_string()], None),
        Refused::Wrong { what, fix, amends } => {
            let mut lines = vec![format!("That is not taken: {what}; {fix}.")];
            if let Some(amends) = amends {
                lines.push(format!(
                    "It does not go with an earlier answer, {}: {}",
                    amends.now, amends.question
                ));
                lines.push("Type it again, or type there to change the earlier one.".to_owned());
            }
            (lines, amends.clone())
        }
    }
}
