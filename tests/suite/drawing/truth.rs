//! The drawing holds to the rig's numbers.

use crate::drawing::{is_reversed, painted, rigs, rigs_of_all_axles, view};
use hames::figures::Figure;
use hames::rig::{Chain, Given, HitchKind, Place, Rig};
use hames::tui::rig::{Drawing, Form, Piece, Point, Scene, View};
use hames::units::{Exact, Quantity, Unit};

fn inches(given: &Given) -> f64 {
    let quantity = given.quantity.in_unit(Unit::Inch).unwrap();
    quantity.value.to_f64().unwrap()
}

/// The circles of a part, from the front: middle and radius.
fn circles(scene: &Scene, place: Place) -> Vec<(Point, f64)> {
    let mut circles: Vec<(Point, f64)> = scene
        .pieces
        .iter()
        .filter(|piece| piece.place == Some(place))
        .filter_map(|piece| match piece.form {
            Form::Circle { centre, radius } => Some((centre, radius)),
            _ => None,
        })
        .collect();
    circles.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    circles
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.01
}

#[test]
fn every_wheel_stands_on_the_ground_below_its_axle() {
    for rig in rigs_of_all_axles() {
        let scene = Drawing::side(&rig).scene().clone();
        let tires = circles(&scene, Place::Tires);
        assert_eq!(tires.len(), rig.trailer.axles.len());
        for ((centre, radius), axle) in tires.iter().zip(&rig.trailer.axles) {
            assert!(close(centre.x, inches(&axle.behind_ball)));
            assert!(close(centre.y, *radius));
        }
        let rear = -inches(&rig.truck.ball_behind_rear_axle);
        let front = rear - inches(&rig.truck.wheelbase);
        let truck = circles(&scene, Place::Truck);
        assert!(close(truck[0].0.x, front));
        assert!(close(truck[truck.len() - 1].0.x, rear));
    }
}

/// 225 mm and 75 % of it round a 15 in rim is 28.3 in; 235 mm and 80 % round 16 in is 30.8 in.
#[test]
fn a_tire_is_as_high_as_its_sidewall_says() {
    for (rig, height) in rigs().iter().zip([28.3, 30.8]) {
        let tires = circles(Drawing::side(rig).scene(), Place::Tires);
        assert!((tires[0].1 * 2.0 - height).abs() < 0.05, "{tires:?}");
    }
}

#[test]
fn wheels_are_painted_in_the_columns_of_their_axles() {
    for rig in rigs() {
        for (ascii, width) in [(false, 60), (true, 60), (false, 120), (true, 120)] {
            let drawing = Drawing::side(&rig).marked(Place::Tires, None).ascii(ascii);
            let buffer = painted(&drawing, width, 40);
            let window = drawing.scene().window;
            let column = f64::from(width) / window.size().0;
            for axle in &rig.trailer.axles {
                let at = (inches(&axle.behind_ball) - window.low.x) * column;
                let near = (0..width).filter(|x| (f64::from(*x) + 0.5 - at).abs() <= 1.0);
                let mut cells = near.flat_map(|x| (0..40).map(move |y| (x, y)));
                assert!(cells.any(|(x, y)| is_reversed(&buffer, x, y)), "{at}");
            }
        }
    }
}

fn chain_lines(scene: &Scene) -> Vec<Vec<Point>> {
    scene
        .pieces
        .iter()
        .filter(|piece| piece.place == Some(Place::Chains))
        .filter(|piece| matches!(piece.form, Form::Line(_)))
        .map(Piece::points)
        .collect()
}

fn sagging(chain: &Chain) -> (f64, f64) {
    let apart = |a: &Given, b: &Given| inches(a) - inches(b);
    let across = apart(&chain.trailer_eye.behind, &chain.truck_eye.behind)
        .hypot(apart(&chain.trailer_eye.right, &chain.truck_eye.right));
    let between = f64::midpoint(
        inches(&chain.trailer_eye.above),
        inches(&chain.truck_eye.above),
    );
    // A loose chain hangs below its eyes by S sqrt(3/8 (L/S - 1)): the parabola of the same
    // length, good to some per cent while the chain is not much longer than its span.
    let sag = across * (0.375 * (inches(&chain.length) / across - 1.0)).sqrt();
    (between, sag)
}

#[test]
fn a_chain_hangs_as_low_as_its_length_between_its_eyes_lets_it() {
    let [rig, _] = rigs();
    let side = view(View::Side, &rig);
    let lines = chain_lines(side.scene());
    assert_eq!(lines.len(), 2);
    for (line, chain) in lines.iter().zip(&rig.hitch.chains) {
        let (between, sag) = sagging(chain);
        let low = line.iter().map(|point| point.y).fold(f64::MAX, f64::min);
        // A cell of the close-up in the usual room is about 2 in high.
        assert!((between - sag - low).abs() < 1.0, "{between} {sag} {low}");
    }
}

#[test]
fn a_longer_chain_hangs_lower_and_lies_on_the_ground_at_last() {
    let [rig, _] = rigs();
    let low = |length: i64| {
        let mut rig = rig.clone();
        rig.hitch.chains[0].length.quantity = Quantity::whole(length, Unit::Inch);
        let lines = chain_lines(Drawing::side(&rig).scene());
        lines[1]
            .iter()
            .map(|point| point.y)
            .fold(f64::MAX, f64::min)
    };
    assert!(low(26) > low(30));
    assert!(low(30) > low(34));
    assert!(close(low(70), 0.0));
}

#[test]
fn crossed_chains_cross_in_the_close_up() {
    let [rig, _] = rigs();
    let lines = chain_lines(Drawing::hitch(&rig).scene());
    let over = |end: fn(&Vec<Point>) -> Point| end(&lines[0]).y > end(&lines[1]).y;
    assert_ne!(over(|line| line[0]), over(|line| line[line.len() - 1]));
}

#[test]
fn the_anchor_is_drawn_where_it_is() {
    for rig in rigs() {
        let at = &rig.hitch.breakaway.anchor.at;
        let scene = Drawing::side(&rig).scene().clone();
        let rings = circles(&scene, Place::Lanyard);
        assert!(close(rings[0].0.x, inches(&at.behind)));
        assert!(close(rings[0].0.y, inches(&at.above)));
    }
}

#[test]
fn the_jack_foot_hangs_at_its_clearance() {
    for rig in rigs() {
        let scene = Drawing::side(&rig).scene().clone();
        let jack = scene
            .pieces
            .iter()
            .filter(|piece| piece.place == Some(Place::Jack));
        let foot = jack
            .flat_map(Piece::points)
            .map(|point| point.y)
            .fold(f64::MAX, f64::min);
        assert!(close(foot, inches(&rig.hitch.jack.clearance)));
    }
}

#[test]
fn every_part_has_a_piece_inside_the_view_chosen_for_it() {
    for rig in rigs_of_all_axles() {
        for (word, place) in Place::WORDS {
            let scene = view(View::of(place, rig.kind()), &rig).scene().clone();
            let seen = scene
                .pieces
                .iter()
                .filter(|piece| piece.place == Some(place))
                .flat_map(Piece::points)
                .any(|point| scene.window.holds(point));
            assert!(seen, "{} {word}", rig.id);
        }
    }
}

/// The roof's points at its front and its rear.
fn roof(rig: &Rig) -> (Point, Point) {
    let scene = Drawing::side(rig).scene().clone();
    let walls = scene
        .pieces
        .iter()
        .find(|piece| piece.place == Some(Place::Box));
    let points = walls.unwrap().points();
    (points[2], points[1])
}

fn with_rise(rig: &Rig, inches: i64) -> Rig {
    let mut rig = rig.clone();
    if let hames::rig::Joint::BumperPull { drawbar, .. } = &mut rig.hitch.joint {
        drawbar.rise.quantity = Quantity::whole(inches, Unit::Inch);
    }
    rig
}

/// As much as a figure is rounded: a twentieth of a degree over the length of the roof.
#[test]
fn a_described_rig_is_drawn_at_the_pitch_and_the_ball_height_that_are_reckoned() {
    let [juniper, mesquite] = rigs();
    let changed = [6, -6].map(|rise| with_rise(&juniper, rise));
    for rig in changed.iter().chain([&juniper, &mesquite]) {
        let found = |figure: Figure| {
            let found = figure.of(rig, None).unwrap().quantity;
            found.value.to_f64().unwrap()
        };
        let (front, rear) = roof(rig);
        let slope = (front.y - rear.y) / (rear.x - front.x);
        assert!(close(
            slope,
            found(Figure::AttitudePitch).to_radians().tan()
        ));
        let ball = circles(Drawing::side(rig).scene(), Place::Ball);
        assert!(close(ball[0].0.y, found(Figure::AttitudeBallHeight)));
    }
}

#[test]
fn where_no_springs_are_described_only_a_ball_that_is_far_too_high_tips_the_drawing() {
    let [mut rig, _] = rigs();
    rig.truck.springs = None;
    let (front, rear) = roof(&rig);
    assert!(close(front.y, rear.y));
    let (front, rear) = roof(&with_rise(&rig, 8));
    assert!(front.y > rear.y + 2.0);
}

#[test]
fn numbers_that_no_rig_has_are_drawn_at_the_nearest_that_can_be() {
    let far = Quantity::new(Exact::parse_decimal("999999999999").unwrap(), Unit::Mile);
    let odd = [
        Quantity::whole(0, Unit::Inch),
        Quantity::whole(-400, Unit::Foot),
        far,
        Quantity::whole(5, Unit::Pound),
    ];
    for rig in rigs() {
        for odd in &odd {
            let mut rig = rig.clone();
            let [first, second] = &mut rig.trailer.axles[..] else {
                panic!("the demo rigs have two axles");
            };
            let load = &mut rig.load[0];
            for given in [
                &mut rig.truck.wheelbase,
                &mut rig.truck.ball_behind_rear_axle,
                &mut rig.hitch.ball.diameter,
                &mut rig.hitch.ball.height,
                &mut rig.hitch.chains[0].length,
                &mut rig.hitch.chains[1].truck_eye.above,
                &mut rig.hitch.breakaway.anchor.at.behind,
                &mut rig.hitch.breakaway.lanyard,
                &mut rig.hitch.jack.clearance,
                &mut rig.hitch.plug.cord,
                &mut rig.trailer.level_coupler_height,
                &mut rig.trailer.frame_base,
                &mut first.behind_ball,
                &mut second.track,
                &mut load.at.behind,
                load.weight.as_mut().unwrap(),
            ] {
                given.quantity = odd.clone();
            }
            for of in View::ALL {
                let drawing = view(of, &rig);
                let points = drawing.scene().pieces.iter().flat_map(Piece::points);
                let mut points = points.collect::<Vec<Point>>().into_iter();
                assert!(points.all(|point| point.x.is_finite() && point.y.is_finite()));
                for ascii in [false, true] {
                    painted(&drawing.clone().ascii(ascii), 80, 24);
                }
            }
        }
        let mut bare = rig.clone();
        bare.trailer.axles.clear();
        bare.load.clear();
        for of in View::ALL {
            painted(&view(of, &bare), 80, 24);
        }
    }
}

#[test]
fn a_gooseneck_has_its_ball_over_the_rear_axle_and_a_bumper_pull_behind_the_bumper() {
    for rig in rigs() {
        let scene = Drawing::side(&rig).scene().clone();
        let truck = scene
            .pieces
            .iter()
            .find(|piece| piece.place == Some(Place::Truck));
        let tail = truck.unwrap().bounds().unwrap().high.x;
        assert_eq!(tail > 0.0, rig.kind() == HitchKind::Gooseneck);
    }
}
