//! Questions that managers asked when they looked at a trip, and who can answer them.

use crate::record_statements::{Office, countersigned, office, people, told};
use crate::record_trip::{id, words};
use hames::logbook::{Answers, has_left, is_news, thought_of, unanswered};
use hames::record::{Changed, Countersigned, Digest, Opinion, Says};

#[test]
fn a_question_of_a_manager_who_has_left_is_closed_by_another_who_agrees_and_knows_of_it() {
    const ASKS: &str = "tobias.fenn";
    const AGREES: &str = "odile.marsh";
    let Says::Countersigned(agreed) = countersigned(3) else {
        panic!("another kind");
    };
    let asked = Says::Countersigned(Countersigned {
        opinion: Opinion::Asked,
        remarks: Some(words("Why so late?")),
        ..agreed.clone()
    });
    let agreed = |office: &mut Office| office.state(AGREES, Says::Countersigned(agreed.clone()));
    let leaves = |office: &mut Office| {
        office.change_crew(AGREES, people(), &[(ASKS, Changed::Retired)]);
    };
    let seal = Digest::of(&3_u64.to_be_bytes());
    let stands = |office: &Office| {
        let statements = office.read();
        assert_eq!(told(&statements), [""; 0]);
        let open = unanswered(&statements).len() == 1;
        let thought = thought_of(&statements)[&seal];
        assert_eq!(thought == Opinion::Asked, open);
        open
    };
    let is_news = |office: &Office| {
        is_news(
            (&office.read(), &Answers::default()),
            &seal,
            &id(AGREES),
            Opinion::Agreed,
        )
        .is_ok()
    };
    // It stands as long as who asked can agree, and without anybody's word afterwards.
    let mut office = office();
    agreed(&mut office);
    assert!(!is_news(&office));
    office.state(ASKS, asked);
    assert!(stands(&office) && !is_news(&office));
    let mut knew = office.clone();
    leaves(&mut office);
    let statements = office.read();
    assert!(has_left(&statements, &id(ASKS)) && !has_left(&statements, &id(AGREES)));
    assert!(stands(&office), "who agreed had not known of it");
    // Who agreed without knowing may agree once more, and no more than that.
    assert!(is_news(&office));
    office.state(AGREES, countersigned(4));
    assert!(stands(&office), "of another trip");
    agreed(&mut office);
    assert!(!stands(&office) && !is_news(&office));
    // It is the same where they knew of it before the other left.
    agreed(&mut knew);
    assert!(stands(&knew));
    leaves(&mut knew);
    assert!(!stands(&knew));
}
