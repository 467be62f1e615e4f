//! What does not fit together is asked, with both trips and both people named.

use crate::cli::demo::{SIGN, sealed};

#[test]
fn an_odometer_that_goes_backwards_is_asked_about_and_nobody_is_charged() {
    let home = sealed();
    let none = home.hames("logbook questions --demo").run();
    none.is(
        0,
        "Nothing to ask about the ways of the trucks, from 1 trip.\n",
        "",
    );
    let short = "1\n1\n1\n1\n2\n48190 mi\nend\nabandoned\nrain\n";
    let ended = home.hames("--plain").typed(&format!("{short}{SIGN}")).run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
    home.hames("logbook questions --demo").run().is(
        1,
        "1 question for the manager, from 2 trips. A question is no charge: it says what does not \
         fit together, and both sides of it may be right.\n\
         1. The odometer of Larkspur half-ton reads 48190 mi on trip 2 of LAPTOP (Wren Ashdown, \
         DATE TIME), and 48210 mi on trip 1 of LAPTOP (Wren Ashdown, DATE TIME), which comes \
         before it by the numbers of its laptop. Was one of the two misread or mistyped, or was \
         the odometer changed?\n",
        "",
    );
    let json = home.hames("logbook questions --demo --json").run();
    assert_eq!(json.status, 1);
    for told in [
        r#""kind":"question""#,
        r#""about":"odometer-backwards""#,
        r#""read":"48190 mi","metres":"77554287.36""#,
    ] {
        assert!(json.out.contains(told), "{}", json.out);
    }
}
