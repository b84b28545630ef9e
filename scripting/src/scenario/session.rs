//! The state of a running scenario: its results so far, and the facts of the run that its words need.

use super::run_options::{Progress, RunOptions};
use super::titles;
use crate::answer::AnswerTable;
use crate::fault::{Fault, Place};
use crate::fitting::KeptShares;
use crate::lua::options::{Options, text};
use crate::lua::place::{self, Placed};
use crate::picture::{MapPicture, MissUnit};
use crate::plan::SweepPlan;
use crate::record::{
    Drawing, Expectation, FrontierRecord, LeftOut, MapRecord, Picture, Record, SharedRecord,
    ShotsRecord, StartsRecord,
};
use crate::store::safe_name;
use crate::telling::AskedUnits;
use crate::telling::caution::Cautions;
use mlua::{Lua, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::sweep::MAX_ROWS;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

/// Longest name of a drawing or of a file of rows.
const LONGEST_NAME: usize = 60;
/// Words of an expectation are cut there, characters.
const LONGEST_WORDS: usize = 4000;
/// The most pictures one scenario draws.
const MOST_DRAWINGS: usize = 200;

/// The most expectations of one scenario.
const MOST_EXPECTATIONS: usize = 10_000;

/// The most things that are left out and told.
const MOST_LEFT_OUT: usize = 200;

/// The most rows that all maps of one scenario hold together.
const MOST_ROWS: usize = 2 * MAX_ROWS;

/// The run of one scenario.
#[derive(Debug)]
pub struct Session {
    folder: PathBuf,
    options: RunOptions,
    record: SharedRecord,
    names: RefCell<BTreeSet<String>>,
    /// Whether `scenario` was called.
    opened: Cell<bool>,
    /// Calls of `expect` so far, and what to say of those that no claim has followed.
    expectations_opened: Cell<usize>,
    unclaimed: RefCell<BTreeMap<usize, Fault>>,
    /// Calls of `plan` and `compare` so far.
    plan_calls: Cell<usize>,
    /// Whether a picture that the scenario asks for could not be drawn.
    lost_picture: Cell<bool>,
    /// The tables that the scenario loads.
    tables: RefCell<Vec<Rc<Equipment>>>,
    /// Whether lengths are shown in inches: the script's own decide, or else those of its first table.
    in_inches: Cell<Option<bool>>,
}

impl Session {
    pub fn new(path: &Path, options: RunOptions) -> Self {
        let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned());
        let record =
            Record { name: name.unwrap_or_default(), file: path.to_owned(), ..Record::default() };
        Self {
            folder: path.parent().unwrap_or(Path::new("")).to_owned(),
            options,
            record: SharedRecord::new(record),
            names: RefCell::default(),
            opened: Cell::new(false),
            expectations_opened: Cell::new(0),
            unclaimed: RefCell::default(),
            plan_calls: Cell::new(0),
            lost_picture: Cell::new(false),
            tables: RefCell::default(),
            in_inches: Cell::new(None),
        }
    }

    /// Takes note of text in which lengths are in inches, or are not; the first text with lengths
    /// decides.
    pub fn note_lengths(&self, in_inches: Option<bool>) {
        self.in_inches.set(self.in_inches.get().or(in_inches));
    }

    /// The unit in which misses are shown.
    pub fn miss_unit(&self) -> MissUnit {
        match self.in_inches.get() {
            Some(true) => MissUnit::Inches,
            _ => MissUnit::Millimetres,
        }
    }

    /// The units in which people are told of lengths and speeds.
    pub fn units(&self) -> AskedUnits {
        AskedUnits::of_scenario(self.miss_unit() == MissUnit::Inches)
    }

    /// The session of a machine's scenario.
    pub fn of(lua: &Lua) -> mlua::Result<Rc<Self>> {
        lua.app_data_ref::<Rc<Self>>()
            .map(|session| Rc::clone(&session))
            .ok_or_else(|| Fault::bad_input("this works only inside a scenario").into())
    }

    /// The folder to which file names in the scenario are relative.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    pub fn accepts_baselines(&self) -> bool {
        self.options.accept_baselines
    }

    /// What is recorded, for those who may have to take it from another thread.
    pub fn shared_record(&self) -> SharedRecord {
        self.record.clone()
    }

    /// Takes out what was recorded.
    pub fn take_record(&self) -> Record {
        self.record.take()
    }

    /// Notes what to be careful of in an answer that the script gets.
    pub fn advise(&self, cautions: &Cautions) {
        self.record.lock().advised.add(cautions);
    }

    /// Runs a stretch of work on `total` points with the script's clock stopped.
    pub fn work<T>(
        &self,
        lua: &Lua,
        total: usize,
        work: impl FnOnce(&(dyn Fn() + Sync)) -> T,
    ) -> Result<T, Fault> {
        if let Some(reason) = self.options.stop.asked() {
            return Err(reason.fault(&self.options.budget));
        }
        let _pause = crate::lua::Host::pause(lua);
        let progress: &dyn Progress = &*self.options.progress;
        progress.begin(total as u64);
        let done = work(&|| progress.tick(1));
        progress.end();
        Ok(done)
    }

    /// Where answers of many tables are kept, if anywhere.
    pub fn kept_shares(&self) -> Option<KeptShares> {
        self.options.kept.as_deref().and_then(KeptShares::in_folder)
    }

    /// Tells those who wait what a long stretch of work will take.
    pub fn say(&self, words: &str) {
        self.options.progress.say(words);
    }

    /// Refuses rows that would not fit beside those the scenario holds already.
    pub fn check_room(&self, rows: usize) -> Result<(), Fault> {
        let record = self.record.lock();
        let in_maps: usize = record.maps.iter().map(|map| map.rows.len()).sum();
        let held = in_maps + record.shots.iter().map(|shots| shots.rows.len()).sum::<usize>();
        if held + rows > MOST_ROWS {
            return Err(Fault::bad_input(format!(
                "with this comparison the scenario would hold {} banks; at most {MOST_ROWS} are \
                 held together",
                held + rows
            ))
            .with_hint("take coarser steps, or several scenarios"));
        }
        Ok(())
    }

    pub fn add_map(&self, map: &Arc<MapRecord>) {
        let mut record = self.record.lock();
        record.banks_played += map.rows.len() as u64;
        record.maps.push(Arc::clone(map));
    }

    pub fn add_answer_table(&self, table: AnswerTable) {
        self.record.lock().tables.push(table);
    }

    pub fn add_starts(&self, starts: &Arc<StartsRecord>) {
        self.record.lock().starts.push(Arc::clone(starts));
    }

    pub fn add_frontier(&self, front: &Arc<FrontierRecord>) {
        let mut record = self.record.lock();
        record.banks_played += front.found.banks_played();
        record.frontiers.push(Arc::clone(front));
    }

    pub fn add_shots(&self, shots: &Arc<ShotsRecord>) {
        let mut record = self.record.lock();
        record.shots_played += shots.rows.len() as u64;
        record.shots.push(Arc::clone(shots));
    }

    /// Whether the scenario is run for a plan.
    pub fn plans(&self) -> bool {
        self.options.plan.is_some()
    }

    /// The scenario's name.
    pub fn scenario_name(&self) -> String {
        self.record.lock().name.clone()
    }

    /// Notes a plan. When it is the one that the scenario is run for, the run ends here.
    pub fn planned(&self, plan: &SweepPlan) -> Result<(), Fault> {
        let which = self.count_plan_call();
        self.record.lock().plans.push((which, plan.clone()));
        if self.options.plan.is_some_and(|wanted| which >= wanted) {
            return Err(Fault::bad_input("the plan is made"));
        }
        Ok(())
    }

    /// Counts a call that makes a plan, and tells its number.
    pub fn count_plan_call(&self) -> usize {
        self.plan_calls.set(self.plan_calls.get() + 1);
        self.plan_calls.get()
    }

    pub fn count_bank(&self) {
        self.record.lock().banks_played += 1;
    }

    pub fn count_shot(&self) {
        self.record.lock().shots_played += 1;
    }

    pub fn add_expectation(&self, expectation: Expectation) -> Result<(), Fault> {
        if self.record.lock().expectations.len() >= MOST_EXPECTATIONS {
            return Err(Fault::bad_input(format!(
                "a scenario states at most {MOST_EXPECTATIONS} expectations"
            ))
            .with_hint("say one thing of a whole map, instead of one of every bank")
            .placed(expectation.place));
        }
        // A word of the script's own may be as long as its memory, and each is kept.
        let cut = |words: String| match words.char_indices().nth(LONGEST_WORDS) {
            Some((end, _)) => format!("{}…", &words[..end]),
            None => words,
        };
        let Expectation { expected, found, .. } = expectation;
        let expectation = Expectation { expected: cut(expected), found: cut(found), ..expectation };
        self.options.progress.stated(&expectation);
        self.record.lock().expectations.push(expectation);
        Ok(())
    }

    /// Notes a subject of an expectation; `fault` is said when no claim follows.
    pub fn open_expectation(&self, fault: Fault) -> usize {
        let number = self.expectations_opened.get();
        self.expectations_opened.set(number + 1);
        self.unclaimed.borrow_mut().insert(number, fault);
        number
    }

    pub fn close_expectation(&self, number: usize) {
        self.unclaimed.borrow_mut().remove(&number);
    }

    /// Leaves out every subject of an expectation on which no claim was made.
    pub fn leave_out_unclaimed(&self) {
        for fault in self.unclaimed.take().into_values() {
            self.leave_out(fault);
        }
    }

    /// Notes something that is left out, once, and gives its place in the list.
    pub fn leave_out(&self, fault: Fault) -> usize {
        let mut record = self.record.lock();
        let known = record.left_out.iter().position(|one| one.fault == fault);
        known.unwrap_or_else(|| {
            if record.left_out.len() < MOST_LEFT_OUT {
                record.left_out.push(LeftOut { fault, silent: BTreeSet::new() });
            }
            record.left_out.len() - 1
        })
    }

    /// Whether something is left out in these words, on whatever line.
    pub fn leaves_out(&self, message: &str) -> bool {
        self.record.lock().left_out.iter().any(|one| one.fault.message == message)
    }

    /// How much is left out so far.
    pub fn left_out_count(&self) -> usize {
        self.record.lock().left_out.len()
    }

    /// What was left out from such a count on, each with its line.
    pub fn left_out_from(&self, count: usize) -> Vec<String> {
        let record = self.record.lock();
        let line = |fault: &Fault| {
            let place = fault.place.as_ref();
            place.map_or_else(String::new, |it| format!("line {}: ", it.line_column().0))
        };
        let told = |one: &LeftOut| format!("{}{}", line(&one.fault), one.fault.message);
        record.left_out.iter().skip(count).map(told).collect()
    }

    /// Notes a line that says nothing because of what is left out.
    pub fn silence(&self, left_out: usize, line: usize) {
        if let Some(one) = self.record.lock().left_out.get_mut(left_out) {
            one.silent.insert(line);
        }
    }

    pub fn add_table(&self, table: &Rc<Equipment>) {
        self.tables.borrow_mut().push(Rc::clone(table));
    }

    /// The table of a scenario that loads one only.
    pub fn only_table(&self) -> Option<Equipment> {
        match self.tables.borrow().as_slice() {
            [only] => Some(Equipment::clone(only)),
            _ => None,
        }
    }

    pub fn lose_picture(&self) {
        self.lost_picture.set(true);
    }

    pub fn lost_picture(&self) -> bool {
        self.lost_picture.get()
    }

    /// Keeps a picture under the name that the options give it, or a fresh one.
    pub fn add_drawing(
        &self,
        options: &Options,
        otherwise: &str,
        picture: Picture,
    ) -> Result<(), Fault> {
        self.add_drawings(options, otherwise, vec![(String::new(), picture)])
    }

    /// The same of several, each with what sets it apart: the first has the name, the others have that behind it.
    pub fn add_drawings(
        &self,
        options: &Options,
        otherwise: &str,
        pictures: Vec<(String, Picture)>,
    ) -> Result<(), Fault> {
        if self.record.lock().drawings.len() + pictures.len() > MOST_DRAWINGS {
            return Err(options
                .complain_of_call(format!("a scenario draws at most {MOST_DRAWINGS} pictures")));
        }
        let first = self.name(options, otherwise)?;
        for (at, (apart, picture)) in pictures.into_iter().enumerate() {
            let name = match at {
                0 => first.clone(),
                _ => self.fresh_name(&plain_name(&format!("{first}-{apart}"))),
            };
            self.keep(name, picture);
        }
        Ok(())
    }

    fn keep(&self, name: String, mut picture: Picture) {
        let drawings = &mut self.record.lock().drawings;
        titles::set_apart(drawings, &name, &mut picture);
        drawings.push(Drawing { name, picture });
        // A shade means the same miss in every map of a scenario.
        let maps = drawings.iter_mut().filter_map(|drawing| match &mut drawing.picture {
            Picture::Map(map) => Some(map),
            _ => None,
        });
        MapPicture::share_scale(&mut maps.collect::<Vec<_>>(), self.miss_unit());
    }

    /// Keeps a picture that the script did not ask for, under a fresh name; nothing where there are too many.
    pub fn add_picture(&self, beginning: &str, mut picture: Picture) -> Option<String> {
        if self.record.lock().drawings.len() >= MOST_DRAWINGS {
            return None;
        }
        let name = self.fresh_name(&plain_name(beginning));
        let drawings = &mut self.record.lock().drawings;
        titles::set_apart(drawings, &name, &mut picture);
        drawings.push(Drawing { name: name.clone(), picture });
        Some(name)
    }

    /// The name that the options give, checked, or a fresh one that begins with `otherwise`.
    pub fn name(&self, options: &Options, otherwise: &str) -> Result<String, Fault> {
        let Some(name) = options.optional("name", text())? else {
            return Ok(self.fresh_name(otherwise));
        };
        // A name of several words is one file's all the same.
        let name = name.trim().replace(' ', "-");
        if name.is_empty() || name.len() > LONGEST_NAME || !name.chars().all(fits_name) {
            return Err(options.complain(
                "name",
                "`name` becomes a file's name: letters, digits, spaces, - and _ only, at most 60 of them",
            ));
        }
        if let Err(fault) = safe_name(&name) {
            return Err(options.complain("name", fault.message));
        }
        // Two names that differ in case only would share a file on some systems.
        if !self.names.borrow_mut().insert(name.to_lowercase()) {
            return Err(options.complain("name", format!("the name `{name}` is taken already")));
        }
        Ok(name)
    }

    /// A name nothing else has: `maps`, `maps-2`, …
    pub fn fresh_name(&self, beginning: &str) -> String {
        let mut names = self.names.borrow_mut();
        let candidates = std::iter::once(beginning.to_owned())
            .chain((2_u64..).map(|number| format!("{beginning}-{number}")));
        for name in candidates {
            if names.insert(name.clone()) {
                return name;
            }
        }
        beginning.to_owned()
    }
}

/// Whether a letter may stand in a picture's name.
const fn fits_name(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_')
}

/// A name of letters that fit, in small letters.
fn plain_name(words: &str) -> String {
    let lower = words.to_lowercase();
    let plain = lower.chars().take(LONGEST_NAME);
    plain.map(|letter| if fits_name(letter) { letter } else { '-' }).collect()
}

/// `scenario { shows = "…" }`. A slip in it keeps nothing from being played.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn scenario(lua: &Lua, argument: Value) -> mlua::Result<()> {
    if let Err(fault) = shows(lua, &argument) {
        Session::of(lua)?.leave_out(fault);
    }
    Ok(())
}

fn shows(lua: &Lua, argument: &Value) -> Result<(), Fault> {
    let options = Options::open(lua, "scenario", argument, &["shows"])?;
    let shows = options.required("shows", text()).map_err(|fault| match fault.hint {
        Some(_) => fault,
        None => fault.with_hint("write it like shows = \"where my rule holds\""),
    })?;
    let session = Session::of(lua).map_err(|error| place::fault(lua, &error))?;
    if session.opened.replace(true) {
        return Err(options.complain_of_call("`scenario` is called once, at the top"));
    }
    session.record.lock().shows = Some(shows);
    Ok(())
}

/// The place of the running call of a method or function.
pub fn here(lua: &Lua, call: &str) -> Option<Place> {
    place::call(lua, Some(call))
}

/// A fault at the running call of a method or function.
pub fn fault_here(lua: &Lua, call: &str, message: impl Into<String>) -> Fault {
    Fault::bad_input(message).placed(here(lua, call))
}
