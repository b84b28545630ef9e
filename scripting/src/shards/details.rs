//! What rows tell besides, on request: how a ball's way ended and where, whether it would hop, and its
//! spins at the rail. Each bank is played once more alone, which gives the same bits.

use super::encode::{About, Column, Values};
use crate::plan::SweepPlan;
use railproof_engine::bank::{Bank, Outcome};
use railproof_engine::sweep::{Played, Walk};
use railproof_engine::vector::Vec3;
use std::borrow::Cow;

/// The numbers' columns, in order.
const NUMBERS: [(&str, &str, &str); 8] = [
    ("ending_x_m", "m", "where the way ended, along the table from its centre"),
    ("ending_y_m", "m", "where the way ended, across the table from its centre"),
    ("at_rail_spin_x_rad_s", "rad/s", "spin at the rail about the table's long axis"),
    ("at_rail_spin_y_rad_s", "rad/s", "spin at the rail about the table's short axis"),
    ("at_rail_spin_z_rad_s", "rad/s", "spin at the rail about the vertical"),
    ("rebound_spin_x_rad_s", "rad/s", "spin off the rail about the table's long axis"),
    ("rebound_spin_y_rad_s", "rad/s", "spin off the rail about the table's short axis"),
    ("rebound_spin_z_rad_s", "rad/s", "spin off the rail about the vertical"),
];

/// The columns of these rows of what was played; `failed` says which could not be.
pub fn detail_columns<'a>(
    plan: &SweepPlan,
    played: &Played,
    rows: &[usize],
    failed: &dyn Fn(usize) -> bool,
) -> Vec<Column<'a>> {
    let mut hops = Vec::with_capacity(rows.len());
    let (mut endings, mut places) = (Words::default(), Words::default());
    let mut numbers = NUMBERS.map(|_| Vec::with_capacity(rows.len()));
    let mut walk: Option<Walk<'_>> = None;
    let mut table: Option<Bank> = None;
    for row in rows {
        let point = played.point[*row];
        let walk = walk.get_or_insert_with(|| Walk::from(&plan.banks, point));
        while walk.point() < point {
            walk.step();
            if !walk.same_table() {
                table = None;
            }
        }
        if table.is_none() {
            table = plan.banks.table(walk.values()).ok();
        }
        let alone = table.as_ref().filter(|_| !failed(*row)).and_then(|bank| {
            let launch = plan.banks.launch_at(walk.values(), bank);
            Some((bank, bank.play(played.inputs.line(*row), launch).ok()?))
        });
        hops.push(alone.is_some_and(|(_, outcome)| outcome.rebound.is_some_and(|off| off.hop)));
        endings.push(alone.map(|(_, outcome)| outcome.ending.name()));
        places.push(alone.and_then(|(bank, outcome)| outcome.ending.at(bank.geometry())));
        let found = alone.map_or([f64::NAN; 8], |(bank, outcome)| told(bank, &outcome));
        for (column, number) in numbers.iter_mut().zip(found) {
            column.push(number);
        }
    }
    let mut columns = vec![
        Column::new(
            About::new("hop", "", "the ball would hop off the rail"),
            Values::Flags(Cow::Owned(hops)),
        ),
        Column::new(About::new("ending", "", "how the ball's way ended"), endings.values()),
        Column::new(
            About::new("ending_at", "", "the rail or pocket where it ended"),
            places.values(),
        ),
    ];
    for ((name, unit, meaning), values) in NUMBERS.into_iter().zip(numbers) {
        let about = About::new(name, unit, meaning);
        columns.push(Column::new(about, Values::Numbers(Cow::Owned(values))));
    }
    columns
}

/// The numbers of a bank, in the table's frame.
fn told(bank: &Bank, outcome: &Outcome) -> [f64; 8] {
    let geometry = bank.geometry();
    let place = outcome.ending_place().map(|place| geometry.to_table(place));
    let spin = |spin: Option<Vec3>| {
        spin.map_or([f64::NAN; 3], |spin| {
            let spin = geometry.spin_to_table(spin);
            [spin.x, spin.y, spin.z]
        })
    };
    let [ax, ay, az] = spin(outcome.at_rail.map(|at| at.state.spin));
    let [bx, by, bz] = spin(outcome.rebound.map(|off| off.state.spin));
    let (x, y) = place.map_or((f64::NAN, f64::NAN), |place| (place.x, place.y));
    [x, y, ax, ay, az, bx, by, bz]
}

/// Words as they come.
#[derive(Default)]
struct Words {
    list: Vec<String>,
    codes: Vec<u32>,
}

impl Words {
    fn push(&mut self, word: Option<&str>) {
        let code = word.map_or(u32::MAX, |word| {
            let at = self.list.iter().position(|known| known == word).unwrap_or_else(|| {
                self.list.push(word.to_owned());
                self.list.len() - 1
            });
            u32::try_from(at).unwrap_or(u32::MAX)
        });
        self.codes.push(code);
    }

    fn values<'a>(self) -> Values<'a> {
        Values::Words { list: self.list, codes: self.codes }
    }
}
