"""The page /roll/tow/: rating, grip, power, brakes, hitch and range of the vehicle that pulls it; the worst of them counts.

A rig of a quarter of the vehicle's mass costs more than a quarter of its range: small tyres roll worse.
"""

from __future__ import annotations

from calc.check import (
    NO,
    PHYSICAL,
    TIGHT,
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
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import hitch, rolling, support, traction
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.tables import table
from calc.units import N, Wh_per_mi, kg, kW, kWh, m2, m_per_s2, mi, mm, mph, one, percent

RESISTANCES = Source("Road load of a vehicle: rolling, grade and air drag, a text of vehicle dynamics", "", FROM_MEMORY)

OVERRUN = "overrun brake"
ONE_AXLE = {"kind": (support.SINGLE,)}
ON_ONE_AXLE = {"driven": (traction.REAR, traction.FRONT)}


class Tow(Check):
    """Will the vehicle pull it there and back?"""

    title = "Towing it"
    headline = "range_towing"

    mass: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg)
    brake: str = pick_fact("chassis.brake", "parking brake")
    wheel_diameter: Quantity = ask_fact("d", "chassis.wheel_diameter", 400 * mm)
    wheel_kind: str = pick_fact("chassis.wheel_kind", rolling.PNEUMATIC)
    surface: str = pick_fact("place.surface", "packed gravel")
    kind: str = pick_fact("chassis.kind", support.WAGON)
    tongue: Quantity = ask_fact("m_t", "chassis.tongue_load", 0 * kg)
    tongue_rating: Quantity = ask_fact("R_t", "chassis.tongue_rating", 50 * kg, when=ONE_AXLE)
    drawbar: Quantity = ask_fact("D", "chassis.drawbar", 950 * mm, when=ONE_AXLE)
    hitch_height: Quantity = ask_fact("h_h", "chassis.hitch_height", 400 * mm, when=ONE_AXLE)
    cg_height: Quantity = ask_fact("z", "chassis.cg_height", 542 * mm, when=ONE_AXLE)
    vehicle: Quantity = ask_fact("m_v", "tow.mass", 640 * kg)
    tow_rating: Quantity = ask_fact("R_v", "tow.rating", 450 * kg)
    power: Quantity = ask_fact("P_m", "tow.power", 6 * kW)
    driven: str = pick_fact("tow.driven", traction.REAR)
    drive_share: Quantity = ask_fact("k_d", "tow.drive_share", 55 * percent, when=ON_ONE_AXLE)
    wheelbase: Quantity = ask_fact("b_v", "tow.wheelbase", 1650 * mm, when=ON_ONE_AXLE)
    overhang: Quantity = ask_fact("c_h", "tow.overhang", 550 * mm, when=ON_ONE_AXLE)
    speed: Quantity = ask_fact("v", "tow.speed", 12 * mph)
    grade: Quantity = ask_fact("θ", "place.slope", 8 * percent)
    ground: str = pick(
        "Grip of the steepest ground",
        table("friction").rows,
        "wet grass",
        habit=True,
        help="At its worst: after rain, loose stones count as wet grass",
    )
    braking: Quantity = ask(
        "a_b",
        "How hard it brakes",
        3 * m_per_s2,
        low=0.5 * m_per_s2,
        high=9 * m_per_s2,
        habit=True,
        common=(2 * m_per_s2, 3 * m_per_s2, 6 * m_per_s2),
        help="3 is firm; an emergency stop on a dry road is 6 or more",
    )
    energy: Quantity = ask_fact("E_v", "tow.energy", 7.2 * kWh)
    use: Quantity = ask_fact("u", "tow.use", 95 * Wh_per_mi)
    trip: Quantity = ask_fact("D_w", "place.trip", 10 * mi, wish="the least")
    drag_area: Quantity = ask(
        "A_d",
        "Drag area of both",
        1.3 * m2,
        low=0.3 * m2,
        high=6 * m2,
        habit=True,
        help="Frontal area times drag coefficient; an open cart about 1.3 m²",
    )
    vehicle_rolls: Quantity = ask(
        "c_v",
        "Share of the vehicle's weight it takes to roll",
        0.015 * one,
        low=0.006 * one,
        high=0.4 * one,
        habit=True,
        common=(0.012 * one, 0.015 * one, 0.03 * one),
        help="0.015 on a hard road, twice that on gravel",
    )
    drive_efficiency: Quantity = ask(
        "η",
        "Efficiency from battery to wheels",
        78 * percent,
        low=40 * percent,
        high=95 * percent,
        habit=True,
        help="Motor, controller and gears together",
    )

    def solve(self) -> Answer:
        share = rolling.rolling_share(self.wheel_kind, self.wheel_diameter, self.surface)
        own = traction.rolling("F_v", "To roll the vehicle", self.vehicle, self.vehicle_rolls)
        towed = traction.rolling("F_t", "To roll the rig", self.mass, share)
        drag = traction.air_drag(self.drag_area, self.speed)
        level = need("F_1", "Pull on the level", own + towed + drag, N, RESISTANCES)
        alone = step("F_0", "Pull on the level without the rig", own + drag, N, RESISTANCES)
        climbing = traction.climbing(self.vehicle, self.mass, self.grade)
        steep = need("F_2", "Pull on the steepest slope", level + climbing, N, RESISTANCES)
        power = traction.power_at(steep, self.speed, self.drive_efficiency)
        use = need("u_t", "Energy it uses with the rig", self.use * level / alone, Wh_per_mi, OWN_DERIVATION)
        push = hitch.push(self.mass, self.braking, self.grade)
        hitched, on_hitch = self._hitch(push) if self.kind == support.SINGLE else ([], {})
        reach = limit("D_t", "Range towing, on the level", self.energy / use, mi)
        return answer(
            self._rating(),
            self._brakes(),
            *hitched,
            self._grip(steep),
            require(
                power <= self.power,
                rule=PHYSICAL,
                label="Power",
                yes="The motor has the power.",
                tight="The slope takes {left} of the motor's {right}: it runs hot.",
                no="The slope takes {left} at this speed and the motor gives {right}.",
            ),
            require(
                reach >= self.trip,
                rule=PHYSICAL,
                label="Range",
                yes="The trip is possible.",
                tight="It goes {left} towing: the {right} trip is possible on the level, with little to spare.",
                no="It goes {left} towing on the level; the trip is {right}.",
            ),
            say=f"It pulls it: {steep:up} on the slope, and {reach} of range while towing.",
            notes=self._notes(use, steep),
            range_towing=reach,
            range_alone=limit("D_0", "Range without it, on the level", self.energy / self.use, mi),
            pull_level=level,
            pull_slope=steep,
            power_slope=power,
            hitch_push=push,
            **on_hitch,
            use_towing=use,
            modelled_use=step("u_m", "The same by the model alone", level / self.drive_efficiency, Wh_per_mi, OWN_DERIVATION),
        )

    def _rating(self) -> Requirement:
        return require(
            self.mass <= self.tow_rating,
            rule=PHYSICAL,
            label="Rating",
            yes="The vehicle may pull it.",
            tight="It weighs {left} of the {right} that the vehicle may pull.",
            no="It weighs {left}; the vehicle may pull {right}.",
        )

    def _brakes(self) -> Requirement:
        """Without brakes that work while towing, the vehicle alone stops both."""
        braked = self.brake == OVERRUN
        most = constant(
            "k_u",
            "Mass of a rig with its own brake, over the vehicle's, at most"
            if braked
            else "Mass of a rig without a brake that works while towing, over the vehicle's, at most",
            (1 if braked else 0.5) * one,
            COMMON_PRACTICE,
        )
        return require(
            self.mass <= limit("M_b", "Heaviest that it can stop", most * self.vehicle, kg, COMMON_PRACTICE),
            rule=PHYSICAL,
            label="Brakes",
            yes="It can be stopped.",
            tight="It weighs {left} of the {right} that this vehicle should have to stop.",
            no="It weighs {left}: over {right} it pushes the vehicle on downhill, and folds it up.",
        )

    def _hitch(self, push: Quantity) -> tuple[list[Requirement], dict[str, Quantity]]:
        """A hitch's rating is for rest; what braking adds to it is told, and leaves no more than a tight."""
        lies = (self.tongue, push, self.cg_height, self.hitch_height, self.drawbar)
        most = hitch.heaviest(*lies, brakes=self.brake == OVERRUN)
        least = hitch.lightest(*lies, self.grade)
        bears = require(
            self.tongue <= self.tongue_rating,
            comfortable=most <= self.tongue_rating,
            label="Hitch",
            yes="The hitch bears it, braking downhill too.",
            tight=f"At rest {{left}} is on the hitch, which may bear {{right}}; braking downhill it is {most}.",
            no="{left} is on the hitch, which may bear {right}.",
        )
        stays = require(
            least >= 0 * kg,
            exact=True,
            label="Hitch, braking",
            yes="Braking downhill it presses on the hitch.",
            no="Braking downhill {left} is on the hitch: it lifts the vehicle's rear wheels, and they lose their grip.",
        )
        return [bears, stays], {"hitch_braking": most, "hitch_least": least}

    def _grip(self, steep: Quantity) -> Requirement:
        friction = table("friction").read("μ", f"Grip on ground that is {self.ground}", self.ground, "friction")
        lies = (self.tongue, self.wheelbase, self.overhang, self.grade)
        most = traction.grip(self.driven, self.vehicle, self.drive_share, *lies, friction)
        return require(
            steep <= most,
            rule=PHYSICAL,
            label="Grip",
            yes="The wheels grip.",
            tight="The slope takes {left} of the {right} that its driven wheels can pull on this ground.",
            no="The slope takes {left} and its driven wheels pull {right} on this ground: they spin, and it slides back.",
        )

    def _notes(self, use: Quantity, steep: Quantity) -> tuple[str, ...]:
        more_mass = step("k_m", "Mass that the rig adds", self.mass / self.vehicle, percent)
        more_use = step("k_e", "Energy that the rig adds", use / self.use - 1, percent)
        climb = step("u_g", "Uphill on that slope, by the model", steep / self.drive_efficiency, Wh_per_mi, OWN_DERIVATION)
        return (
            f"It adds {more_mass} of mass and {more_use} of energy on the level: its tyres roll worse than the vehicle's.",
            f"Uphill it takes {climb}; hills come on top of the range told here.",
        )

    fixes = (
        less("speed", 1 * mph, "Tow at {speed}"),
        less("mass", 10 * kg, "Take load off until it weighs {mass}"),
        less("grade", 0.5 * percent, "Take a way of {grade} at most"),
        option("brake", OVERRUN, "Fit an overrun brake"),
        option("wheel_kind", rolling.PNEUMATIC, "Fit inflated tyres"),
        more("wheel_diameter", 25 * mm, "Fit wheels of {wheel_diameter}"),
        less("trip", 0.5 * mi, "Plan {trip} instead"),
        more("tongue", 1 * kg, "Move load ahead until {tongue} is on the hitch"),
        less("tongue", 1 * kg, "Move load back until {tongue} is on the hitch"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A towed rig that runs into the vehicle downhill turns both over",
            "It kills driver and bystanders",
            "Go down as slowly as you would go up, in a straight line, without braking hard; nobody rides on it or walks beside it",
        ),
        Caution(
            "WARNING",
            "A hitch that opens lets it go",
            "It rolls until something stops it",
            "Pin in, safety chains crossed under the drawbar, pull once before driving off",
        ),
        Caution(
            "CAUTION",
            "A small motor that pulls uphill for minutes overheats",
            "Its protection stops it on the slope",
            "Feel it after the first climb; wait at the top",
        ),
    )
    examples = (
        Example(
            given={
                "mass": "160 kg", "vehicle": "620 kg", "surface": "asphalt", "speed": "15 mph", "grade": "0", "power": "20 kW", "trip": "10 mi",
            },
            expect={"pull_level": "174 N", "modelled_use": "99.5 Wh/mi"},
            within=0.004,
            verdict="go",
            source=RESISTANCES.at("620·g·0.015 + 160·g·0.03 + ½·1.225·1.3·6.706²"),
        ),
        Example(
            given={
                "mass": "160 kg", "vehicle": "620 kg", "surface": "asphalt", "speed": "15 mph", "grade": "10", "power": "6 kW",
            },
            expect={"pull_slope": "934 N"},
            within=0.002,
            verdict=NO,
            source=RESISTANCES.at("780·g·sin(atan 0.1) + the level's 174 N; 6.3 kW at the wheels, 8.0 kW at 78 %"),
        ),
        Example(
            given={
                "kind": support.SINGLE, "mass": "400 kg", "tongue": "30 kg", "tongue_rating": "35 kg", "drawbar": "2 m",
                "hitch_height": "400 mm", "cg_height": "700 mm", "brake": "none", "grade": "0", "braking": "5", "vehicle": "1500 kg",
                "tow_rating": "750 kg", "power": "60 kW", "energy": "40 kWh", "speed": "15 mph",
            },
            expect={"hitch_push": "2000 N", "hitch_braking": "60.6 kg"},
            within=0.002,
            verdict=TIGHT,
            source=hitch.LOAD_TRANSFER.at("400·5 = 2000 N at 0.3 m above the hitch, over 2 m: 300 N, 30.6 kg more on it"),
        ),
    )  # fmt: skip
