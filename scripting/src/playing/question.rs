//! One bank as it is asked for.

use crate::fitting::MeasuredTable;
use crate::layout::{
    EngineChoice, Layout, LayoutBall, LayoutTarget, OBJECT, PictureWords, SPEED_UNIT,
};
use crate::player::PlayerProfile;
use railproof_engine::ask::EnsembleStarts;
use railproof_engine::bank::{Bank, BankError, Launch, Outcome};
use railproof_engine::column::SetUp;
use railproof_engine::lay::LineSpot;
use railproof_engine::rail::{Line, PocketChoice, RailChoice, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::units::Speed;

/// A bank ready to be played, and the question's own words.
#[derive(Debug, Clone)]
pub struct BankQuestion {
    /// The table, rail, pocket and model.
    pub bank: Bank,
    /// The line, groove reading.
    pub line: Line,
    /// The launch.
    pub launch: Launch,
    /// The reading in which the line was asked for.
    pub reading: Reading,
    /// The rule that gave the start; `None` when it was given itself.
    pub rule: Option<Rule>,
    /// The speed as it was written.
    pub speed_text: String,
    /// The distance off the rail as it was written.
    pub off_rail_text: String,
    /// The rail as it was asked for.
    pub rail: RailChoice,
    /// The pocket as it was asked for.
    pub pocket: PocketChoice,
    /// The cushion as it was asked for.
    pub cushion: Option<String>,
    /// The table's profile gives its lengths in inches.
    pub table_in_inches: bool,
    /// The measured table that is asked; `bank` is then one member's, see [`BankQuestion::on_middle_table`].
    pub known: Option<MeasuredTable>,
    /// Who plays it, where it is asked how often they make it.
    pub player: Option<PlayerProfile>,
}

impl BankQuestion {
    /// The bank as it is set up on any table.
    pub fn set_up(&self) -> SetUp {
        let launch = &self.launch;
        // A word is another speed for every player.
        let speed = match Speed::parse(&self.speed_text) {
            Ok(speed @ (Speed::Word(_) | Speed::TableLengths(_))) => speed,
            _ => Speed::MetresPerSecond(launch.speed_m_s),
        };
        let geometry = self.bank.geometry();
        SetUp {
            roll: launch.roll,
            side: launch.side,
            aim_error_rad: launch.aim_error_rad,
            ..SetUp::stun(geometry.rail, geometry.pocket, self.line, launch.off_rail_m, speed)
        }
    }

    /// The same on that one of a measured table's members on which the bank's exact start is the middle one. Without a
    /// measured table, or where no member has such a start, it stays.
    ///
    /// # Errors
    /// [`BankError`] for a member's contact that is too short to be followed.
    pub fn on_middle_table(self) -> Result<Self, BankError> {
        let Some(known) = &self.known else { return Ok(self) };
        let (set_up, members) = (self.set_up(), known.ensemble.members());
        let starts =
            EnsembleStarts::of(&known.table, known.model, &known.ensemble, &[set_up], &|| ())?;
        let Some(member) = starts.middle_member(0) else { return Ok(self) };
        let equipment = known.of_member(members.get(member));
        let geometry = self.bank.geometry();
        let bank = Bank::new(&equipment, geometry.rail, geometry.pocket, self.bank.model())?;
        Ok(Self { bank, launch: set_up.launch(&equipment), ..self })
    }

    /// The bank as a shot of the ball alone.
    pub fn layout(&self, outcome: &Outcome) -> Layout {
        let geometry = self.bank.geometry();
        let mut equipment = self.bank.equipment().clone();
        equipment.cushion.rail_model = self.bank.model();
        let state = geometry.state_to_table(&outcome.launch);
        let ball = LayoutBall { name: OBJECT.to_owned(), ball: equipment.ball, state };
        let line = LineSpot { rail: geometry.rail, pocket: geometry.pocket, line: self.line };
        Layout {
            equipment,
            target: Some(LayoutTarget { ball: 0, pocket: geometry.pocket }),
            balls: vec![ball],
            stroke: None,
            obstacles: Vec::new(),
            lines: vec![line],
            engine: EngineChoice::Event,
            until_s: None,
            picture: PictureWords::default(),
            in_inches: false,
            speed_unit: SPEED_UNIT,
        }
    }
}
