"""The page /roll/backing/: the angle of no return, and the metres that are left until then with the wheels straight.

A short drawbar doubles a small angle within its own length, again and again. A wagon steered by its drawbar has two
such angles, and folds at the second one first.
"""

from __future__ import annotations

from calc.check import (
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    more,
    pick_fact,
    require,
)
from calc.laws import backing, support
from calc.quantity import Quantity, alternative, constant, limit, log, sine, smallest, step, stepped
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, Source
from calc.units import degree, m, mm, one, per_m

ARTICULATED = Source(
    "Jackknife control of articulated vehicles in reverse, divided by hitch length over tongue length, a paper of 2022",
    "",
    "read in its abstract",
)
KINEMATICS = Source("Rolling without slip of a vehicle with a trailer, a text of vehicle dynamics", "", FROM_MEMORY)
STARTS = (("2", 2), ("10", 10))


class Backing(Check):
    """How far can I back it up before it jackknifes?"""

    title = "Backing up"
    headline = "metres"

    kind: str = pick_fact("chassis.kind", support.WAGON, (support.SINGLE, support.WAGON))
    vehicle_wheelbase: Quantity = ask_fact("b_v", "tow.wheelbase", 1650 * mm)
    steering: Quantity = ask_fact("δ_v", "tow.steer_limit", 30 * degree, common=(20 * degree, 30 * degree, 40 * degree))
    overhang: Quantity = ask_fact("c_h", "tow.overhang", 550 * mm)
    drawbar: Quantity = ask_fact("D", "chassis.drawbar", 950 * mm, common=(900 * mm, 1250 * mm, 1600 * mm, 2000 * mm))
    wheelbase: Quantity = ask_fact("b", "chassis.wheelbase", 1100 * mm, when={"kind": (support.WAGON,)})
    swing: Quantity = ask_fact("δ", "chassis.drawbar_swing", 60 * degree, when={"kind": (support.WAGON,)})
    contact: Quantity = ask(
        "φ_t",
        "Angle at which rig and vehicle touch",
        45 * degree,
        low=15 * degree,
        high=90 * degree,
        habit=True,
        common=(45 * degree, 60 * degree, 70 * degree),
        help="At the hitch: where the corners, or drawbar and bumper, meet",
    )
    start: Quantity = ask(
        "φ_0",
        "Angle at the hitch when it starts",
        5 * degree,
        low=0.5 * degree,
        high=45 * degree,
        habit=True,
        common=(2 * degree, 5 * degree, 10 * degree),
        help="Nobody starts perfectly straight: 5° is a hand's breadth on a metre of drawbar",
    )

    def solve(self) -> Answer:
        turning = backing.tightest(self.vehicle_wheelbase, self.steering, self.overhang)
        never = backing.recovers_always_from(turning)
        longest = (self.drawbar >= never).holds
        angle = self._limit(turning, longest)
        straight = require(
            self.start < angle,
            exact=True,
            label="Starts inside",
            yes="It starts straight enough.",
            no="It starts at {left}; past {right} nothing brings it back. Pull forward until it is straight.",
        )
        if straight.verdict == "no":
            return answer(straight, say="", metres=self._none(), no_return=angle)
        folds = self._folds(turning, longest)
        metres = self._metres("s", self.start, angle, folds)
        told = {f"metres_from_{name}": self._from(name, value, angle, folds) for name, value in STARTS}
        return answer(
            straight,
            self._room(metres, self._end(angle, folds)),
            say=f"There are {metres} to back up, wheels straight, before {self._end(angle, folds)}; steer against it by half of that.",
            notes=self._notes(never, angle, longest),
            metres=metres,
            no_return=angle,
            half_way=step("φ_h", "Steer against it by", angle / 2, degree),
            drawbar_that_never=never,
            doubles_within=step(
                "s_dbl",
                "A small angle doubles within",
                self.drawbar * log(2 * constant("1×", "One", 1 * one, KINEMATICS)),
                m,
                KINEMATICS,
            ),
            **({} if folds is None else {"body_no_return": folds, "body_turn": self._first_row("s", self.start)}),
            **told,
        )

    def _end(self, angle: Quantity, folds: Quantity | None) -> str:
        if folds is None:
            return f"{angle} at the hitch"
        return f"{angle} at the hitch or {folds} between drawbar and body"

    def _limit(self, turning: backing.Turning, longest: bool) -> Quantity:
        """The angle at the hitch that ends it: past steering, or corners touching."""
        if longest:
            because = "the drawbar is long enough that the wheels hard over bring back any angle"
            return alternative("φ_l", "Angle at the hitch that ends it", self.contact, because, degree)
        critical = backing.critical_angle(turning, self.drawbar)
        return limit("φ_l", "Angle at the hitch that ends it", smallest(critical, self.contact), degree)

    def _folds(self, turning: backing.Turning, longest: bool) -> Quantity | None:
        """On a wagon, the angle of drawbar to body that ends it."""
        if self.kind != support.WAGON:
            return None
        body = None if longest else backing.body_angle(turning, self.drawbar, self.wheelbase)
        if body is None:
            return alternative(
                "χ_l", "Angle of drawbar to body that ends it", self.swing, "where the drawbar's swing ends", degree
            )
        return limit("χ_l", "Angle of drawbar to body that ends it", smallest(body, self.swing), degree)

    def _metres(self, mark: str, start: Quantity, angle: Quantity, folds: Quantity | None) -> Quantity:
        """How far until the first of the two angles is reached."""
        label = f"Metres from {start} until the hitch's angle ends it"
        hitch = backing.metres_straight(mark if folds is None else f"{mark}_φ", label, self.drawbar, start, angle)
        if folds is None:
            return hitch
        found = backing.body_reaches(start.si, self.drawbar.si, self.wheelbase.si, folds.si, hitch.si)
        first = self._first_row(mark, start)
        body = stepped(
            f"{mark}_χ",
            f"Metres from {start} until drawbar and body end it",
            found,
            m,
            (first, self.drawbar, self.wheelbase, folds),
            note=f"the Runge-Kutta rule, {backing.STEPS_TO_A_LENGTH} steps to the shorter of drawbar and wheelbase",
        )
        return limit(mark, f"Metres to back up from {start}", smallest(hitch, body), m)

    def _first_row(self, mark: str, start: Quantity) -> Quantity:
        """The one row of the stepping that is worked: how the body begins to fall behind."""
        return step(
            f"χ'_{mark}",
            f"Drawbar turns against the body, per metre, as the stepping begins at {start}",
            sine(start) / self.drawbar,
            per_m,
            KINEMATICS,
        )

    def _from(self, name: str, value: int, angle: Quantity, folds: Quantity | None) -> Quantity:
        start = constant(f"φ_{name}", f"Started at {value}°", value * degree, COMMON_PRACTICE)
        return self._metres(f"s_{name}", start, angle, folds) if (start < angle).holds else self._none(name)

    def _none(self, mark: str = "0") -> Quantity:
        return constant(f"s_{mark}", "No metres: it starts past the end", 0 * m, KINEMATICS)

    def _room(self, metres: Quantity, end: str) -> Requirement:
        least = constant("s_1", "Metres with which a driver has a chance", 2.5 * m, COMMON_PRACTICE)
        plenty = constant("s_4", "Metres with which most can do it", 4 * m, COMMON_PRACTICE)
        return require(
            metres >= least,
            comfortable=metres >= plenty,
            label="Metres",
            yes="There is room to correct it.",
            tight=f"{{left}} from {self.start} to {end}: with practice; {plenty} would be good.",
            no=f"Only {{left}} from {self.start} to {end}: it jackknifes faster than one can steer. Unhitch it and turn it by hand, or push it ahead on a hitch at the front.",
        )

    def _notes(self, never: Quantity, angle: Quantity, longest: bool) -> tuple[str, ...]:
        said = [f"The angle grows by itself with the wheels straight; never let it pass half of {angle}."]
        if longest:
            said.append("At this length the wheels hard over always bring it back, until the corners touch.")
        else:
            said.append(f"A drawbar of {never} or more would always come back at the hitch.")
        if self.kind == support.WAGON:
            said.append("A wagon folds twice: drawbar against vehicle, and body against drawbar.")
        said.append("On loose ground the wheels slip and it goes sooner.")
        return tuple(said)

    fixes = (
        more("drawbar", 50 * mm, "Use a drawbar of {drawbar}"),
        less("start", 0.5 * degree, "Pull forward first, until it is within {start} of straight"),
        more("contact", 5 * degree, "Clear the corners so that it turns to {contact}"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Whoever stands between rig and vehicle, or behind the rig, is crushed",
            "It folds within a second and cannot be stopped",
            "Nobody beside or behind it while it backs; a helper stands where the driver sees the whole person, and stops on losing sight",
        ),
        Caution(
            "WARNING",
            "A jackknifed rig tips over or bends its hitch",
            "The corner pushes into the vehicle",
            "Stop at half the angle, pull forward, start again",
        ),
    )
    examples = (
        Example(
            given={
                "kind": support.SINGLE,
                "vehicle_wheelbase": "1650 mm",
                "steering": "30",
                "overhang": "600 mm",
                "drawbar": "1250 mm",
                "contact": "70",
                "start": "5",
            },
            expect={"no_return": "37.2 °", "metres": "2.55 m"},
            verdict="tight",
            source=KINEMATICS.at("φ = atan(c·k) + asin(D·k/√(1+c²k²)); s = D·ln(tan(φ/2)/tan(φ₀/2))"),
        ),
        Example(
            given={
                "kind": support.SINGLE,
                "vehicle_wheelbase": "1650 mm",
                "steering": "30",
                "overhang": "600 mm",
                "drawbar": "600 mm",
                "contact": "70",
            },
            expect={"no_return": "23.7 °", "metres": "0.94 m"},
            verdict="no",
            source=ARTICULATED.at("a short tongue has a jackknife state, a long one none"),
        ),
        Example(
            given={
                "kind": support.SINGLE,
                "vehicle_wheelbase": "1650 mm",
                "steering": "30",
                "overhang": "600 mm",
                "drawbar": "3000 mm",
                "contact": "70",
            },
            expect={"drawbar_that_never": "2920 mm"},
            within=0.002,
            verdict="go",
            source=ARTICULATED.at("a long tongue has no jackknife state"),
        ),
    )
