//! The stroke against a direct solution of the impact: ball, cue and the shaft's end as rigid bodies in
//! the table's frame, every velocity and the impulse unknown, solved as one linear system. It knows none
//! of the stroke's formulas.

use super::marching::Draw;
use railproof_engine::equipment::{Ball, Cue};
use railproof_engine::stroke::{CueBlow, Stroke};

type V = [f64; 3];

fn cross(a: V, b: V) -> V {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn dot(a: V, b: V) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Gauss with pivots; the last column is the right-hand side.
fn solved<const N: usize>(mut rows: Vec<Vec<f64>>) -> [f64; N] {
    for column in 0..N {
        let pivot =
            (column..N).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()));
        rows.swap(column, pivot.expect("there is a row"));
        let (above, below) = rows.split_at_mut(column + 1);
        let first = &above[column];
        for row in below {
            let share = row[column] / first[column];
            row.iter_mut().zip(first).for_each(|(cell, first)| *cell -= share * first);
        }
    }
    let mut answer = [0.0; N];
    for row in (0..N).rev() {
        let known: f64 = (row + 1..N).map(|column| rows[row][column] * answer[column]).sum();
        answer[row] = (rows[row][N] - known) / rows[row][row];
    }
    answer
}

struct Solution {
    velocity: V,
    spin: V,
    impulse: V,
    /// Velocities of the cue along itself and of its end to the left and upwards.
    cue: V,
}

/// The end of the impact: a speed of the ball along the cue, or a restitution of tip and ball there.
enum Ends {
    Speed(f64),
    Bounce { cue_speed: f64, restitution: f64 },
}

struct Case {
    stroke: Stroke,
    ball: Ball,
    cue: Cue,
    cue_mass_kg: f64,
}

impl Case {
    /// Along the cue, to the left and square to both.
    fn axes(&self) -> [V; 3] {
        let (sin, cos) = self.stroke.aim_rad.sin_cos();
        let (down, level) = self.stroke.elevation_rad.sin_cos();
        [[level * cos, level * sin, -down], [-sin, cos, 0.0], [down * cos, down * sin, level]]
    }

    /// Unknown: velocity 0–2, spin 3–5, impulse 6–8, cue 9–11.
    fn solve(&self, ends: &Ends) -> Solution {
        let axes = self.axes();
        let [along, left, up] = axes;
        let radius = self.ball.radius_m();
        let (b, a) = (self.stroke.side_offset, self.stroke.height_offset);
        let depth = (1.0 - a * a - b * b).sqrt();
        let tip = [0, 1, 2].map(|k| radius * (-depth * along[k] - b * left[k] + a * up[k]));
        let inertia = 0.4 * self.ball.mass_kg * radius * radius;
        let unit = |k: usize| [0, 1, 2].map(|j| if j == k { 1.0 } else { 0.0 });
        let mut rows = Vec::new();
        for k in 0..3 {
            let mut momentum = vec![0.0; 13];
            momentum[k] = self.ball.mass_kg;
            momentum[6 + k] = -1.0;
            rows.push(momentum);
            let mut turning = vec![0.0; 13];
            turning[3 + k] = inertia;
            for j in 0..3 {
                turning[6 + j] = -cross(tip, unit(j))[k];
            }
            rows.push(turning);
        }
        // Velocity of the ball's surface at the tip along an axis.
        let surface = |axis: V| {
            let mut row = vec![0.0; 13];
            for j in 0..3 {
                row[j] = axis[j];
                row[3 + j] = dot(cross(unit(j), tip), axis);
            }
            row
        };
        for k in [1, 2] {
            let mut sticks = surface(axes[k]);
            sticks[9 + k] = -1.0;
            rows.push(sticks);
            let mut end = vec![0.0; 13];
            (6..9).zip(axes[k]).for_each(|(j, part)| end[j] = part);
            end[9 + k] = self.cue.end_mass_kg;
            rows.push(end);
        }
        let (mut ended, mut cue) = (vec![0.0; 13], vec![0.0; 13]);
        (6..9).zip(along).for_each(|(j, part)| cue[j] = part);
        cue[9] = self.cue_mass_kg;
        match *ends {
            Ends::Speed(speed) => {
                (0..3).for_each(|k| ended[k] = along[k]);
                ended[12] = speed;
            }
            Ends::Bounce { cue_speed, restitution } => {
                ended = surface(along);
                ended[9] = -1.0;
                ended[12] = restitution * cue_speed;
                cue[12] = self.cue_mass_kg * cue_speed;
            }
        }
        rows.extend([ended, cue]);
        let all: [f64; 12] = solved(rows);
        let three = |from: usize| [all[from], all[from + 1], all[from + 2]];
        Solution { velocity: three(0), spin: three(3), impulse: three(6), cue: three(9) }
    }
}

/// Cases over the whole range, by number.
fn case(number: u64) -> Case {
    let mut draw = Draw::of(number);
    let offset = 0.95 * draw.share().sqrt();
    let tip = draw.direction() * offset;
    let elevation_rad = if number.is_multiple_of(3) { 0.0 } else { draw.between(0.0, 1.39) };
    let stroke = Stroke {
        side_offset: tip.x,
        height_offset: tip.y,
        elevation_rad,
        allow_miscue: true,
        ..Stroke::centre(draw.between(0.1, 9.0), draw.between(-3.0, 3.0))
    };
    let ball = Ball { diameter_m: draw.between(0.05, 0.07), mass_kg: draw.between(0.12, 0.22) };
    let cue = Cue { end_mass_kg: draw.between(0.0, 0.03), ..Cue::USUAL };
    Case { stroke, ball, cue, cue_mass_kg: draw.between(0.3, 0.7) }
}

#[test]
fn the_stroke_is_one_impulse() {
    let mut worst = 0.0_f64;
    for number in 0..4000 {
        let case = case(number);
        let Stroke { speed_m_s, aim_rad, .. } = case.stroke;
        let struck = case.stroke.strike(&case.ball, &case.cue).expect("it is within range");
        let direct = case.solve(&Ends::Speed(speed_m_s));
        let radius = case.ball.radius_m();
        let pairs = [
            (struck.velocity.x, direct.velocity[0]),
            (struck.velocity.y, direct.velocity[1]),
            (struck.up_m_s, direct.velocity[2]),
            (struck.spin.x * radius, direct.spin[0] * radius),
            (struck.spin.y * radius, direct.spin[1] * radius),
            (struck.spin.z * radius, direct.spin[2] * radius),
        ];
        for (found, wanted) in pairs {
            worst = worst.max((found - wanted).abs() / speed_m_s);
        }
        let way = direct.velocity[1].atan2(direct.velocity[0]) - aim_rad;
        let off = struck.squirt_rad - way;
        worst = worst.max(off.sin().abs());
        // The ball goes the way of the impulse: what turns it is what sends it.
        let lean = cross(direct.impulse, direct.velocity).map(f64::abs);
        assert!(
            lean.iter().all(|part| *part < 1e-12 * speed_m_s * speed_m_s),
            "{number}: {lean:?}"
        );
    }
    // Measured 3e-15.
    assert!(worst < 1e-12, "{worst:e}");
}

#[test]
fn a_cue_blow_is_the_same_impulse_and_keeps_energy() {
    for number in 0..4000 {
        let case = case(number);
        for restitution in [1.0, 0.7, 0.0] {
            let cue_speed = case.stroke.speed_m_s;
            let blow = CueBlow {
                speed_m_s: cue_speed,
                cue_mass_kg: case.cue_mass_kg,
                tip_restitution: restitution,
            };
            let (ball, end) = (case.ball.mass_kg, case.cue.end_mass_kg);
            let found = blow.ball_speed_m_s(ball, end, case.stroke.offset());
            let direct = case.solve(&Ends::Bounce { cue_speed, restitution });
            let wanted = dot(direct.velocity, case.axes()[0]);
            assert!((found - wanted).abs() < 1e-12 * cue_speed, "{number}: {found}, not {wanted}");
            if restitution == 1.0 {
                let inertia = 0.4 * ball * case.ball.radius_m() * case.ball.radius_m();
                let [along, left, up] = direct.cue;
                let after = ball * dot(direct.velocity, direct.velocity)
                    + inertia * dot(direct.spin, direct.spin)
                    + case.cue_mass_kg * along * along
                    + end * (left * left + up * up);
                let before = case.cue_mass_kg * cue_speed * cue_speed;
                assert!((after - before).abs() < 1e-12 * before, "{number}: {after}, not {before}");
            }
        }
    }
}
