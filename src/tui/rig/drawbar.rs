//! Receiver, drawbar, ball and coupler of a bumper pull, from the side.

use crate::rig::Place;
use crate::tui::rig::measure::Measures;
use crate::tui::rig::scene::{Fill, Pen, Piece, Scene, at, corners};

/// Wall of the receiver's tube, and the height of the bar inside it (a 2 in square bar: common
/// practice, no source).
const WALL: f64 = 0.6;
const BAR: f64 = 2.0;

/// Draws the hitch; `top` is the inside top of the receiver, `platform` what the ball stands on.
pub(crate) fn draw(scene: &mut Scene, measures: &Measures, top: f64, platform: f64, pin: f64) {
    let tail = measures.truck.tail;
    receiver(scene, tail, top);
    drawbar(scene, tail, top, platform);
    let pin_at = at(tail - 2.0, top - BAR / 2.0);
    scene.put(
        Piece::circle(pin_at, pin)
            .of(Place::Receiver)
            .fill(Fill::Solid),
    );
    let clip = vec![
        at(pin_at.x, pin_at.y),
        at(pin_at.x - 1.0, top - BAR - 2.0),
        at(pin_at.x + 1.0, top - BAR - 2.0),
        at(pin_at.x, pin_at.y),
    ];
    scene.put(Piece::line(clip).of(Place::Receiver));
    coupler(scene, measures.ball);
    ball(scene, measures, platform);
    scene.note(Place::Receiver, "receiver and pin", pin_at);
    scene.note(Place::Drawbar, "drawbar", at(-6.0, top.min(platform) - BAR));
}

fn receiver(scene: &mut Scene, tail: f64, top: f64) {
    let low = at(tail - 22.0, top - BAR - WALL);
    let tube = corners(low, at(tail + 1.0, top + WALL));
    scene.put(Piece::outline(tube).of(Place::Receiver));
    let collar = corners(
        at(tail, top - BAR - WALL - 0.6),
        at(tail + 1.5, top + WALL + 0.6),
    );
    scene.put(Piece::outline(collar).of(Place::Receiver).fill(Fill::Solid));
}

/// The bar: straight out of the receiver, then up or down to the platform.
fn drawbar(scene: &mut Scene, tail: f64, top: f64, platform: f64) {
    let (knee, tip) = (-5.5, 2.6);
    let (high, low) = (top.max(platform), top.min(platform));
    let path = if platform >= top {
        vec![
            at(tail + 1.5, top),
            at(knee, top),
            at(knee, high),
            at(tip, high),
            at(tip, high - BAR),
            at(knee + BAR, high - BAR),
            at(knee + BAR, top - BAR),
            at(tail + 1.5, top - BAR),
        ]
    } else {
        vec![
            at(tail + 1.5, top),
            at(knee + BAR, top),
            at(knee + BAR, low),
            at(tip, low),
            at(tip, low - BAR),
            at(knee, low - BAR),
            at(knee, top - BAR),
            at(tail + 1.5, top - BAR),
        ]
    };
    scene.put(Piece::outline(path).of(Place::Drawbar).fill(Fill::Shade));
    let inside = vec![at(tail - 8.0, top), at(tail - 8.0, top - BAR)];
    scene.put(Piece::line(inside).of(Place::Drawbar).pen(Pen::Fine));
}

/// The ball on its neck, with the nut below the platform.
pub(crate) fn ball(scene: &mut Scene, measures: &Measures, platform: f64) {
    let radius = measures.ball_radius;
    let neck = radius * 0.55;
    for (low, high, half) in [
        (platform, measures.ball, neck),
        (platform, platform + 0.6, radius * 0.8),
        (platform - BAR - 1.3, platform - BAR, radius * 0.8),
    ] {
        let part = corners(at(-half, low), at(half, high));
        scene.put(Piece::outline(part).of(Place::Ball).fill(Fill::Solid));
    }
    let round = Piece::circle(at(0.0, measures.ball), radius);
    scene.put(round.of(Place::Ball).fill(Fill::Solid));
    scene.note(Place::Ball, "ball", at(0.0, measures.ball));
}

/// The socket over the ball, its throat, and the latch with its lever up or down behind it.
fn coupler(scene: &mut Scene, ball: f64) {
    let shell = vec![
        at(-2.6, ball - 0.2),
        at(-2.4, ball + 1.4),
        at(-1.0, ball + 2.4),
        at(4.0, ball + 2.6),
        at(14.0, ball + 2.6),
        at(14.0, ball - 2.4),
        at(4.4, ball - 2.4),
        at(2.2, ball - 1.0),
        at(1.4, ball - 0.2),
    ];
    scene.put(Piece::outline(shell).of(Place::Coupler));
    let lever = vec![
        at(3.0, ball + 2.6),
        at(4.0, ball + 4.6),
        at(12.0, ball + 5.0),
    ];
    scene.put(Piece::line(lever).of(Place::Coupler));
    let pin = vec![at(7.0, ball + 6.4), at(7.0, ball + 2.6)];
    scene.put(Piece::line(pin).of(Place::Coupler));
    scene.note(Place::Coupler, "coupler and latch", at(7.0, ball + 5.0));
}
