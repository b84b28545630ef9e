//! The point behind the rail at which every ball may be aimed.

use crate::fitting::MeasuredTable;
use railproof_engine::ask::{CredibleInterval, EnsembleStarts};
use railproof_engine::bank::{Bank, Launch, exact_start};
use railproof_engine::column::SetUp;
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::rule::AimSpot;
use railproof_engine::sweep::{LineFit, fit_through_origin, fit_with_offset};
use railproof_engine::units::{Speed, short_number};

/// The question of a spot: balls at the rail that slide.
#[derive(Debug, Clone)]
pub struct SpotQuestion<'a> {
    /// The table, or the middle one.
    pub table: Equipment,
    /// All that it could be, where it isn't known exactly.
    pub known: Option<&'a MeasuredTable>,
    /// The rail model.
    pub model: RailModel,
    /// The rail banked off.
    pub rail: Rail,
    /// The target.
    pub pocket: Pocket,
    /// The speed of the balls, m/s.
    pub speed_m_s: f64,
    /// The contact numbers of the balls.
    pub contacts: Vec<f64>,
    /// Whether it may stand aside of the zero line.
    pub aside: bool,
}

/// The spot, and how well it serves.
#[derive(Debug, Clone)]
pub struct SpotFindings {
    /// The table's name.
    pub table: String,
    /// The spot.
    pub spot: AimSpot,
    /// The frame in which its numbers are read.
    pub geometry: BankGeometry,
    /// The slope of the rule that it stands for.
    pub slope: f64,
    /// Its offset, diamonds.
    pub offset: f64,
    /// The slope over all the tables that the table could be.
    pub slopes: Option<CredibleInterval>,
    /// How far behind the nose it stands, m.
    pub behind_nose_m: f64,
    /// For each contact, by how much its start misses the exact one, diamonds.
    pub errors: Vec<(f64, f64)>,
    /// The rail.
    pub rail: Rail,
    /// The target.
    pub pocket: Pocket,
    /// The speed of the balls, m/s.
    pub speed_m_s: f64,
}

impl SpotFindings {
    /// The largest error of a start, diamonds.
    pub fn largest_error(&self) -> f64 {
        self.errors.iter().map(|(_, error)| error.abs()).fold(0.0, f64::max)
    }
}

impl SpotQuestion<'_> {
    /// Contact numbers, unless others are asked for.
    pub const CONTACTS: [f64; 5] = [1.5, 2.0, 2.5, 3.0, 3.5];
    /// Speed, unless another is said, m/s.
    pub const SPEED_M_S: f64 = 4.0;

    /// Fits a line through the exact starts.
    ///
    /// # Errors
    /// Words where there is no spot.
    pub fn answer(&self) -> Result<SpotFindings, String> {
        let geometry = BankGeometry::new(&self.table, self.rail, self.pocket)
            .map_err(|error| error.to_string())?;
        let first = self.contacts.first();
        if self.contacts.iter().all(|contact| Some(contact) == first) {
            return Err("a spot needs two different contacts at least".to_owned());
        }
        let (line, slopes, starts) = self.fitted().map_err(|contact| match contact {
            Some(contact) => format!(
                "contact {} has no start with which it holds on this table, frozen at {} m/s; leave it out",
                short_number(contact, 3),
                short_number(self.speed_m_s, 2)
            ),
            None => "these starts give no line".to_owned(),
        })?;
        let spot = AimSpot::of(line.slope, line.offset, &geometry)
            .ok_or("these lines do not meet in one spot behind the rail")?;
        let errors = self
            .contacts
            .iter()
            .zip(&starts)
            .map(|(contact, start)| (*contact, line.slope * contact + line.offset - start));
        Ok(SpotFindings {
            table: self.table.name.clone(),
            slope: line.slope,
            offset: line.offset,
            slopes,
            behind_nose_m: spot.behind_nose_m(&geometry),
            errors: errors.collect(),
            rail: self.rail,
            pocket: self.pocket,
            speed_m_s: self.speed_m_s,
            spot,
            geometry,
        })
    }

    /// The fit; else the first contact without a start, where that is why.
    fn fitted(&self) -> Result<FittedSpot, Option<f64>> {
        let fit = if self.aside { fit_with_offset } else { fit_through_origin };
        let contacts = &self.contacts;
        let Some(known) = self.known else {
            let bank =
                Bank::new(&self.table, self.rail, self.pocket, self.model).map_err(|_| None)?;
            let launch = Launch::frozen_stun(self.speed_m_s);
            let start =
                |contact: &f64| exact_start(&bank, *contact, launch).map_err(|_| Some(*contact));
            let starts: Vec<f64> = contacts.iter().map(start).collect::<Result<_, _>>()?;
            let pairs: Vec<(f64, f64)> =
                contacts.iter().copied().zip(starts.iter().copied()).collect();
            return Ok((fit(&pairs).ok_or(None)?, None, starts));
        };
        let set_up = |contact: &f64| {
            let line = Line::new(*contact, *contact);
            let speed = Speed::MetresPerSecond(self.speed_m_s);
            SetUp::stun(self.rail, self.pocket, line, 0.0, speed)
        };
        let set_ups: Vec<SetUp> = contacts.iter().map(set_up).collect();
        let starts =
            EnsembleStarts::of(&known.table, known.model, &known.ensemble, &set_ups, &|| ())
                .map_err(|_| None)?;
        let every: Vec<usize> = (0..contacts.len()).collect();
        let lines = starts.lines(&every, fit);
        let middle = |at: &usize| {
            let start = starts.start(*at).start.map(|start| start.middle);
            start.ok_or(Some(contacts[*at]))
        };
        let middles: Vec<f64> = every.iter().map(middle).collect::<Result<_, _>>()?;
        let pairs: Vec<(f64, f64)> =
            contacts.iter().copied().zip(middles.iter().copied()).collect();
        Ok((fit(&pairs).ok_or(None)?, starts.interval(&lines, |line| line.slope), middles))
    }
}

/// A line through exact starts, over many tables its slope's interval, and the starts.
type FittedSpot = (LineFit, Option<CredibleInterval>, Vec<f64>);
