//! A map in text: one character for each bank, readable without colour.

use super::font;
use super::kinds::CellKind;
use super::map::{MapCell, MapPicture, Panel, check, summary};
use super::shading::Shading;
use std::fmt::Write as _;

/// The most rows of a panel that are shown; above it every second row, or fewer, stands for all.
const MOST_ROWS: usize = 48;
const MOST_LABEL: usize = 22;
const LEAST_WIDTH: usize = 40;

/// A map in text, `width` characters wide at most (40 at least), with terminal colours if
/// `color`. Panels stand under one another; the last tick of y is on top. A map that cannot be
/// drawn as a picture gives one line that says why.
pub fn text_map(map: &MapPicture, width: usize, color: bool) -> String {
    if let Err(error) = check(map.panels.iter().map(|panel| panel.cells.len())) {
        return format!("{error}\n");
    }
    let width = width.max(LEAST_WIDTH);
    let frame = TextFrame::new(map, width, color);
    let mut out = String::new();
    for line in std::iter::once(&map.title).chain(&map.subtitles) {
        push_line(&mut out, &font::clean(line), width);
    }
    for panel in &map.panels {
        out.push('\n');
        frame.panel(&mut out, panel);
    }
    out.push('\n');
    push_line(&mut out, &format!("across: {}", map.x.words()), width);
    push_line(&mut out, &format!("up: {}", map.y.words()), width);
    frame.legend(&mut out);
    out
}

/// After the letter of a bank that carries a flag.
const FLAGGED: char = '!';
/// After the letter of a far miss.
const FAR: char = '+';
/// After the letter of a far miss that carries a flag.
const BOTH: char = '#';

/// The letter of a kind; a space for an empty cell.
fn letter(kind: CellKind) -> char {
    kind.letter().chars().next().unwrap_or(' ')
}

/// Select Graphic Rendition parameters (ECMA-48; the 256 colours are common practice).
const fn rendition(kind: CellKind) -> &'static str {
    match kind {
        CellKind::Holds | CellKind::Drops | CellKind::SureToHold => "2",
        CellKind::NineInTen | CellKind::ThreeInFour | CellKind::OneInTwo => "38;5;37",
        CellKind::Depends => "1;38;5;141",
        CellKind::TouchesPoint | CellKind::DropsOffJaw => "38;5;78",
        CellKind::BankIsBetter => "1;38;5;168",
        CellKind::CutIsBetter => "38;5;117",
        CellKind::Long => "1;38;5;75",
        CellKind::Short => "1;38;5;214",
        _ => "38;5;246",
    }
}

/// The things that all panels share.
struct TextFrame<'a> {
    map: &'a MapPicture,
    width: usize,
    color: bool,
    shading: Shading,
    /// Characters to a cell: one, and one more for a flag, a far miss or a space where there is room.
    pitch: usize,
    label_width: usize,
    column_step: usize,
    row_step: usize,
}

impl<'a> TextFrame<'a> {
    fn new(map: &'a MapPicture, width: usize, color: bool) -> Self {
        let label_width =
            map.y.ticks.iter().map(|tick| label(tick).chars().count()).max().unwrap_or(0);
        let room = width.saturating_sub(label_width + 3).max(1);
        let columns = map.x.ticks.len();
        let pitch = if columns * 2 <= room { 2 } else { 1 };
        let known = map.panels.iter().flat_map(|panel| &panel.cells).filter_map(miss);
        Self {
            map,
            width,
            color,
            shading: Shading::for_misses(known, map.unit),
            pitch,
            label_width,
            column_step: columns.div_ceil(room),
            row_step: map.y.ticks.len().div_ceil(MOST_ROWS),
        }
    }

    fn far(&self, cell: &MapCell) -> bool {
        miss(cell).is_some_and(|mm| self.shading.step_of(Some(mm)) >= FAR_STEP)
    }

    fn panel(&self, out: &mut String, panel: &Panel) {
        let caption = font::clean(&panel.caption);
        let counted = summary(&panel.cells, self.map.is_of_shots());
        let head = if caption.is_empty() { counted } else { format!("{caption}: {counted}") };
        push_line(out, &head, self.width);
        let columns = self.map.x.ticks.len();
        let rows: Vec<usize> = (0..self.map.y.ticks.len()).step_by(self.row_step).collect();
        for row in rows.into_iter().rev() {
            let name = label(&self.map.y.ticks[row]);
            let pad = self.label_width - name.chars().count();
            let _ = write!(out, "{:pad$}{name} |", "");
            let mut line = String::new();
            for column in (0..columns).step_by(self.column_step) {
                self.cell(&mut line, &panel.cells[row * columns + column]);
            }
            let _ = writeln!(out, "{}", line.trim_end());
        }
        self.column_labels(out);
        let flagged = panel.cells.iter().filter(|cell| cell.flagged).count();
        if flagged > 0 && self.pitch == 1 {
            push_line(out, &format!("  {flagged} of {} flagged", panel.cells.len()), self.width);
        }
    }

    fn cell(&self, line: &mut String, cell: &MapCell) {
        let shown = letter(cell.kind);
        if self.color && cell.kind != CellKind::Empty {
            let _ = write!(line, "\u{1b}[{}m{shown}\u{1b}[0m", rendition(cell.kind));
        } else {
            line.push(shown);
        }
        if self.pitch == 2 {
            line.push(self.mark(cell).unwrap_or(' '));
        }
    }

    /// The mark after a cell's letter.
    fn mark(&self, cell: &MapCell) -> Option<char> {
        match (cell.kind != CellKind::Empty && cell.flagged, self.far(cell)) {
            (true, true) => Some(BOTH),
            (true, false) => Some(FLAGGED),
            (false, true) => Some(FAR),
            (false, false) => None,
        }
    }

    /// Labels under the columns they belong to, thinned until they keep apart.
    fn column_labels(&self, out: &mut String) {
        let indent = self.label_width + 2;
        let columns: Vec<usize> = (0..self.map.x.ticks.len()).step_by(self.column_step).collect();
        let room = columns.len() * self.pitch;
        let _ = writeln!(out, "{:indent$}{}", "", "‾".repeat(room));
        let mut line: Vec<char> = Vec::new();
        let mut all_written = true;
        for (place, column) in columns.into_iter().enumerate() {
            let at = place * self.pitch;
            let text = label(&self.map.x.ticks[column]);
            let end = at + text.chars().count();
            let free = line.is_empty() || at > line.len();
            if free && indent + end <= self.width {
                line.resize(at, ' ');
                line.extend(text.chars());
            } else {
                all_written = false;
            }
        }
        // Between two numbers the others can be guessed, between two words they can't.
        let ticks = &self.map.x.ticks;
        if !all_written && ticks.iter().any(|tick| tick.parse::<f64>().is_err()) {
            push_line(out, &format!("columns: {}", font::clean(&ticks.join(", "))), self.width);
            return;
        }
        let _ = writeln!(out, "{:indent$}{}", "", line.into_iter().collect::<String>());
    }

    fn legend(&self, out: &mut String) {
        let has = |wanted: &dyn Fn(&MapCell) -> bool| {
            self.map.panels.iter().any(|panel| panel.cells.iter().any(wanted))
        };
        for kind in CellKind::ALL {
            if kind == CellKind::Empty || !has(&|cell| cell.kind == kind) {
                continue;
            }
            let explained = format!("{}: {}", kind.word(), kind.phrase());
            push_entry(out, letter(kind), &explained, self.width);
        }
        if self.pitch == 2 {
            let meaning = font::clean(&self.map.flag_meaning);
            let flagged = if meaning.is_empty() { "flagged".to_owned() } else { meaning };
            let edge = self.shading.edges().get(FAR_STEP - 1).cloned().unwrap_or_default();
            let far = format!("by {edge} {} or more", self.map.unit.symbol());
            let both = format!("{far}, and {FLAGGED}");
            for (mark, meaning) in [(FAR, far), (FLAGGED, flagged), (BOTH, both)] {
                let shown = |cell: &MapCell| {
                    let own = self.mark(cell);
                    own == Some(mark) || (mark == FLAGGED && own == Some(BOTH))
                };
                if has(&shown) {
                    push_entry(out, mark, &format!("after a letter: {meaning}"), self.width);
                }
            }
        }
        for (step, what) in [(self.column_step, "column"), (self.row_step, "row")] {
            if step > 1 {
                let text = format!("Too many {what}s for the width: one in {step} is shown.");
                push_line(out, &text, self.width);
            }
        }
    }
}

/// The step of the shading from which a miss counts as far.
const FAR_STEP: usize = 2;

/// The miss of a bank, where that grades it.
fn miss(cell: &MapCell) -> Option<f64> {
    cell.miss_mm.filter(|_| matches!(cell.kind, CellKind::Long | CellKind::Short))
}

fn label(tick: &str) -> String {
    let clean = font::clean(tick);
    if clean.chars().count() <= MOST_LABEL {
        clean
    } else {
        clean.chars().take(MOST_LABEL - 1).chain(['…']).collect()
    }
}

/// Adds a character of the legend with what it means, set in under itself.
fn push_entry(out: &mut String, shown: char, meaning: &str, width: usize) {
    let mut lines = String::new();
    push_line(&mut lines, meaning, width - 4);
    for (index, line) in lines.lines().enumerate() {
        let shown = if index == 0 { shown } else { ' ' };
        let _ = writeln!(out, "  {shown} {line}");
    }
}

/// Adds a line, broken between words at the width.
fn push_line(out: &mut String, text: &str, width: usize) {
    let mut used = 0;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        for piece in pieces(word, width) {
            let long = piece.chars().count();
            if used > 0 && used + 1 + long > width {
                out.push('\n');
                used = 0;
            }
            if used > 0 {
                out.push(' ');
                used += 1;
            }
            out.push_str(&piece);
            used += long;
        }
    }
    if used > 0 {
        out.push('\n');
    }
}

/// A word in pieces no longer than the width.
fn pieces(word: &str, width: usize) -> Vec<String> {
    let letters: Vec<char> = word.chars().collect();
    letters.chunks(width).map(|piece| piece.iter().collect()).collect()
}
