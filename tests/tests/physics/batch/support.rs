//! Random banks, and a batch held against banks played alone.

use railproof_engine::bank::{Bank, Launch};
use railproof_engine::batch::{ColumnChoice, Inputs, Outcomes, Width, play_at};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::vector::Vec2;
use railproof_tests::random::SplitMix;

/// Random inputs.
pub struct Draws(SplitMix);

impl Draws {
    pub const fn of(seed: u64) -> Self {
        Self(SplitMix(seed))
    }

    pub fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.share()
    }

    pub fn one_of<T: Copy>(&mut self, choices: &[T]) -> T {
        let place = self.0.bits() % choices.len() as u64;
        choices[usize::try_from(place).expect("below a length")]
    }
}

/// As a sweep's map has them: most reach the rail, and the mouth line or a side.
pub fn usual(draws: &mut Draws, span_m: f64) -> (Line, Launch) {
    let contact = draws.within(-1.0, 4.0);
    let line = Line::new(contact, contact * draws.within(1.6, 2.8));
    let launch = Launch {
        off_rail_m: draws.within(0.0, 0.7_f64.min(span_m)) * draws.one_of(&[0.0, 1.0, 1.0]),
        speed_m_s: draws.within(0.2, 7.0),
        roll: draws.within(-0.5, 1.0) * draws.one_of(&[0.0, 1.0]),
        side: draws.within(-0.6, 0.6) * draws.one_of(&[0.0, 1.0]),
        aim_error_rad: draws.within(-0.02, 0.02) * draws.one_of(&[0.0, 1.0]),
    };
    (line, launch)
}

/// Anything that is accepted, with the ends of the ranges and round numbers thick among them.
pub fn anything(draws: &mut Draws, span_m: f64) -> (Line, Launch) {
    let round = draws.one_of(&[0.0, 1.0, 2.0, 3.5, -2.0, 5.0]);
    let contact = draws.within(-9.0, 9.0);
    let contact = draws.one_of(&[contact, contact, round, 0.0]);
    let start = draws.within(-20.0, 20.0);
    let start = draws.one_of(&[start, 2.2 * contact, contact, round]);
    let pick = |draws: &mut Draws, low: f64, high: f64| {
        let any = draws.within(low, high);
        let small = draws.within(-1e-9, 1e-9).clamp(low, high);
        draws.one_of(&[
            any,
            any,
            any,
            low,
            high,
            0.0_f64.clamp(low, high),
            1.0_f64.clamp(low, high),
            small,
        ])
    };
    let launch = Launch {
        off_rail_m: pick(draws, 0.0, span_m.min(4.0)),
        speed_m_s: {
            let slow = draws.within(0.01, 0.6);
            let any = pick(draws, 0.01, 20.0);
            draws.one_of(&[slow, any])
        },
        roll: pick(draws, -3.0, 3.0),
        side: pick(draws, -3.0, 3.0),
        aim_error_rad: pick(draws, -0.3, 0.3),
    };
    (Line::new(contact, start), launch)
}

/// Every rail and pocket that make a bank.
pub fn banks(equipment: &Equipment, model: RailModel) -> Vec<Bank> {
    Rail::ALL
        .into_iter()
        .flat_map(|rail| Pocket::ALL.into_iter().map(move |pocket| (rail, pocket)))
        .filter_map(|(rail, pocket)| Bank::new(equipment, rail, pocket, model).ok())
        .collect()
}

/// Not a number is alike, however it came about.
fn same(ours: f64, alone: Option<f64>) -> bool {
    match alone {
        None => ours.is_nan(),
        Some(alone) => ours.to_bits() == alone.to_bits() || (ours.is_nan() && alone.is_nan()),
    }
}

/// Plays the inputs together at every width there is, and alone.
pub fn hold_against_alone(bank: &Bank, inputs: &Inputs) {
    let lines = (0..inputs.len()).map(|i| {
        let (line, launch) = (inputs.line(i), inputs.launch(i));
        (line, launch, bank.play(line, launch).expect("an accepted launch"))
    });
    let alone: Vec<_> = lines.collect();
    let radius_m = bank.equipment().ball.radius_m();
    for width in Width::ALL.into_iter().filter(|width| width.is_there()) {
        let (mut all, mut short) = (Outcomes::default(), Outcomes::default());
        play_at(width, bank, inputs, ColumnChoice::Everything, &mut all);
        play_at(width, bank, inputs, ColumnChoice::Verdicts, &mut short);
        assert!(short.restitution.is_empty() && short.hop.is_empty());
        let mut whole = Outcomes::default();
        play_at(width, bank, inputs, ColumnChoice::Whole, &mut whole);
        assert!(all.whole.is_empty() && short.whole.is_empty());
        assert_eq!((all.len(), short.len()), (alone.len(), alone.len()));
        for (i, (line, launch, outcome)) in alone.iter().enumerate() {
            let (at_rail, rebound, arrival) = (outcome.at_rail, outcome.rebound, outcome.arrival);
            let label = |what: &str| {
                format!(
                    "{what} of {line:?} {launch:?} at {width:?}, {:?} off {:?} into {:?}: {outcome:?}",
                    bank.model(),
                    bank.geometry().rail,
                    bank.geometry().pocket
                )
            };
            // Text tells −0 from 0, and finds what is not a number equal to itself.
            assert_eq!(format!("{:?}", whole.whole[i]), format!("{outcome:?}"), "{}", label("all"));
            assert_eq!(all.verdict[i], outcome.verdict(), "{}", label("verdict"));
            assert_eq!(short.verdict[i], outcome.verdict(), "{}", label("short verdict"));
            assert_eq!(all.flagged[i], outcome.flagged(), "{}", label("flag"));
            assert_eq!(short.flagged[i], outcome.flagged(), "{}", label("short flag"));
            let outside = rebound.is_some_and(|rebound| rebound.outside_checked_speed);
            assert_eq!(all.outside_checked_speed[i], outside, "{}", label("checked range"));
            let hop = rebound.is_some_and(|rebound| rebound.hop);
            assert_eq!(all.hop[i], hop, "{}", label("hop"));
            let long = arrival.map(|arrival| arrival.clearance_long_m);
            let near = arrival.map(|arrival| arrival.clearance_short_m);
            let velocity = at_rail.map(|at_rail| at_rail.state.velocity);
            let numbers = [
                ("miss", all.miss_m[i], outcome.miss_m()),
                ("short miss", short.miss_m[i], outcome.miss_m()),
                ("clearance long", all.clearance_long_m[i], long),
                ("short clearance long", short.clearance_long_m[i], long),
                ("clearance short", all.clearance_short_m[i], near),
                ("short clearance short", short.clearance_short_m[i], near),
                ("contact", all.contact_at_rail[i], at_rail.map(|at| at.contact)),
                ("time at rail", all.time_at_rail_s[i], at_rail.map(|at| at.time_s)),
                ("speed at rail", all.speed_at_rail_m_s[i], velocity.map(Vec2::norm)),
                (
                    "roll at rail",
                    all.roll_at_rail[i],
                    at_rail.and_then(|at| at.state.natural_roll_fraction(radius_m)),
                ),
                ("incidence", all.incidence_rad[i], at_rail.map(|at| at.incidence_rad())),
                ("departure", all.departure[i], rebound.map(|off| off.departure)),
                (
                    "rebound speed",
                    all.rebound_speed_m_s[i],
                    rebound.map(|off| off.state.velocity.norm()),
                ),
                (
                    "rebound angle",
                    all.rebound_angle_rad[i],
                    rebound.zip(velocity).map(|(off, velocity)| off.angle_rad(velocity)),
                ),
                ("restitution", all.restitution[i], rebound.map(|off| off.restitution)),
                ("arrival time", all.arrival_time_s[i], arrival.map(|arrival| arrival.time_s)),
                (
                    "arrival speed",
                    all.arrival_speed_m_s[i],
                    arrival.map(|arrival| arrival.state.velocity.norm()),
                ),
            ];
            for (what, ours, alone) in numbers {
                assert!(same(ours, alone), "{}", label(&format!("{what} {ours:e} for {alone:?}")));
            }
        }
    }
}
