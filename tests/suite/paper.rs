//! Lists on paper: the walk's own numbers, nothing pre-filled, nothing told too early.

use crate::harness::home::Home;
use crate::year::bench::{begin, laid};
use hames::barn::Units;
use hames::checklist::PlannedAsk;
use hames::paper::{Sheet, Wanted, html, text};

#[test]
fn every_step_of_every_list_stands_on_the_sheet_under_its_number_on_the_walk() {
    for laid in laid() {
        let walk = begin(&laid, vec![]);
        let sheet = Sheet::of(walk.plan(), Units::Us, None);
        let steps = sheet.sections.iter().flat_map(|section| &section.steps);
        let told: Vec<(usize, String)> =
            steps.map(|step| (step.number, step.name.clone())).collect();
        let planned = walk.plan().steps().iter().enumerate();
        let expected: Vec<(usize, String)> = planned
            .map(|(index, step)| (index + 1, step.name()))
            .collect();
        assert_eq!(told, expected, "{laid}");
        let (text, page) = (text(&sheet), html(&sheet));
        for (number, name) in expected {
            let line = format!("{number:<4}{name}. ");
            let found = text
                .lines()
                .any(|own| own.starts_with(line.get(..20.min(line.len())).unwrap_or(&line)));
            assert!(found, "{laid}: {line}");
            assert!(
                page.contains(&format!("<span class=\"number\">{number}</span>")),
                "{laid}"
            );
        }
        let wide = text.lines().filter(|line| line.chars().count() > 80);
        assert_eq!(wide.count(), 0, "{laid}");
    }
}

#[test]
fn the_limits_of_a_blind_step_stand_apart_at_the_end() {
    let mut blind = 0;
    for laid in laid() {
        let walk = begin(&laid, vec![]);
        let sheet = Sheet::of(walk.plan(), Units::Us, None);
        let steps = sheet.sections.iter().flat_map(|section| &section.steps);
        for (planned, step) in walk.plan().steps().iter().zip(steps) {
            if let (true, PlannedAsk::Reading { limits, .. }) = (planned.step.blind, &planned.ask) {
                let Wanted::Reading { limits: shown, .. } = &step.wanted else {
                    panic!()
                };
                assert_eq!(shown, &[""; 0], "{laid}: {}", planned.key);
                let apart = sheet
                    .limits
                    .iter()
                    .find(|apart| apart.number == step.number);
                assert!(
                    apart.unwrap().limits.len() >= limits.len(),
                    "{laid}: {}",
                    planned.key
                );
                blind += 1;
            }
        }
    }
    assert!(blind > 50, "{blind}");
}

#[test]
fn every_mark_a_step_names_leads_to_a_branch_on_the_sheet() {
    for laid in laid() {
        let sheet = Sheet::of(begin(&laid, vec![]).plan(), Units::Us, None);
        let text = text(&sheet);
        for branch in &sheet.branches {
            let named = text.replace('\n', " ");
            let named = named.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(
                named.contains(&format!("see {}", branch.mark)),
                "{laid}: {}",
                branch.mark
            );
        }
    }
}

#[test]
fn a_page_takes_no_text_for_markup_and_needs_nothing_from_elsewhere() {
    let mut laid = laid().remove(0);
    laid.list.title = "Hitch <script>alert(1)</script> & \"go\"".to_owned();
    let page = html(&Sheet::of(
        begin(&laid, vec![]).plan(),
        Units::Us,
        Some("UNAPPROVED"),
    ));
    assert!(page.contains("Hitch &lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;go&quot;"));
    for foreign in ["<script", "http:", "https:", "src=", "@import", "url("] {
        assert!(!page.contains(foreign), "{foreign}");
    }
    assert!(page.contains("UNAPPROVED"));
    assert_eq!(page.matches("<div").count(), page.matches("</div>").count());
}

#[test]
fn a_sheet_is_printed_by_a_command_and_an_own_list_is_marked() {
    let home = Home::new();
    let sheet = home.hames("checklist paper departure --rig juniper").run();
    assert_eq!((sheet.status, sheet.err.as_str()), (0, ""));
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| insta::assert_snapshot!("paper_departure", sheet.out));
    let own =
        crate::harness::put_together_text("departure").replacen("revision: 1", "revision: 2", 1);
    home.put("own.yaml", &own);
    let sheet = home
        .hames("checklist paper own.yaml --rig juniper --html")
        .run();
    assert!(sheet.out.contains("UNAPPROVED"), "{}", sheet.err);
    let wrong = home
        .hames("checklist paper hitch-gooseneck --rig juniper")
        .run();
    assert_eq!(wrong.status, 2, "{}", wrong.out);
}

#[test]
fn a_metric_barn_writes_in_its_own_units_and_the_lists_stand_behind_in_brackets() {
    let mut laid = laid().into_iter();
    let hitch = laid.find(|laid| laid.list.id == "hitch-bumper").unwrap();
    let text = text(&Sheet::of(
        begin(&hitch, vec![]).plan(),
        Units::Metric,
        None,
    ));
    for told in [
        "____________ kg",
        "____________ kPa",
        "____________ cm",
        "3175 kg (7000 lb)",
    ] {
        assert!(text.contains(told), "{told}");
    }
}
