//! Banks that the engine plays, filmed by a made-up camera.

use railproof_engine::bank::{Bank, Launch, Outcome};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::motion::{ClothMotion, Path};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::sample::{Sample, Sampling};
use railproof_engine::track::{TableMark, TrackPoint};
use railproof_engine::vector::Vec2;

/// A bank and the hand that films it.
#[derive(Debug, Clone, Copy)]
pub struct Filming {
    pub rail: Rail,
    pub pocket: Pocket,
    pub line: Line,
    pub launch: Launch,
    pub model: RailModel,
    /// Pictures in a second.
    pub pictures: f64,
    /// Deviation of a click, pixels.
    pub click: f64,
    /// The film ends where the ball begins to roll after the rail.
    pub is_until_roll: bool,
    /// The coefficient of the lens.
    pub k1: f64,
    pub marks: &'static [(f64, f64)],
    pub seed: u64,
}

/// The film, and the truth.
pub struct Film {
    pub marks: Vec<TableMark>,
    pub points: Vec<TrackPoint>,
    pub truth: Outcome,
}

/// The marks' places on a table, as shares of its half length and half width.
pub const MARKS: [(f64, f64); 6] =
    [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0), (0.0, -1.0), (0.5, 1.0)];

/// Marks all over the table, as a lens asks for: corners, middles, and spots of the cloth.
pub const MANY_MARKS: [(f64, f64); 12] = [
    (-1.0, -1.0),
    (-1.0, 1.0),
    (1.0, -1.0),
    (1.0, 1.0),
    (0.0, -1.0),
    (0.0, 1.0),
    (-0.5, 0.0),
    (0.5, 0.0),
    (-1.0, 0.0),
    (0.0, 0.0),
    (-0.5, -1.0),
    (0.5, 1.0),
];

/// A picture's size, pixels.
pub const PICTURE: (f64, f64) = (1920.0, 1080.0);

/// A bank without side.
pub fn launch(off_rail_m: f64, speed_m_s: f64, roll: f64) -> Launch {
    Launch { off_rail_m, speed_m_s, roll, side: 0.0, aim_error_rad: 0.0 }
}

/// Behind the head rail, two metres up, looking down the table; 1,500 pixels of focal length.
pub fn seen(table: Vec2) -> Vec2 {
    let (right, ahead) = (-table.y + 0.1, table.x + 3.0);
    let (sin, cos) = (0.55, 0.835_164_654_42);
    let (depth, down) = (ahead * cos + 2.0 * sin, 2.0 * cos - ahead * sin);
    Vec2::new(960.0 + 1500.0 * right / depth, 540.0 + 1500.0 * down / depth)
}

/// What a lens shows where one without bending would show this: its distance from the picture's middle grows by
/// k₁·(r/d)² of it, d half the picture's diagonal (D. Brown 1966, his first radial term; from memory).
pub fn bent(straight: Vec2, k1: f64) -> Vec2 {
    let middle = Vec2::new(0.5 * PICTURE.0, 0.5 * PICTURE.1);
    let off = straight - middle;
    middle + off * (1.0 + k1 * off.dot(off) / middle.dot(middle))
}

impl Filming {
    pub fn film(&self, table: &Equipment) -> Film {
        let bank =
            Bank::new(table, self.rail, self.pocket, self.model).expect("a bank of this table");
        let truth = bank.play(self.line, self.launch).expect("a launch in its ranges");
        let at_rail = truth.at_rail.expect("it comes to the rail");
        let rebound = truth.rebound.expect("it leaves the rail");
        let cloth = ClothMotion::new(table);
        let (to, from) = (Path::new(truth.launch, cloth), Path::new(rebound.state, cloth));
        let leaves_s = at_rail.time_s + rebound.held_s;
        let end_s = truth.arrival.map_or(leaves_s + 0.6, |arrival| arrival.time_s);
        let after_s = if self.is_until_roll { rebound.rolls_after_s } else { 1.0 };
        let clicks = (1_u32..).map(|at| f64::from(at) / self.pictures);
        let clicks = clicks.take_while(|time_s| *time_s < end_s.min(leaves_s + after_s));
        let points = clicks.enumerate().map(|(at, time_s)| {
            let place = if time_s < at_rail.time_s {
                to.position_at(time_s)
            } else if time_s < leaves_s {
                at_rail.state.position
            } else {
                from.position_at(time_s - leaves_s)
            };
            let straight = seen(bank.geometry().to_table(place));
            let image = bent(straight, self.k1) + self.off(at as u64 + 100);
            TrackPoint { time_s, image }
        });
        let (half_length_m, half_width_m) = (0.5 * table.table.length_m, 0.5 * table.table.width_m);
        let marks = self.marks.iter().enumerate().map(|(at, &(x, y))| {
            let table = Vec2::new(x * half_length_m, y * half_width_m);
            TableMark { table, image: bent(seen(table), self.k1) + self.off(at as u64) }
        });
        Film { marks: marks.collect(), points: points.collect(), truth }
    }

    /// A click's error, normal (G. Box and M. Muller 1958).
    fn off(&self, row: u64) -> Vec2 {
        let drawn =
            Sample { how: Sampling::Random, points: 1 << 20, seed: self.seed, dimensions: 2 };
        let size = self.click * (-2.0 * (1.0 - drawn.coordinate(row, 0)).ln()).sqrt();
        let turn = 2.0 * std::f64::consts::PI * drawn.coordinate(row, 1);
        Vec2::new(size * turn.cos(), size * turn.sin())
    }
}
