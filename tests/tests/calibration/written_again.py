"""Banks off the left rail into a corner under the nose-only model, and their likelihood, written again in numpy.

From the equations alone, in the table's own frame: origin in the middle, x towards the foot, y towards the left
rail, z up. Vectors in the plane are complex numbers. A row stands for a member, a column for a bank.
"""

import numpy as np
from scipy import special

CAUSES, SPEED = 6, 1  # Aim, speed, side, roll, contact, start.
SENSELESS = {"number": 4.0, "word": 5.0}  # Four metres of rail; five words.
# A bank near its rest is played at these speeds, in deviations; its stretch of speeds is cut into so many places,
# as far as nobody errs beyond.
SPEEDS, CUTS, REACH = (-1.2, 0.4, 2.0), 12, 3.2


def values(spreads, places):
    """The members' numbers by name, each a column."""
    numbers = {}
    for at, about in enumerate(spreads):
        share, spread = places[:, at : at + 1], about["spread"]
        if "from" in spread:
            value = spread["from"] * (1.0 - share) + spread["to"] * share
        elif "middle" in spread:
            value = spread["middle"] * np.exp((2.0 * share - 1.0) * np.log(spread["most"]))
        else:
            value = spread["sd"] * np.sqrt(3.0) / np.pi * special.logit(share)
        numbers[about["name"]] = value
    return numbers


class Banks:
    """What was meant of each bank, as rows of numbers."""

    NUMBERS = "end", "contact", "start", "off_rail", "speed_ratio", "roll", "side", "aim_error"

    def __init__(self, told):
        for name in self.NUMBERS:
            setattr(self, name, np.array([bank[name] for bank in told], float))
        self.speed = [bank["speed"] for bank in told]

    def moved(self, causes, diamond):
        """The same with aim, speed, side, roll, contact and start off by so much."""
        aim, speed, side, roll, contact, start = causes
        other = Banks([])
        other.end, other.off_rail, other.speed = self.end, self.off_rail, self.speed
        other.aim_error = self.aim_error + aim
        other.speed_ratio = self.speed_ratio * (1.0 + speed)
        other.side = self.side + side
        other.roll = self.roll + roll
        other.contact = self.contact + contact / diamond
        other.start = self.start + start / diamond
        return other


def dot(a, b):
    return a.real * b.real + a.imag * b.imag


class Way:
    """The way of a free ball: it slides along a parabola, then rolls straight until it rests (Coriolis 1835)."""

    def __init__(self, place, velocity, slip, sliding, rolling):
        size = np.abs(slip)
        slides = size > 1e-13 * np.abs(velocity)
        slip = np.where(slides, slip, 0.0)
        slide_s = np.where(slides, 2.0 * size / (7.0 * sliding), 0.0)
        unit = slip / np.where(slides, size, 1.0)
        rolls = velocity - 2.0 / 7.0 * slip
        self.velocity = velocity, rolls
        self.place = place, place + slide_s * 0.5 * (velocity + rolls)
        self.acceleration = -sliding * unit, -rolling * rolls / np.abs(rolls)
        self.lasts = slide_s, np.abs(rolls) / rolling

    def rises(self, normal, offset):
        """The times in slide and roll at which normal·place rises through an offset; NaN for never."""
        found = []
        for piece in 0, 1:
            a = dot(normal, self.acceleration[piece])
            b = dot(normal, self.velocity[piece])
            c = dot(normal, self.place[piece]) - offset
            root = np.sqrt(b * b - 2.0 * a * c)
            # Of both roots the one where it rises, by the form that loses no digits.
            time = np.where(b > 0.0, -2.0 * c / (b + root), (root - b) / a)
            # A ball that leaves an offset has not risen through it; the change of pieces belongs to both.
            early = 0.0 if piece == 0 else -1e-12
            found.append(np.where((time > early) & (time <= self.lasts[piece]), time, np.nan))
        return found

    def at(self, piece, time):
        velocity, acceleration = self.velocity[piece], self.acceleration[piece]
        place = self.place[piece] + time * (velocity + 0.5 * time * acceleration)
        return place, velocity + time * acceleration

    def clock(self, times):
        """The two pieces' times since the beginning, the earlier that is one, and whether it rolls then."""
        slides = np.isfinite(times[0])
        return np.where(slides, times[0], self.lasts[0] + times[1]), ~slides


class Table:
    """A table, on which members play."""

    def __init__(self, told):
        self.__dict__.update(told)
        self.cut = self.corner_mouth / np.sqrt(2.0)
        self.diamond = self.length / 8.0

    def landings(self, numbers, banks, own_hand):
        """Where each bank comes to, along the grooves beside the target from their corner, and its bounds there."""
        with np.errstate(all="ignore"):
            return self._landings(numbers, banks, own_hand)

    def _landings(self, numbers, banks, own_hand):
        radius, end = self.radius, banks.end
        sin = 2.0 * numbers["nose_height"] - 1.0
        cos = np.sqrt(1.0 - sin * sin)
        groove = radius * cos
        half_x, half_y = 0.5 * self.length - groove, 0.5 * self.width - groove
        sliding = numbers["sliding_friction"] * self.gravity
        rolling = numbers["rolling_resistance"] * self.gravity

        # The launch, along the line from its start in the right groove to its contact in the left one.
        speed = np.concatenate([
            np.broadcast_to(numbers["speed_" + word] if isinstance(word, str) else word, sin.shape)
            for word in banks.speed
        ], axis=1) * banks.speed_ratio
        contact_x = end * (0.5 * self.length - banks.contact * self.diamond)
        start_x = end * (0.5 * self.length - banks.start * self.diamond)
        line = contact_x - start_x + 2j * half_y
        towards = np.sign(line.real)
        aim, side = banks.aim_error, towards * banks.side
        if own_hand:
            aim, side = aim + numbers["aim_bias"], side + numbers["side_bias"]
        place = contact_x + 1j * half_y - line * banks.off_rail / (2.0 * half_y)
        velocity = speed * line / np.abs(line) * np.exp(-1j * towards * aim)
        turn = side * speed / radius
        slip = velocity * (1.0 - banks.roll)
        good = np.abs(place.real) <= half_x

        # To the rail. Slip falls evenly while the ball slides; spin about the vertical dies at its own rate.
        way = Way(place, velocity, slip, sliding, rolling)
        time, rolls = way.clock(way.rises(1j, half_y))
        frozen = banks.off_rail == 0.0
        time = np.where(frozen, 0.0, time)
        short_of_rail = np.isnan(time)
        met_s, met_v = place, velocity
        for piece in 0, 1:
            there, going = way.at(piece, time - (way.lasts[0] if piece else 0.0))
            here = ~frozen & (rolls if piece else ~rolls)
            met_s, met_v = np.where(here, there, met_s), np.where(here, going, met_v)
        left = np.where(frozen, 1.0, np.clip(1.0 - time / way.lasts[0], 0.0, 1.0))
        left = np.where(way.lasts[0] > 0.0, left, 0.0)
        slip = slip * left
        turn = np.sign(turn) * np.maximum(np.abs(turn) - self.pivot * time, 0.0)
        # Cloth slip is (vx − R·wy) + i·(vy + R·wx).
        spin_x, spin_y = (slip.imag - met_v.imag) / radius, (met_v.real - slip.real) / radius

        # One impulse at the nose: Newton's restitution along the line of centres, friction against the slip there.
        into = met_v.imag
        restitution = np.maximum(
            numbers["restitution"] - numbers["restitution_loss"] * into,
            np.minimum(self.restitution_floor, numbers["restitution"]),
        )
        normal = (1.0 + restitution) * into * cos
        nose_slip = (met_v.real + radius * (spin_y * sin - turn * cos)) + 1j * (radius * spin_x - into * sin)
        friction = np.minimum(numbers["nose_friction"] * normal, 2.0 / 7.0 * np.abs(nose_slip))
        rub = -friction * nose_slip / np.abs(nose_slip)
        # rub acts along (1, 0, 0) and (0, −sin, cos) at R·(0, cos, sin); the fifth halves are 1/(2/5).
        off = met_v.real + rub.real + 1j * np.minimum(into - normal * cos - rub.imag * sin, 0.0)
        spin_x = spin_x + 2.5 / radius * rub.imag
        spin_y = spin_y + 2.5 / radius * rub.real * sin

        # It is held by the cushion between the side pocket and a corner while it goes on along it.
        leaves = met_s.real + 0.5 * numbers["contact_time"] * (met_v.real + off.real)
        for x in met_s.real, leaves:
            good &= (np.abs(x) >= 0.5 * self.side_mouth) & (np.abs(x) <= 0.5 * self.length - self.cut)
        good &= met_s.real * leaves > 0.0
        slip = off.real - radius * spin_y + 1j * (off.imag + radius * spin_x)
        way = Way(leaves + 1j * half_y, off, slip, sliding, rolling)

        # To the mouth line, whose points lie on the noses.
        outward = (end - 1j) / np.sqrt(2.0)
        middle = end * (0.5 * self.length - 0.5 * self.cut) - 1j * (0.5 * self.width - 0.5 * self.cut)
        times = way.rises(outward, dot(outward, middle))
        mouth_s, rolls = way.clock(times)
        there, going = (np.where(rolls, b, a) for a, b in zip(way.at(0, times[0]), way.at(1, times[1])))

        # A groove that it crosses before, other than in the target's opening, ends its way.
        comes = np.isfinite(mouth_s)
        first_s = np.where(comes, mouth_s, np.inf)
        along = np.where(comes, self._along(there, going, end, half_x, half_y), np.nan)
        for normal, offset, told in (
            (-1j, half_y, lambda at: self._on_right(at.real * end, half_x)),
            (end + 0j, half_x, lambda at: self._on_end(at.imag, half_y)),
            (1j, half_y, lambda at: (np.full(at.shape, np.nan), False)),
            (-end + 0j, half_x, lambda at: (np.full(at.shape, np.nan), False)),
        ):
            for piece, time in enumerate(way.rises(normal, offset)):
                number, in_target = told(way.at(piece, time)[0])
                clock = time + (way.lasts[0] if piece else 0.0)
                earlier = (clock < first_s) & ~np.asarray(in_target)
                along = np.where(earlier, number, along)
                first_s = np.where(earlier, clock, first_s)
        rests = short_of_rail | np.isinf(first_s)
        good &= np.isfinite(along)

        # It clears both points while their distance from the way, square to it, is more than R·cos of the nose.
        direction = going / np.abs(going)
        square = direction * 1j * end  # To the far side of the target, which is long.
        square = np.where(dot(square, end + 1j) > 0.0, square, -square)
        ends = []
        for point, sign in (
            (end * (0.5 * self.length - self.cut) - 0.5j * self.width, 1.0),
            (end * 0.5 * self.length - 1j * (0.5 * self.width - self.cut), -1.0),
        ):
            moved = dot(point - there, square) + sign * groove
            ends.append(self._along(there + moved * square, direction, end, half_x, half_y))
        mouth = self.cut - groove
        return {
            "along": np.where(good, along, np.nan),
            "speed": np.where(good & comes, np.abs(going), 0.0),
            "rests": rests,
            "holds_from": np.where(good & comes, ends[0], np.nan),
            "holds_to": np.where(good & comes, ends[1], np.nan),
            "mouth_from": np.broadcast_to(-mouth, good.shape),
            "mouth_to": np.broadcast_to(mouth, good.shape),
        }

    def _on_right(self, x, half_x):
        """A place in the right groove, counted towards the target: its number, and whether the target opens there."""
        elsewhere = (np.abs(x) < 0.5 * self.side_mouth) | (x < self.cut - 0.5 * self.length)
        return np.where(elsewhere, np.nan, x - half_x), x > 0.5 * self.length - self.cut

    def _on_end(self, y, half_y):
        """The same in the groove of the end rail."""
        elsewhere = y > 0.5 * self.width - self.cut
        return np.where(elsewhere, np.nan, y + half_y), y < self.cut - 0.5 * self.width

    @staticmethod
    def _along(place, direction, end, half_x, half_y):
        """Where a straight line comes first across the two grooves, drawn out."""
        to_right = np.where(direction.imag < 0.0, (place.imag + half_y) / -direction.imag, np.inf)
        to_end = np.where(
            direction.real * end > 0.0, (half_x - place.real * end) / (direction.real * end), np.inf)
        at = place + np.minimum(to_right, to_end) * direction
        return np.where(to_end < to_right, at.imag + half_y, at.real * end - half_x)


class Likelihood:
    """How likely members make what was seen of banks."""

    def __init__(self, question):
        told = question["banks"]
        self.table, self.spreads = Table(question["table"]), question["spreads"]
        self.banks = Banks(told)
        self.scatter = np.array([bank["scatter"] for bank in told]).T
        self.wrong = np.array([bank["wrong"] for bank in told])
        self.repeats = np.array([bank["repeats"] for bank in told])
        self.seen = [bank["seen"] for bank in told]
        number = [isinstance(seen, dict) for seen in self.seen]
        self.is_number = np.array(number)
        self.read_at = np.array([seen["along"] if it else np.nan for it, seen in zip(number, self.seen)])
        self.read_to = np.array([seen["read_to"] if it else 0.0 for it, seen in zip(number, self.seen)])
        self._fit_levers(np.array(question["wide"]))

    def _off_by(self, cause, deviations):
        """The banks as they are sent with one cause off by so many of its deviations."""
        by = np.zeros((CAUSES, len(self.seen)))
        by[cause] = deviations * self.scatter[cause]
        return self.banks.moved(by, self.table.diamond)

    def _fit_levers(self, wide):
        """Planes over the wide members through the change of the landing by one standard deviation each way."""
        numbers, terms = values(self.spreads, wide), self._terms(wide)
        self.planes = np.zeros((CAUSES, terms.shape[1], len(self.seen)))
        self.left = np.zeros((CAUSES, len(self.seen)))
        exact = self.table.landings(numbers, self._off_by(SPEED, 0.0), False)["along"]
        bends = [np.zeros(exact.shape), np.zeros(exact.shape)]
        for cause in range(CAUSES):
            less, more = (
                self.table.landings(numbers, self._off_by(cause, sign), False) for sign in (-1.0, 1.0))
            if cause == SPEED:
                self.near_rest = less["rests"].any(0)
            bend = 0.5 * (more["along"] + less["along"]) - exact
            bends[0 if cause == SPEED else 1] += bend
            change = 0.5 * (more["along"] - less["along"])
            self.planes[cause], self.left[cause] = self._planes(terms, change)
        self.bends = [self._planes(terms, bend)[0] for bend in bends]

    @staticmethod
    def _planes(terms, values):
        """The plane of each column of values by least squares, and the mean square that it leaves."""
        # The engine adds 1e-6 to the squares: as many rows of a thousandth, which are to give nothing.
        ridge = 1e-3 * np.eye(terms.shape[1])
        planes, left = np.zeros((terms.shape[1], values.shape[1])), np.zeros(values.shape[1])
        for bank, column in enumerate(values.T):
            known = np.isfinite(column)
            rows = np.concatenate([terms[known], ridge])
            wanted = np.concatenate([column[known], np.zeros(len(ridge))])
            planes[:, bank] = np.linalg.lstsq(rows, wanted, rcond=None)[0]
            if known.any():
                left[bank] = np.mean((column[known] - terms[known] @ planes[:, bank]) ** 2)
        return planes, left

    @staticmethod
    def _terms(places):
        return np.concatenate([np.ones((len(places), 1)), places - 0.5], axis=1)

    def logs(self, places, landings=None):
        """The logarithm of each member's likelihood of each bank."""
        numbers = values(self.spreads, places)
        if landings is None:
            landings = self.table.landings(numbers, self.banks, True)
        terms = self._terms(places)
        moved = np.einsum("mt,ctb->cmb", terms, self.planes)
        variance = (moved * moved).sum(0) + self.left.sum(0)
        of_speed, of_others = (terms @ bend for bend in self.bends)
        landings = dict(landings, along=landings["along"] + of_speed + of_others)
        with np.errstate(all="ignore"):
            likely = self._at(landings, variance)
            rests = np.array([seen == "stops" for seen in self.seen])
            likely = np.where(rests, np.where(landings["rests"], 0.0, -np.inf), likely)
            if self.near_rest.any():
                others = variance - moved[SPEED] ** 2 - self.left[SPEED]
                over = self._over_speeds(numbers, others, moved[SPEED], rests, of_others)
                likely = np.where(self.near_rest, over, likely)
            senseless = np.where(self.is_number, 1.0 / SENSELESS["number"], 1.0 / SENSELESS["word"])
            whole = np.logaddexp(np.log(1.0 - self.wrong) + likely, np.log(self.wrong * senseless))
            return self.repeats * whole

    def _at(self, landings, variance):
        """The logarithm of the likelihood of what was seen, a rest apart, of shots that are normal about a place."""
        along = landings["along"]
        sd = np.sqrt(variance + self.read_to * self.read_to)
        z = (self.read_at - along) / sd
        of_number = -0.5 * z * z - np.log(sd) - 0.5 * np.log(2.0 * np.pi)
        # A ball that came to the mouth has no number: given the number, its place is normal between shot and reading.
        read = self.read_to * self.read_to
        came_to = (along * read + self.read_at * variance) / (variance + read)
        within = np.maximum(np.sqrt(variance * read / (variance + read)), 1e-6)
        short_of = special.log_ndtr((landings["mouth_from"] - came_to) / within)
        past = special.log_ndtr((came_to - landings["mouth_to"]) / within)
        of_number = of_number + np.logaddexp(short_of, past)
        likely = np.where(self.is_number, of_number, self._of_words(landings, np.sqrt(variance)))
        return np.where(np.isfinite(along), likely, -np.inf)

    def _over_speeds(self, numbers, variance, lever, rests, past):
        """The same, summed over the law of the speed as far down as the ball comes to a rail."""
        played = [self.table.landings(numbers, self._off_by(SPEED, speed), True) for speed in SPEEDS]
        knots = {name: np.array([landing[name] for landing in played]) for name in played[0]}
        shape = knots["along"].shape[1:]
        cuts = {
            name: np.full((CUTS,) + shape, np.nan)
            for name in ("share", "along", "holds_from", "holds_to", "width")
        }
        stops = np.zeros(shape)
        for at in np.ndindex(shape):
            told = np.flatnonzero(np.isfinite(knots["along"][(slice(None),) + at]))
            if len(told):
                one = {name: knot[(slice(None),) + at] for name, knot in knots.items()}
                stops[at] = self._cut(one, told, lever[at], self.scatter[SPEED, at[1]], at, cuts)
            else:
                stops[at] = float(knots["rests"][(-1,) + at])
        parts = []
        for cut in range(CUTS):
            place = {name: value[cut] for name, value in cuts.items()}
            place["along"] = place["along"] + past
            place["mouth_from"], place["mouth_to"] = knots["mouth_from"][0], knots["mouth_to"][0]
            here = np.log(place["share"]) + self._at(place, variance + place["width"] ** 2 / 12.0)
            parts.append(np.where(place["share"] > 0.0, here, -np.inf))
        return np.where(rests, np.log(stops), special.logsumexp(parts, axis=0))

    @staticmethod
    def _cut(knots, told, lever, speed_sd, at, cuts):
        """Cuts one bank's stretch of speeds into places; the share that rests before."""
        speeds, slowest = np.array(SPEEDS), told[0]
        pairs = [it for it in told if it + 1 in told]
        least = speeds[slowest - 1] if slowest else -np.inf
        stop = 0.5 * (least + speeds[slowest])
        if pairs:
            # The squares of the speed that is sent and of what is left of it at the mouth go along a line.
            sent, left = (1.0 + speed_sd * speeds) ** 2, knots["speed"] ** 2
            slope = (left[pairs[0] + 1] - left[pairs[0]]) / (sent[pairs[0] + 1] - sent[pairs[0]])
            nothing = sent[pairs[0]] - left[pairs[0]] / slope
            stop = least
            if slope > 0.0 and nothing > 0.0:
                stop = np.clip((np.sqrt(nothing) - 1.0) / speed_sd, least, speeds[slowest])
        below, begin = special.ndtr(stop), max(stop, -REACH)
        width = (REACH - begin) / CUTS
        middles = begin + (np.arange(CUTS) + 0.5) * width
        shares = np.exp(-0.5 * middles * middles)
        cuts["share"][(slice(None),) + at] = (1.0 - below) * shares / shares.sum()
        for cut, speed in enumerate(middles):
            here = (cut,) + at
            if pairs:
                first = max([it for it in pairs if speeds[it] <= speed], default=pairs[0])
                second, past = first + 1, (speed - speeds[first]) / (speeds[first + 1] - speeds[first])
            else:
                first, second, past = slowest, slowest, 0.0
            slope = (knots["along"][second] - knots["along"][first]) / (
                speeds[second] - speeds[first]) if pairs else lever
            cuts["along"][here] = knots["along"][first] + slope * (speed - speeds[first])
            cuts["width"][here] = slope * width
            for name in "holds_from", "holds_to":
                one, other = knots[name][first], knots[name][second]
                ends = [it for it in (one, other) if np.isfinite(it)]
                cuts[name][here] = one + past * (other - one) if len(ends) == 2 else (ends or [np.nan])[0]
        return below if not slowest or knots["rests"][slowest - 1] else 0.0

    def _of_words(self, landings, sd):
        """The logarithm of the share of shots of which the word is said."""
        sd, along = np.maximum(sd, 1e-6), landings["along"]
        mouth = landings["mouth_from"], landings["mouth_to"]
        holds = np.maximum(landings["holds_from"], mouth[0]), np.minimum(landings["holds_to"], mouth[1])
        hollow = ~(holds[1] > holds[0])
        everywhere = np.full(along.shape, np.inf)

        def between(low, high):
            return log_share((low - along) / sd, (high - along) / sd)

        said = {
            "holds": np.where(hollow, -np.inf, between(*holds)),
            # Two slivers beside the stretch that holds, or the whole mouth where none does.
            "touches": np.where(
                hollow, between(*mouth),
                np.logaddexp(between(mouth[0], holds[0]), between(holds[1], mouth[1]))),
            "long": between(mouth[1], everywhere),
            "short": between(-everywhere, mouth[0]),
        }
        shares = np.full(along.shape, np.nan)
        for bank, seen in enumerate(self.seen):
            if not self.is_number[bank] and seen in said:
                shares[:, bank] = said[seen][:, bank]
        return shares


def log_share(low, high):
    """The logarithm of the normal law's share between two distances from its middle."""
    low, high = np.where(low > 0.0, -high, low), np.where(low > 0.0, -low, high)
    below, above = special.log_ndtr(low), special.log_ndtr(high)
    return np.where(high > low, above + np.log(-np.expm1(below - above)), -np.inf)
