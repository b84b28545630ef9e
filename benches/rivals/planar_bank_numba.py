"""The planar bank in closed form, compiled by numba: launch, slide and roll to the rail, impact of a
sphere's equator, contact time, slide and roll to the mouth line, the first side met, miss,
clearances and verdict.

Reads the table's numbers and then commands, one a line, from standard input; answers on standard
output. Run by the bench `sweeps`, which plays the same banks.

    NAME NUMBER ...          a number of the table or a range
    gap SIDE FROM TO TARGET  a stretch of a side (0 banked, 1 opposite, 2 low, 3 high) without cushion
    ready COUNT              end of the table; compiles for COUNT banks
    time MODE                seconds for COUNT banks, once; MODE is drawn or given, + "-fast"
    write FILE               verdict, miss, clearances of the banks, as doubles, column by column
"""

import math
import sys
import time
from collections import namedtuple

import numba
import numpy as np

NUMBERS = (
    "radius sliding rolling pivot held diamond span groove low_groove high_groove "
    "outward_x outward_y mouth_offset middle_x middle_y long_x long_y half_mouth "
    "restitution loss floor friction"
).split()
Table = namedtuple("Table", NUMBERS)

HOLDS, TOUCHES_LONG, TOUCHES_SHORT, LONG, SHORT = 0, 1, 2, 3, 4
STOPPED_BEFORE_RAIL, STOPPED_BEFORE_MOUTH, OTHER_RAIL, OTHER_POCKET, NO_ROOM = 5, 6, 7, 8, 9
NEVER = math.inf


def compiled(fast):
    jit = numba.njit(fastmath=fast, error_model="numpy", nogil=True)
    # Without "no infinities": they stand for "never" below.
    if fast:
        jit = numba.njit(
            fastmath={"nsz", "arcp", "contract", "afn", "reassoc"},
            error_model="numpy",
            nogil=True,
        )

    @jit
    def draw(index, column):
        """A number in [0, 1) by its place (the mixing steps of Steele, Lea and Flood 2014)."""
        z = np.uint64(index * 7 + column + 1) * np.uint64(0x9E3779B97F4A7C15)
        z = (z ^ (z >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
        z = (z ^ (z >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
        return float((z ^ (z >> np.uint64(31))) >> np.uint64(11)) * (1.0 / 9007199254740992.0)

    @jit
    def crossing_in(a, b, c, duration, after):
        """First time in (after, duration] at which a*t*t + b*t + c rises through zero."""
        slope = b + 2.0 * a * duration
        if b <= 0.0 and slope <= 0.0:
            return NEVER
        if b >= 0.0 and slope >= 0.0 and (c > 0.0 or (a * duration + b) * duration + c < 0.0):
            return NEVER
        if a == 0.0:
            t = -c / b
            return t if after < t <= duration and b > 0.0 else NEVER
        square = b * b - 4.0 * a * c
        if square < 0.0:
            return NEVER
        root = math.sqrt(square)
        # It rises where 2*a*t + b is the positive root.
        t = 2.0 * c / (-b - root) if b > 0.0 else (root - b) / (2.0 * a)
        return t if after < t <= duration else NEVER

    @jit
    def path(t, x, y, vx, vy, wx, wy):
        """Slide and roll: each position, velocity, acceleration, duration; then the slip."""
        sx, sy = vx - t.radius * wy, vy + t.radius * wx
        slip = math.sqrt(sx * sx + sy * sy)
        ux = uy = lasts = 0.0
        rx, ry, rvx, rvy = x, y, vx, vy
        if slip > 1e-13 * (abs(vx) + abs(vy) + slip):
            lasts = slip * (2.0 / 7.0 / t.sliding)
            rx += (vx - sx / 7.0) * lasts
            ry += (vy - sy / 7.0) * lasts
            rvx -= sx * (2.0 / 7.0)
            rvy -= sy * (2.0 / 7.0)
            ux, uy = sx / slip, sy / slip
        ax, ay = -t.sliding * ux, -t.sliding * uy
        speed = math.sqrt(rvx * rvx + rvy * rvy)
        rolls = speed / t.rolling
        bx = by = 0.0
        if speed > 0.0:
            slowing = -t.rolling / speed
            bx, by = rvx * slowing, rvy * slowing
        return (x, y, vx, vy, ax, ay, lasts), (rx, ry, rvx, rvy, bx, by, rolls), (ux, uy)

    @jit
    def crossing(slide, roll, nx, ny, offset, after):
        x, y, vx, vy, ax, ay, lasts = slide
        if after < lasts:
            at = crossing_in(
                0.5 * (nx * ax + ny * ay), nx * vx + ny * vy, nx * x + ny * y - offset, lasts, after
            )
            if at < NEVER:
                return at
        x, y, vx, vy, ax, ay, rolls = roll
        at = crossing_in(
            0.5 * (nx * ax + ny * ay),
            nx * vx + ny * vy,
            nx * x + ny * y - offset,
            rolls,
            max(after - lasts, -1e-12 * lasts),
        )
        return lasts + at

    @jit
    def moving(slide, roll, at):
        x, y, vx, vy, ax, ay, lasts = slide
        if at >= lasts:
            x, y, vx, vy, ax, ay, _ = roll
            at -= lasts
        half = 0.5 * at * at
        return x + vx * at + ax * half, y + vy * at + ay * half, vx + ax * at, vy + ay * at

    @jit
    def opening(gaps, side, place):
        """0 cushion, 1 the target's opening, 2 another pocket's."""
        for k in range(gaps.shape[0]):
            if gaps[k, 0] == side and gaps[k, 1] < place < gaps[k, 2]:
                return 1 if gaps[k, 3] == 1.0 else 2
        return 0

    @jit
    def met_on(t, gaps, slide, roll, side, nx, ny, offset, until):
        """When and at what (0 or 2) the path meets a side."""
        after = 0.0
        for _ in range(4):
            at = crossing(slide, roll, nx, ny, offset, after)
            if not at < until:
                break
            x, y, _, _ = moving(slide, roll, at)
            kind = opening(gaps, side, x if side < 2 else y)
            if kind != 1:
                return at, kind
            after = at
        return NEVER, 0

    @jit
    def first_met(t, gaps, slide, roll, until):
        x, y, _, _ = moving(slide, roll, until)
        _, _, vx, vy, ax, ay, lasts = slide
        last = min(lasts, until)
        steady = vx * (vx + ax * last) >= 0.0 and vy * (vy + ay * last) >= 0.0
        first, kind = NEVER, 0
        if not steady or y > t.span:
            at, what = met_on(t, gaps, slide, roll, 0, 0.0, 1.0, t.span, until)
            if at < first:
                first, kind = at, what
        if not steady or y < 0.0:
            at, what = met_on(t, gaps, slide, roll, 1, 0.0, -1.0, 0.0, until)
            if at < first:
                first, kind = at, what
        if not steady or x < t.low_groove:
            at, what = met_on(t, gaps, slide, roll, 2, -1.0, 0.0, -t.low_groove, until)
            if at < first:
                first, kind = at, what
        if not steady or x > t.high_groove:
            at, what = met_on(t, gaps, slide, roll, 3, 1.0, 0.0, t.high_groove, until)
            if at < first:
                first, kind = at, what
        return first, kind

    @jit
    def bank(t, gaps, contact, start, off_rail, speed, roll, side, aim_error):
        """Verdict, miss, clearance to the long and to the short point."""
        nan = math.nan
        run = (start - contact) * t.diamond
        x = contact * t.diamond + run * off_rail / t.span
        y = t.span - off_rail
        if not t.low_groove <= x <= t.high_groove:
            return NO_ROOM, nan, nan, nan
        length = math.sqrt(run * run + t.span * t.span)
        vx, vy = -run / length * speed, t.span / length * speed
        sense = 1.0 if run < 0.0 else -1.0
        if aim_error != 0.0:
            sin, cos = math.sin(-sense * aim_error), math.cos(-sense * aim_error)
            vx, vy = vx * cos - vy * sin, vx * sin + vy * cos
        wx, wy = -vy * roll / t.radius, vx * roll / t.radius
        wz = sense * side * speed / t.radius
        # To the rail.
        if not (y >= t.span and vy > 0.0):
            slide, rolling, (ux, uy) = path(t, x, y, vx, vy, wx, wy)
            at = crossing(slide, rolling, 0.0, 1.0, t.span, 0.0)
            if not at < NEVER:
                until = slide[6] + rolling[6]
                back = crossing(slide, rolling, t.outward_x, t.outward_y, t.mouth_offset, 0.0)
                met, kind = first_met(t, gaps, slide, rolling, min(until, back))
                if met < NEVER:
                    return OTHER_POCKET if kind == 2 else OTHER_RAIL, nan, nan, nan
                return (OTHER_POCKET if back < NEVER else STOPPED_BEFORE_RAIL), nan, nan, nan
            x, y, vx, vy = moving(slide, rolling, at)
            if at < slide[6]:
                twist = 2.5 * t.sliding * at / t.radius
                wx, wy = wx - twist * uy, wy + twist * ux
            else:
                wx, wy = -vy / t.radius, vx / t.radius
            decay = t.pivot * at
            wz = 0.0 if decay >= abs(wz) else (wz - decay if wz > 0.0 else wz + decay)
            if not t.low_groove <= x <= t.high_groove:
                met, kind = first_met(t, gaps, slide, rolling, at)
                if met < NEVER:
                    return OTHER_POCKET if kind == 2 else OTHER_RAIL, nan, nan, nan
        # The cushion around the place.
        low, high = t.low_groove, t.high_groove
        if not low <= x <= high:
            return OTHER_RAIL, nan, nan, nan
        for k in range(gaps.shape[0]):
            if gaps[k, 0] == 0.0:
                if gaps[k, 2] <= x:
                    low = max(low, gaps[k, 2])
                elif gaps[k, 1] >= x:
                    high = min(high, gaps[k, 1])
                else:
                    return OTHER_POCKET, nan, nan, nan
        # The impact.
        e = max(t.restitution - t.loss * vy, t.floor)
        slip = vx - t.radius * wz
        impulse = min(t.friction * (1.0 + e) * vy, 2.0 / 7.0 * abs(slip))
        if slip > 0.0:
            impulse = -impulse
        before = vx
        vx, vy = vx + impulse, -e * vy
        x += 0.5 * (before + vx) * t.held
        if not low <= x <= high:
            end = low if x < low else high
            for k in range(gaps.shape[0]):
                if gaps[k, 0] == 0.0 and gaps[k, 2 if x < low else 1] == end:
                    return OTHER_POCKET, nan, nan, nan
            return OTHER_RAIL, nan, nan, nan
        # Off the rail.
        slide, rolling, _ = path(t, x, t.span, vx, vy, wx, wy)
        at = crossing(slide, rolling, t.outward_x, t.outward_y, t.mouth_offset, 0.0)
        arrives = at < NEVER
        met, kind = first_met(t, gaps, slide, rolling, at if arrives else slide[6] + rolling[6])
        if not arrives:
            if met < NEVER:
                return OTHER_POCKET if kind == 2 else OTHER_RAIL, nan, nan, nan
            return STOPPED_BEFORE_MOUTH, nan, nan, nan
        x, y, vx, vy = moving(slide, rolling, at)
        squareness = abs(t.long_x * vy - t.long_y * vx) / math.sqrt(vx * vx + vy * vy)
        aside = (x - t.middle_x) * t.long_x + (y - t.middle_y) * t.long_y
        miss = aside * squareness
        room = t.half_mouth * squareness - t.groove
        past = LONG if miss > 0.0 else SHORT
        if met < NEVER:
            verdict = OTHER_POCKET if kind == 2 else past
        elif abs(aside) > t.half_mouth:
            verdict = past
        elif room - miss > 0.0 and room + miss > 0.0:
            verdict = HOLDS
        else:
            verdict = TOUCHES_LONG if miss > 0.0 else TOUCHES_SHORT
        return verdict, miss, room - miss, room + miss

    @jit
    def given(t, gaps, inputs, verdict, miss, long, short):
        contact, start, off_rail, speed, roll, side, aim_error = inputs
        for i in range(verdict.shape[0]):
            verdict[i], miss[i], long[i], short[i] = bank(
                t, gaps, contact[i], start[i], off_rail[i], speed[i], roll[i], side[i], aim_error[i]
            )

    @jit
    def drawn(t, gaps, low, high, verdict, miss, long, short):
        for i in range(verdict.shape[0]):
            contact = low[0] + (high[0] - low[0]) * draw(i, 0)
            ratio = low[1] + (high[1] - low[1]) * draw(i, 1)
            verdict[i], miss[i], long[i], short[i] = bank(
                t,
                gaps,
                contact,
                contact * ratio,
                low[2] + (high[2] - low[2]) * draw(i, 2),
                low[3] + (high[3] - low[3]) * draw(i, 3),
                low[4] + (high[4] - low[4]) * draw(i, 4),
                low[5] + (high[5] - low[5]) * draw(i, 5),
                low[6] + (high[6] - low[6]) * draw(i, 6),
            )

    @jit
    def fill(low, high, columns):
        for i in range(columns[0].shape[0]):
            for k in range(7):
                columns[k][i] = low[k] + (high[k] - low[k]) * draw(i, k)
            columns[1][i] *= columns[0][i]

    return given, drawn, fill


def say(*words):
    print(*words, flush=True)


def main():
    numbers, gaps, low, high = {}, [], [0.0] * 7, [0.0] * 7
    modes, columns, answers = {}, (), ()
    for line in sys.stdin:
        word, *rest = line.split()
        if word == "gap":
            gaps.append([float(number) for number in rest])
        elif word == "range":
            low[int(rest[0])], high[int(rest[0])] = float(rest[1]), float(rest[2])
        elif word == "ready":
            count = int(rest[0])
            table = Table(*(numbers[name] for name in NUMBERS))
            gaps = np.array(gaps)
            low, high = np.array(low), np.array(high)
            columns = tuple(np.empty(count) for _ in range(7))
            answers = (np.empty(count, np.uint8), *(np.empty(count) for _ in range(3)))
            for suffix, fast in (("", False), ("-fast", True)):
                given, drawn, fill = compiled(fast)
                if not fast:
                    fill(low, high, columns)
                modes["given" + suffix] = lambda play=given: play(table, gaps, columns, *answers)
                modes["drawn" + suffix] = lambda play=drawn: play(table, gaps, low, high, *answers)
            for play in modes.values():
                play()
            say("numba", numba.__version__, "on Python", sys.version.split()[0])
        elif word == "time":
            begun = time.perf_counter()
            modes[rest[0]]()
            say(time.perf_counter() - begun)
        elif word == "write":
            modes["given"]()
            np.concatenate([column.astype(np.float64) for column in answers]).tofile(rest[0])
            say("written")
        else:
            numbers[word] = float(rest[0])


if __name__ == "__main__":
    main()
