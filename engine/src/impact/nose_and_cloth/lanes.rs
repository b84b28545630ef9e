//! Many impacts at one cushion, several at a time.
//!
//! As many impacts as there are lanes glide side by side, each with a step length of its own. One that
//! needs a step of another kind is taken through it alone and glides on; one that ends leaves its lane
//! to the next. Nothing passes from lane to lane, there is no fused operation, and all of them round
//! correctly, so the width of the registers does not show in the results.
//!
//! Limits, over the impacts of a sweep (a pool cushion; contacts 1 to 4, 0 to 20 inches off the
//! rail, 1.5 to 7 m/s, stun to rolling): 17.5 steps an impact, of which 96 in 100 glide. A step is 12
//! stages, some 1,500 additions and multiplications, and a pass over the lanes takes 2,170 instructions
//! with eight lanes to a register and 4,300 with four (counted by callgrind; alone a step is about
//! 2,500). An impact alone takes 51,000 instructions; among others 16,000 with four lanes to a
//! register, of which 9,700 are passes, 2,900 collocation steps, 1,800 other steps. About 4 impacts in
//! 100 take such steps: the slip at the nose dies out and leaves again. With eight lanes to a register
//! the passes and those few take about the same time.

use super::course::{Course, NUMBERS};
use super::glide::{ENDED, GLIDES, Glide, GlideEnd, OTHER};
use super::pace::Pace;
use super::{Bounce, CushionContact, PreparedCushion, Rebound, ScaledImpact, Trace};

/// Impacts under way at once: a full register of the widest kind.
const LANES: usize = 8;

/// As [`super::nose_and_cloth`] for every ball of `before` at one cushion, to the same bits; `after`
/// takes the rebounds in the same order.
///
/// # Panics
///
/// When the slices differ in length.
pub fn nose_and_cloth_many(contact: &CushionContact, before: &[Bounce], after: &mut [Rebound]) {
    with_width(InstructionSet::widest(), contact, before, after);
}

/// The instructions with which the lanes are followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum InstructionSet {
    /// The instructions that the program was built for.
    Built,
    /// Four lanes to an instruction.
    #[cfg(target_arch = "x86_64")]
    Avx2,
    /// Eight lanes to an instruction.
    #[cfg(target_arch = "x86_64")]
    Avx512,
}

impl InstructionSet {
    /// All that this machine has.
    pub(super) fn all() -> impl Iterator<Item = Self> {
        #[cfg(target_arch = "x86_64")]
        let found = [
            (is_x86_feature_detected!("avx512f")
                && is_x86_feature_detected!("avx512dq")
                && is_x86_feature_detected!("avx512vl"))
            .then_some(Self::Avx512),
            is_x86_feature_detected!("avx2").then_some(Self::Avx2),
            Some(Self::Built),
        ];
        #[cfg(not(target_arch = "x86_64"))]
        let found = [Some(Self::Built)];
        found.into_iter().flatten()
    }

    fn widest() -> Self {
        Self::all().next().unwrap_or(Self::Built)
    }
}

pub(super) fn with_width(
    width: InstructionSet,
    contact: &CushionContact,
    before: &[Bounce],
    after: &mut [Rebound],
) {
    assert_eq!(before.len(), after.len(), "one rebound for each ball");
    let cushion = PreparedCushion::new(contact, Pace::USUAL);
    let mut queue = before.iter().copied().zip(after.iter_mut());
    let mut lanes = Lanes::default();
    let mut held: [Option<LaneImpact>; LANES] = [const { None }; LANES];
    for (lane, held) in held.iter_mut().enumerate() {
        *held = fill(&cushion, &mut queue, &mut lanes, lane);
    }
    while held.iter().any(Option::is_some) {
        lanes = width.pass(&cushion.glide, &lanes);
        for (lane, held) in held.iter_mut().enumerate() {
            if lanes.next[lane] == GLIDES {
                continue;
            }
            let Some(impact) = held else { continue };
            let mut course = lanes.course(lane);
            if lanes.next[lane] == OTHER
                && cushion.other_steps(&mut course, &mut impact.trace) == GlideEnd::Glide
            {
                lanes.put(lane, &course);
                continue;
            }
            *impact.rebound = cushion.rebound(&impact.touch, &course.y, impact.trace.hop);
            *held = fill(&cushion, &mut queue, &mut lanes, lane);
        }
    }
}

/// The impact in a lane, and where its rebound goes.
struct LaneImpact<'a> {
    touch: ScaledImpact,
    trace: Trace,
    rebound: &'a mut Rebound,
}

/// Puts the next impact into a lane.
fn fill<'a>(
    cushion: &PreparedCushion,
    queue: &mut impl Iterator<Item = (Bounce, &'a mut Rebound)>,
    lanes: &mut Lanes,
    lane: usize,
) -> Option<LaneImpact<'a>> {
    for (before, rebound) in queue {
        if let Some(touch) = cushion.first_touch(before) {
            lanes.put(lane, &cushion.course(&touch));
            return Some(LaneImpact { touch, trace: Trace::default(), rebound });
        }
        *rebound = Rebound::untouched(cushion.contact, before);
    }
    None
}

/// Courses side by side.
#[derive(Debug, Clone, Copy)]
struct Lanes {
    numbers: [[f64; LANES]; NUMBERS],
    next: [f64; LANES],
}

impl Default for Lanes {
    /// Lanes that hold nothing; what a step makes of them is not read.
    fn default() -> Self {
        Self { numbers: [[1.0; LANES]; NUMBERS], next: [ENDED; LANES] }
    }
}

impl Lanes {
    #[inline(always)]
    fn course(&self, lane: usize) -> Course {
        Course::from_numbers(core::array::from_fn(|i| self.numbers[i][lane]))
    }

    #[inline(always)]
    fn put(&mut self, lane: usize, course: &Course) {
        for (column, number) in self.numbers.iter_mut().zip(course.numbers()) {
            column[lane] = number;
        }
    }
}

impl InstructionSet {
    /// One step of every lane.
    #[inline]
    fn pass(self, glide: &Glide, lanes: &Lanes) -> Lanes {
        let mut after = Lanes::default();
        match self {
            Self::Built => step_all(glide, lanes, &mut after),
            // SAFETY: `all` alone makes these, where the machine was found to have the instructions.
            #[cfg(target_arch = "x86_64")]
            #[expect(unsafe_code, reason = "detected instructions can be had in no other way")]
            Self::Avx2 => unsafe { step_all_avx2(glide, lanes, &mut after) },
            #[cfg(target_arch = "x86_64")]
            #[expect(unsafe_code, reason = "detected instructions can be had in no other way")]
            Self::Avx512 => unsafe { step_all_avx512(glide, lanes, &mut after) },
        }
        after
    }
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn step_all_avx2(glide: &Glide, lanes: &Lanes, after: &mut Lanes) {
    step_all(glide, lanes, after);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512vl")]
fn step_all_avx512(glide: &Glide, lanes: &Lanes, after: &mut Lanes) {
    step_all(glide, lanes, after);
}

/// The loop that becomes one over registers full of lanes.
#[inline(always)]
fn step_all(glide: &Glide, lanes: &Lanes, after: &mut Lanes) {
    let glide = *glide;
    for lane in 0..LANES {
        let (course, next) = glide.step_in_lane(&lanes.course(lane));
        after.next[lane] = next;
        after.put(lane, &course);
    }
}
