//! What can be drawn as a line: one number of each bank.

use railproof_engine::sweep::Row;

/// One number of a bank.
pub struct Measure {
    /// Its name in scripts.
    pub name: &'static str,
    /// What a picture's axis says.
    pub title: &'static str,
    /// Its unit.
    pub unit: &'static str,
    /// Reads it; nothing where a bank has none.
    pub of: fn(&Row) -> Option<f64>,
}

/// All of them.
pub const MEASURES: [Measure; 11] = [
    Measure {
        name: "miss",
        title: "miss at the pocket: above is long, below is short",
        unit: "mm",
        of: |row| row.outcome.miss_m().map(|miss| 1e3 * miss),
    },
    Measure {
        name: "clearance",
        title: "room to the nearer mouth point",
        unit: "mm",
        of: |row| row.outcome.clearance_m().map(|clearance| 1e3 * clearance),
    },
    Measure {
        name: "angle_difference",
        title: "rebound angle less the angle the rule implies: above is longer",
        unit: "deg",
        of: |row| row.outcome.angle_difference_rad().map(f64::to_degrees),
    },
    Measure {
        name: "incidence",
        title: "angle to the rail, from its normal",
        unit: "deg",
        of: |row| row.outcome.at_rail.map(|at_rail| at_rail.incidence_rad().to_degrees()),
    },
    Measure {
        name: "rebound_angle",
        title: "angle off the rail, from its normal",
        unit: "deg",
        of: |row| {
            let incoming = row.outcome.at_rail?.state.velocity;
            Some(row.outcome.rebound?.angle_rad(incoming).to_degrees())
        },
    },
    Measure {
        name: "bend",
        title: "bend of the path after the rail: above is longer",
        unit: "deg",
        of: |row| {
            let incoming = row.outcome.at_rail?.state.velocity;
            Some(row.outcome.rebound?.bend_rad(incoming).to_degrees())
        },
    },
    Measure {
        name: "speed_at_rail",
        title: "speed at the rail",
        unit: "m/s",
        of: |row| row.outcome.at_rail.map(|at_rail| at_rail.state.velocity.norm()),
    },
    Measure {
        name: "rebound_speed",
        title: "speed off the rail",
        unit: "m/s",
        of: |row| row.outcome.rebound.map(|rebound| rebound.state.velocity.norm()),
    },
    Measure {
        name: "speed_left",
        title: "speed left at the pocket's mouth",
        unit: "m/s",
        of: |row| row.outcome.arrival.map(|arrival| arrival.state.velocity.norm()),
    },
    Measure {
        name: "line_start",
        title: "start number of the line",
        unit: "diamonds, groove",
        of: |row| Some(row.line.start),
    },
    Measure {
        name: "line_contact",
        title: "contact number of the line",
        unit: "diamonds, groove",
        of: |row| Some(row.line.contact),
    },
];
