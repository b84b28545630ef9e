//! `railproof shot`: balls on a table, from a file to rest.

use super::budget::BudgetFlags;
use super::flags::{in_flag, number, word};
use super::interrupt;
use super::output::{pictures_written, print, to_json};
use crate::answer::{ChoiceAnswer, ShotAnswer, ShotPlayerAnswer};
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::{make_folder, write_whole};
use crate::layout::{EngineChoice, layout_guide, load_layout};
use crate::picture::TablePicture;
use crate::player::{PlayerProfile, find_player};
use crate::playing::{ChoiceFindings, PlayedShot, SteppedPlay};
use crate::telling::{Detail, bank_or_cut_sentences, of_an_earlier_run, shot_chance_sentence};
use clap::builder::{PossibleValuesParser, TypedValueParser};
use railproof_engine::equipment::FrictionLaw;
use railproof_engine::rail::{Pocket, Reading};
use railproof_engine::rule::{NamedRule, Rule};
use std::path::{Path, PathBuf};

/// Play the balls of a YAML file until they rest.
#[derive(Debug, clap::Args)]
#[command(after_long_help = layout_guide())]
#[expect(clippy::struct_excessive_bools, reason = "flags")]
pub struct ShotArgs {
    /// A YAML file with `equipment` and `balls`; `--help` lists everything it can say.
    pub file: PathBuf,
    /// Answer with JSON for other programs: every event, and every parameter in use.
    #[arg(long, conflicts_with = "moments")]
    pub json: bool,
    /// Tell every event of every ball after the sentences.
    #[arg(long)]
    pub moments: bool,
    /// Play the same stroke under this law of friction between balls instead of the equipment's: an aim
    /// that the file leaves to be solved is solved under the equipment's.
    #[arg(long, value_name = "LAW", value_parser = friction_law())]
    pub friction_law: Option<FrictionLaw>,
    /// Say how often this player makes it: steady, club or beginner, or a player's path. Strokes are drawn about the
    /// one in the file, which the player knows, and played.
    #[arg(long, value_name = "NAME|FILE")]
    pub player: Option<String>,
    /// Say whether this player should bank the ball or cut it: every cut and every bank off one rail or two is tried with the
    /// file's stroke but for its aim, with this player's errors of line and stroke.
    #[arg(long, requires = "player")]
    pub bank_or_cut: bool,
    /// A pocket that counts for `--bank-or-cut`; may be given more than once. Without it all six count.
    #[arg(long, value_name = "POCKET", requires = "bank_or_cut")]
    pub pocket: Vec<String>,
    /// The slope of the rule by which the player works out a bank's line: start = slope × contact. Without it the player
    /// knows the line and reads its mark. Rules are for one rail.
    #[arg(long, value_name = "NUMBER", requires = "bank_or_cut", allow_hyphen_values = true)]
    pub slope: Option<String>,
    /// Tell all: every share of a miss, how the cue stands, the models; for bank or cut, every way and why it is
    /// ruled out.
    #[arg(long, conflicts_with = "json")]
    pub full: bool,
    /// Show the balls' spin in the picture.
    #[arg(long, requires = "into")]
    pub spin: bool,
    /// Folder for a picture of the table, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

impl ShotArgs {
    /// Whether to bank or to cut, where that is asked.
    fn choice(
        &self,
        played: &PlayedShot<'_>,
        player: Option<&PlayerProfile>,
    ) -> Result<Option<ChoiceFindings>, Fault> {
        let Some(player) = player.filter(|_| self.bank_or_cut) else { return Ok(None) };
        let pockets: Vec<Pocket> =
            self.pocket.iter().map(|name| word("--pocket", name)).collect::<Result<_, _>>()?;
        let rule = self.slope.as_ref().map(|text| {
            let slope = number("--slope", text, None)?;
            let rule = Rule::linear(slope, 0.0, Reading::Groove)
                .map_err(|error| in_flag("--slope", Fault::bad_input(error.to_string())))?;
            Ok::<_, Fault>(NamedRule { name: rule.name(), rule })
        });
        let pockets = (!pockets.is_empty()).then_some(pockets);
        played.bank_or_cut(player, rule.transpose()?, pockets).map(Some)
    }
}

/// Plays the balls, prints what happened to them, and draws it.
///
/// # Errors
/// A [`Fault`] at its place in the file, a start the engine refuses, or an output that can't be
/// written.
pub fn run(args: &ShotArgs) -> Result<Exit, Fault> {
    let told = play(args);
    if let (Err(_), Some(folder), false) = (&told, &args.into, args.json) {
        let named = folder.join(args.file.file_name().unwrap_or_default()).with_extension("png");
        print(&of_an_earlier_run(named.is_file().then_some(named).as_slice()))?;
    }
    told
}

fn play(args: &ShotArgs) -> Result<Exit, Fault> {
    if args.file.extension().is_some_and(|ending| ending == "lua") {
        let file = args.file.display();
        return Err(Fault::bad_input(format!("`{file}` is Lua; a layout of balls is YAML"))
            .with_hint(format!("a scenario is played by: {} run {file}", called::name())));
    }
    interrupt::ends();
    let mut layout = load_layout(&args.file)?;
    if let Some(law) = args.friction_law {
        layout.equipment.ball_contact.friction_law = law;
    }
    let layout = layout;
    let player = args.player.as_ref().map(|name| find_player(name, Path::new("")));
    let player = player.transpose().map_err(|fault| in_flag("--player", fault))?;
    let (mut text, rub, moments, answer, pictures, gave_up) = match layout.engine {
        EngineChoice::Event => {
            let played = PlayedShot::new(&layout)?;
            let choice = args.choice(&played, player.as_ref())?;
            let pictures = args.into.as_ref().map(|folder| {
                if let Some(found) = &choice {
                    let Some(picture) = played.choice_picture(found) else { return Ok(Vec::new()) };
                    return write_picture(&picture, &beside(&args.file, BANK_OR_CUT), folder);
                }
                let mut picture = played.picture(args.spin);
                // Over the picture of a miss stands the remedy, and its reason under it.
                match played.remedy_and_reason() {
                    Some([remedy, reason]) => {
                        if layout.picture.title.is_none() {
                            picture.title = remedy;
                        }
                        picture.verdict = reason;
                    }
                    None => picture.verdict = played.advice().unwrap_or(picture.verdict),
                }
                write_picture(&picture, &args.file, folder)
            });
            let made = player.as_ref().map(|player| played.chance(player)).transpose()?;
            let made = player.as_ref().zip(made.as_ref());
            let answer = args.json.then(|| {
                let player = made.map(|(player, made)| ShotPlayerAnswer::new(player, made));
                let bank_or_cut = choice.as_ref().map(ChoiceAnswer::new);
                to_json(&ShotAnswer { player, bank_or_cut, ..played.answer() })
            });
            let moments = args.moments.then(|| played.moments());
            let detail = Detail::of_flag(args.full);
            let made = made.map(|(player, made)| shot_chance_sentence(player, made));
            let text = match &choice {
                Some(choice) => bank_or_cut_sentences(choice, detail),
                None => played.sentences(detail) + &made.unwrap_or_default(),
            };
            (text, played.rub(), moments, answer, pictures, played.shot.gave_up())
        }
        EngineChoice::Stepped if player.is_some() => {
            return Err(Fault::bad_input(
                "`--player` plays a thousand strokes, which takes the stepped engine too long",
            )
            .with_hint("take `engine: event`, or leave the player out"));
        }
        EngineChoice::Stepped => {
            let played = SteppedPlay::new(&layout)?;
            let pictures = args
                .into
                .as_ref()
                .map(|folder| write_picture(&played.picture(args.spin), &args.file, folder));
            let answer = args.json.then(|| to_json(&played.answer()));
            let moments = args.moments.then(|| played.moments());
            (played.sentences(), played.rub(), moments, answer, pictures, played.shot.gave_up())
        }
    };
    let exit = if gave_up { Exit::CouldNotFinish } else { Exit::Held };
    let pictures = pictures.transpose()?;
    if let Some(answer) = answer.transpose()? {
        print(&answer)?;
        return Ok(exit);
    }
    if rub && args.full {
        let other = layout.equipment.ball_contact.friction_law.other().name();
        text.push_str("`--friction-law ");
        text.push_str(other);
        text.push_str("` plays the same stroke by the other law.\n");
    }
    text.extend(moments);
    text.push_str(&pictures_written(&pictures.unwrap_or_default()));
    print(&text)?;
    Ok(exit)
}

/// What the file of an answer's picture is called after the layout's name.
const BANK_OR_CUT: &str = "-bank-or-cut";

/// The file's name with words behind its stem.
fn beside(file: &Path, words: &str) -> PathBuf {
    let mut stem = file.file_stem().unwrap_or("shot".as_ref()).to_owned();
    stem.push(words);
    PathBuf::from(stem)
}

fn friction_law() -> impl TypedValueParser<Value = FrictionLaw> {
    PossibleValuesParser::new(FrictionLaw::ALL.map(FrictionLaw::name)).map(|name| {
        let named = FrictionLaw::ALL.into_iter().find(|law| law.name() == name);
        named.unwrap_or_default()
    })
}

/// Writes a picture as SVG and as PNG, named after the layout's file.
///
/// # Errors
/// A picture that can't be drawn, such as one of far too many paths, or a folder that can't be written.
pub fn write_picture(
    picture: &TablePicture,
    file: &Path,
    folder: &Path,
) -> Result<Vec<PathBuf>, Fault> {
    let cannot =
        |error| Fault::bad_input(format!("the picture of the shot can't be drawn: {error}"));
    let contents = [
        ("svg", picture.to_svg().map_err(cannot)?.into_bytes()),
        ("png", picture.to_png().map_err(cannot)?),
    ];
    make_folder(folder)?;
    let stem = file.file_stem().unwrap_or("shot".as_ref());
    let mut written = Vec::with_capacity(contents.len());
    for (extension, bytes) in contents {
        let mut name = stem.to_owned();
        name.push(".");
        name.push(extension);
        let path = folder.join(name);
        write_whole(&path, |out| out.write_all(&bytes))?;
        written.push(path);
    }
    Ok(written)
}
