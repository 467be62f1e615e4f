//! Which steps give trouble; what is counted is tested on the year.

use crate::cli::demo::SIGN;
use crate::harness::home::Home;

#[test]
fn where_no_step_gave_trouble_that_is_said() {
    let home = Home::new();
    let begun = "1\n1\n1\n1\n2\n48210 mi\nend\nabandoned\nrain\n";
    let ended = home.hames("--plain").typed(&format!("{begun}{SIGN}")).run();
    assert!(ended.out.contains("Sealed."), "{}", ended.out);
    let demo = home.demo();
    let told = home
        .hames("logbook steps --logbook")
        .argument(demo.to_str().unwrap())
        .run();
    assert_eq!((told.status, told.err.as_str()), (0, ""), "{}", told.out);
    assert!(told.out.contains("of 1 trip, the most"), "{}", told.out);
    assert!(told.out.contains("None does."), "{}", told.out);
    let json = home
        .hames("logbook steps --json --rig nobody --logbook")
        .argument(demo.to_str().unwrap())
        .run();
    assert_eq!((json.status, json.out.as_str()), (2, ""));
    assert_eq!(
        json.err,
        "There is no rig “nobody” among the trips here. Rigs walked: juniper.\n"
    );
}
