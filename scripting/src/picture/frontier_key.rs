//! The look of a region's edges, and the key with their meaning.

use super::canvas::{Canvas, Pen};
use super::colours::{
    DEPENDS, FRAME, HOLDS, INK, LONG, NO_VERDICT_LIGHT, PAPER, Rgb, SHORT, SOFT_INK, STEPS,
    SURE_TO_MISS,
};
use super::contour::Contour;
use super::font;
use super::frontier_data::{BarAgreement, BoundaryKind};
use super::kinds::CellKind;
use super::page::{self, PHRASE, TERM};

/// Width of the key.
pub(super) const WIDTH: f64 = 232.0;

const SAMPLE: (f64, f64) = (40.0, 26.0);
const TEXT_AT: f64 = 52.0;
const BETWEEN: f64 = 13.0;

/// Colour, dashes and word of an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct CurveLook {
    pub(super) colour: Rgb,
    pub(super) dashes: &'static [f64],
    pub(super) word: &'static str,
    phrase: &'static str,
}

impl CurveLook {
    pub(super) const fn trace(&self, width: f64) -> Pen {
        Pen { dashes: self.dashes, ..Pen::plain(width, self.colour) }
    }
}

/// The look of an edge; dashes tell the kinds apart without colour.
pub(super) const fn curve_look(kind: BoundaryKind) -> CurveLook {
    match kind {
        BoundaryKind::Long => CurveLook {
            colour: LONG[STEPS - 2],
            dashes: &[],
            word: "long",
            phrase: "beyond this edge the ball touches or passes the far point of the mouth",
        },
        BoundaryKind::Short => CurveLook {
            colour: SHORT[STEPS - 1],
            dashes: &[8.0, 4.0],
            word: "short",
            phrase: "beyond this edge the ball touches or misses the near point of the mouth",
        },
        BoundaryKind::Stops => CurveLook {
            colour: INK,
            dashes: &[2.5, 3.5],
            word: "stops",
            phrase: "beyond this edge it stops before the rail or on its way from it",
        },
        BoundaryKind::Elsewhere => CurveLook {
            colour: SOFT_INK,
            dashes: &[12.0, 3.5, 2.5, 3.5],
            word: "elsewhere",
            phrase: "beyond this edge it meets another rail or pocket first",
        },
        BoundaryKind::Half => CurveLook {
            colour: INK,
            dashes: &[],
            word: "half",
            phrase: "half of these tables hold on one side of this line, half on the other",
        },
    }
}

/// The colour of a bar: the maps' of the same meaning.
pub(super) const fn bar_colour(agreement: Option<BarAgreement>) -> Rgb {
    match agreement {
        None | Some(BarAgreement::Sure) => HOLDS,
        Some(BarAgreement::Depends) => DEPENDS,
        Some(BarAgreement::Misses) => SURE_TO_MISS,
    }
}

/// The map's kind of the same meaning, with its words.
const fn map_kind(agreement: BarAgreement) -> CellKind {
    match agreement {
        BarAgreement::Sure => CellKind::SureToHold,
        BarAgreement::Depends => CellKind::Depends,
        BarAgreement::Misses => CellKind::SureToMiss,
    }
}

/// Draws the key and returns where it ends.
pub(super) fn draw(
    canvas: &mut Canvas,
    [holds, breaks]: [bool; 2],
    (kinds, agreements): (&[BoundaryKind], &[BarAgreement]),
    flagged: Option<&str>,
    (x, top): (f64, f64),
) -> f64 {
    let mut y = top;
    for (drawn, fill, term, phrase) in [
        (holds, HOLDS, "holds", "clears both points of the mouth"),
        (breaks, NO_VERDICT_LIGHT, "does not hold", "searched, and no such place was found"),
    ] {
        if !drawn {
            continue;
        }
        canvas.rectangle((x, y), SAMPLE, fill);
        canvas.frame((x, y), SAMPLE, 0.75, FRAME);
        y = said(canvas, term, phrase, (x, y));
    }
    for agreement in agreements {
        let kind = map_kind(*agreement);
        canvas.rectangle((x, y), SAMPLE, bar_colour(Some(*agreement)));
        canvas.frame((x, y), SAMPLE, 0.75, FRAME);
        y = said(canvas, kind.word(), kind.phrase(), (x, y));
    }
    for kind in kinds {
        let look = curve_look(*kind);
        let middle = y + SAMPLE.1 / 2.0;
        let sides = match kind {
            BoundaryKind::Half => [DEPENDS, DEPENDS],
            _ => [HOLDS, NO_VERDICT_LIGHT],
        };
        canvas.rectangle((x, y), (SAMPLE.0, SAMPLE.1 / 2.0), sides[0]);
        canvas.rectangle((x, middle), (SAMPLE.0, SAMPLE.1 / 2.0), sides[1]);
        let ends = [(x, middle), (x + SAMPLE.0, middle)];
        canvas.stroke(&ends, 4.0, PAPER);
        canvas.trace(Contour::through(&ends, false), look.trace(2.25));
        canvas.frame((x, y), SAMPLE, 0.75, FRAME);
        y = said(canvas, look.word, look.phrase, (x, y));
    }
    if let Some(words) = flagged {
        let middle = y + SAMPLE.1 / 2.0;
        canvas.rectangle((x, y), SAMPLE, HOLDS);
        let line = Contour::through(&[(x, middle), (x + SAMPLE.0, middle)], false);
        super::cells::boundary(canvas, &[line]);
        canvas.frame((x, y), SAMPLE, 0.75, FRAME);
        y = said(canvas, words, "the model was not checked for what lies beyond", (x, y));
    }
    y - BETWEEN
}

fn said(canvas: &mut Canvas, term: &str, phrase: &str, (x, y): (f64, f64)) -> f64 {
    let room = WIDTH - TEXT_AT;
    let term = font::wrap(term, TERM.em, TERM.weight, room, 2);
    let bottom = page::paragraph(canvas, &term, (x + TEXT_AT, y), TERM);
    let phrase = font::wrap(phrase, PHRASE.em, PHRASE.weight, room, 4);
    let bottom = page::paragraph(canvas, &phrase, (x + TEXT_AT, bottom), PHRASE);
    bottom.max(y + SAMPLE.1) + BETWEEN
}
