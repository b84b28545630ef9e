//! `railproof shot`: one ball with an explicit state, from a file to rest.

use super::model::{Model, State};
use super::output::{print, to_json};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::layout::{Layout, load_layout};
use railproof_engine::equipment::RailModel;
use railproof_engine::shot::{Ending, Event, EventKind, MAX_EVENTS, Shot, ShotError, play};
use serde::Serialize;
use std::fmt::Write;
use std::path::PathBuf;

/// Play one ball with an explicit state, from a YAML file.
#[derive(Debug, clap::Args)]
pub struct ShotArgs {
    /// A YAML file with `equipment`, `balls` and, if wanted, `until`.
    pub file: PathBuf,
    /// Answer with JSON for other programs: every event, and every parameter in use.
    #[arg(long)]
    pub json: bool,
}

/// Plays one ball and prints what happened to it.
///
/// # Errors
/// A [`Fault`] at its place in the file, several balls, a start the engine refuses, or an output
/// that can't be written.
pub fn run(args: &ShotArgs) -> Result<Exit, Fault> {
    let layout = load_layout(&args.file)?;
    let played = PlayedShot::new(&layout)?;
    let text = if args.json { to_json(&played.answer())? } else { played.told() };
    print(&text)?;
    Ok(Exit::Held)
}

/// A shot and what it was played with.
#[derive(Debug)]
pub struct PlayedShot<'a> {
    layout: &'a Layout,
    ball: &'a str,
    /// What happened.
    pub shot: Shot,
}

/// What `--json` prints.
#[derive(Debug, Serialize)]
pub struct ShotAnswer<'a> {
    /// What happened, in order of time.
    pub events: Vec<EventAnswer<'a>>,
    /// Every parameter in use.
    pub model: Model,
}

/// An event for other programs; table frame.
#[derive(Debug, Serialize)]
pub struct EventAnswer<'a> {
    /// Time since the start, s.
    pub time_s: f64,
    /// start, roll, cushion, pocket or stop.
    pub kind: &'static str,
    /// The ball's name.
    pub ball: &'a str,
    /// Its state as it comes to the event.
    pub before: State,
    /// Its state as it leaves the event.
    pub after: State,
}

impl<'a> PlayedShot<'a> {
    /// Plays a layout's one ball.
    ///
    /// # Errors
    /// Several balls, or a start the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let [(ball, start)] = layout.balls.as_slice() else {
            return Err(Fault::bad_input(format!(
                "the layout has {} balls; balls that meet are not simulated yet",
                layout.balls.len()
            ))
            .with_hint("leave one ball in `balls` and play the others in files of their own"));
        };
        let shot = play(&layout.equipment, *start, layout.until_s).map_err(|error| {
            let fault = Fault::bad_input(format!("`{ball}` can't be played: {error}"));
            match error {
                ShotError::Compliant => fault.with_hint(
                    "`railproof bank` takes `--rail-model compliant`; for a shot set the cushion's \
                     `model` to nose-and-cloth, nose-only or planar",
                ),
                _ => fault,
            }
        })?;
        Ok(Self { layout, ball, shot })
    }

    /// What `--json` prints.
    pub fn answer(&self) -> ShotAnswer<'_> {
        let events = self.shot.events.iter().map(|event| EventAnswer {
            time_s: event.time_s,
            kind: event.kind.name(),
            ball: self.ball,
            before: State::from(&event.before),
            after: State::from(&event.after),
        });
        ShotAnswer {
            events: events.collect(),
            model: Model::new(&self.layout.equipment, self.rail_model())
                .of_shot(self.layout.until_s),
        }
    }

    fn rail_model(&self) -> RailModel {
        self.layout.equipment.cushion.model
    }

    /// The shot in sentences, one to a line.
    pub fn told(&self) -> String {
        let mut text = format!(
            "{} on {}, by the {} rail model.\n",
            self.ball,
            self.layout.equipment.name,
            self.rail_model().name()
        );
        for event in &self.shot.events {
            // Writing to a string does not fail.
            let _ = writeln!(text, "{:8.3} s  {}", event.time_s, told(event));
        }
        let end = &self.shot.end;
        let last = match end.ending {
            Ending::Stopped | Ending::Pocketed(_) => None,
            Ending::Until => Some(format!(
                "{:8.3} s  still at {} when the time is over, at {:.3} m/s",
                end.time_s,
                place(end.state.position.x, end.state.position.y),
                end.state.velocity.norm()
            )),
            Ending::TooManyEvents => {
                Some(format!("Given up after {MAX_EVENTS} events: nothing slows the ball enough."))
            }
            Ending::Unending => Some("Nothing slows the ball any more: it never stops.".to_owned()),
        };
        for line in last.into_iter().chain(self.cautions()) {
            let _ = writeln!(text, "{line}");
        }
        text
    }

    fn cautions(&self) -> Vec<String> {
        let touches = || {
            self.shot.events.iter().filter_map(|event| match event.kind {
                EventKind::Cushion(touch) => Some(touch),
                _ => None,
            })
        };
        super::caution::cautions(
            touches().any(|touch| touch.outside_checked_speed),
            touches().any(|touch| touch.hop),
            self.layout.equipment.cushion.checked_speed_m_s,
            self.shot.events.first().map_or(0.0, |event| event.before.velocity.norm()),
        )
    }
}

fn place(x: f64, y: f64) -> String {
    format!("({x:.3} m, {y:.3} m)")
}

fn told(event: &Event) -> String {
    let (before, after) = (&event.before, &event.after);
    let here = place(after.position.x, after.position.y);
    match event.kind {
        EventKind::Start => format!("starts at {here} at {:.3} m/s", after.velocity.norm()),
        EventKind::Roll => format!("rolls from {here} on, at {:.3} m/s", after.velocity.norm()),
        EventKind::Cushion(touch) => format!(
            "meets the {} rail at {here} at {:.3} m/s and comes off at {:.3} m/s",
            touch.rail.name(),
            before.velocity.norm(),
            after.velocity.norm()
        ),
        EventKind::Pocket(pocket) => {
            format!("goes into the {} pocket at {:.3} m/s", pocket.name(), before.velocity.norm())
        }
        EventKind::Stop => format!("stops at {here}"),
    }
}
