//! A played shot as a picture of the table: the world's surfaces become its cushions, the shot's
//! pieces the paths, its events the marks. Nothing is computed about the shot here.

mod advised;
mod close_up;
mod marks;
mod of_bank;
mod of_choice;
mod of_play;
mod stepped;
mod subject;
mod table;
mod tracks;

pub use of_bank::{bank_page, bank_picture};
pub use subject::{ShotPaths, ShotPicture};

use crate::picture::{DrawnObstacle, Ghost, Guide, PictureLook, TablePicture};
use railproof_engine::lay::{LineSpot, Spot, place};
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::short_number;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::number_along;
use subject::{marked, point};

/// More touches than this say no more.
const MOST_TOUCHES: usize = 60;
/// Moments at which one ball's spin is shown.
const MOST_SPINS: usize = 4;

impl ShotPicture<'_> {
    /// The picture.
    pub fn picture(&self) -> TablePicture {
        let table = table::shape(self.world, self.target.map(|(_, pocket)| pocket));
        let (mut marks, spins) = match self.shot {
            ShotPaths::Event(shot) => (marks::marks(self, shot), marks::spins(self, shot)),
            ShotPaths::Stepped(shot) => (stepped::marks(self, shot), stepped::spins(self, shot)),
        };
        let mut notes = self.notes.clone();
        if marks.len() > MOST_TOUCHES {
            notes.push(format!("The first {MOST_TOUCHES} of {} touches are marked.", marks.len()));
            marks.truncate(MOST_TOUCHES);
        }
        if self.spin && spins.iter().any(|of_ball| of_ball.len() > MOST_SPINS) {
            notes.push(format!("Spin is shown at the first {MOST_SPINS} of a ball's moments."));
        }
        let half = (0.5 * table.length_m + table.rail_m, 0.5 * table.width_m + table.rail_m);
        TablePicture {
            title: self.title.clone(),
            subtitle: self.subtitle.clone(),
            verdict: self.verdict.clone(),
            obstacles: self.obstacles(half),
            guides: self.lines.iter().filter_map(|line| self.guide(line, half)).collect(),
            other_play: None,
            numbers: None,
            balls: tracks::tracks(self, &table),
            inset: close_up::close_up(self),
            ghosts: self.ghosts(half),
            marks,
            spins: if self.spin {
                spins.into_iter().flat_map(|of_ball| of_ball.into_iter().take(MOST_SPINS)).collect()
            } else {
                Vec::new()
            },
            notes,
            look: PictureLook::default(),
            table,
        }
    }

    /// The obstacles; the part of one past the wood's edge is cut off square.
    fn obstacles(&self, half: (f64, f64)) -> Vec<DrawnObstacle> {
        self.world
            .obstacles()
            .iter()
            .map(|it| DrawnObstacle {
                name: it.name.clone(),
                corners: it
                    .corners
                    .iter()
                    .map(|at| (at.x.clamp(-half.0, half.0), at.y.clamp(-half.1, half.1)))
                    .collect(),
            })
            .collect()
    }

    fn ghosts(&self, half: (f64, f64)) -> Vec<Ghost> {
        let radius_m = self.cue.and_then(|cue| self.balls.get(cue)).map(|(_, radius)| *radius);
        let (Some(at), Some(radius_m)) = (self.ghost, radius_m) else { return Vec::new() };
        let inside = at.x.abs() <= half.0 && at.y.abs() <= half.1;
        let ghost = Ghost { at: point(at), radius_m, label: "aim".to_owned() };
        inside.then_some(ghost).into_iter().collect()
    }

    /// A line from groove to groove, run on to the sights on both sides as far as the wood reaches, with its
    /// numbers there: at the groove, and where it passes the sights.
    fn guide(&self, line: &LineSpot, half: (f64, f64)) -> Option<Guide> {
        let equipment = self.world.equipment();
        let table = &equipment.table;
        let across = if line.rail.is_end() { table.length_m } else { table.width_m };
        let span_m = across - 2.0 * equipment.groove_m();
        let at = |off_rail_m: f64| {
            place(self.world, &[], 0, &Spot::OnLine { line: *line, off_rail_m }).ok()
        };
        let (contact, start) = (at(1e-9)?, at(span_m)?);
        let beyond_m = equipment.groove_m() + table.sight_setback_m;
        let on = (contact - start) * (beyond_m / span_m);
        let ends = [start - on, contact + on];
        let (from, to) = clipped(ends[0], ends[1], half)?;
        let label = |word: &str, groove: f64, at: Vec2, over: &str| {
            let sights = number_along(equipment, line.rail, line.pocket, at);
            let [groove, sights] = [groove, sights].map(|number| marked(number, line.pocket));
            format!("{word} {groove} (diamonds {sights}{over})")
        };
        let geometry = BankGeometry::new(equipment, line.rail, line.pocket).ok();
        let over = geometry.and_then(|it| line.line.over_rail_beside(&it));
        let over = over
            .map(|(rail, number)| format!("; {} rail {}", rail.name(), short_number(number, 1)));
        Some(Guide {
            from: point(from),
            to: point(to),
            labels: [
                label("start", line.line.start, ends[0], &over.unwrap_or_default()),
                label("contact", line.line.contact, ends[1], ""),
            ],
        })
    }
}

/// The part of a straight line inside the box.
fn clipped(from: Vec2, to: Vec2, half: (f64, f64)) -> Option<(Vec2, Vec2)> {
    let way = to - from;
    let (mut low, mut high) = (0.0_f64, 1.0_f64);
    for (start, run, limit) in [(from.x, way.x, half.0), (from.y, way.y, half.1)] {
        if run == 0.0 {
            if start.abs() > limit {
                return None;
            }
            continue;
        }
        let (one, other) = ((-limit - start) / run, (limit - start) / run);
        low = low.max(one.min(other));
        high = high.min(one.max(other));
    }
    (low < high).then(|| (from + way * low, from + way * high))
}
