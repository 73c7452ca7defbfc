"""The short start: a name and seven lines, each read off one plate, make a rig whose board is answered.

What a line says is kept by the same act as a fact that is typed in its own field. What follows from it with certainty is
worked out; all else stays not known.
"""

from __future__ import annotations

from collections.abc import Mapping

from calc import units as u
from calc.editing import added, names_in, with_fact, with_known
from calc.facts import fact_at
from calc.plate import Plate
from calc.plate_line import Texts, things_in
from calc.quantity import Quantity
from calc.reading import Unreadable
from calc.rig import Known, Rig
from calc.start_lines import BANK, LINES, SETTINGS
from calc.tables import table

# The nominal volts of a cell are the same from every maker; those of NMC are 3.6 from one and 3.7 from the next.
_ONE_NOMINAL = ("LFP", "lead-acid (AGM or gel)", "lead-acid (flooded)")

# The smallest class there is has 12 V: four cells of LFP, three of NMC, six of lead.
_LEAST_FULL_VOLTS = 12.0

FIELDS = ("name", *(plate.key for plate in LINES))


def started(texts: Mapping[str, str]) -> tuple[Rig | None, dict[str, str]]:
    """A rig from the short start's lines; or what is wrong with them, by field."""
    rig, problems = Rig("", {}), {}
    try:
        rig = with_fact(rig, "name", texts.get("name", ""))
    except Unreadable as problem:
        problems["name"] = str(problem)
    for plate in LINES:
        try:
            rig = with_line(rig, plate, texts.get(plate.key, ""))
        except Unreadable as problem:
            problems[plate.key] = str(problem)
    return (None, problems) if problems else (_outlets_worked_out(rig), {})


def with_line(rig: Rig, plate: Plate, line: str) -> Rig:
    """The rig with what a line tells of it. Raises Unreadable; then nothing of the line is kept."""
    for name, facts in things_in(plate, line):
        rig = _with_thing(rig, plate, name, facts) if plate.group else _with_facts(rig, facts)
    if plate is SETTINGS:
        _must_be_an_empty_bank_s(rig)
    return _bank_worked_out(rig) if plate is BANK else rig


def _with_thing(rig: Rig, plate: Plate, name: str, facts: Texts) -> Rig:
    place = rig.count(plate.group)
    rig = added(rig, plate.group)
    if name:
        rig = with_fact(rig, f"{plate.group}.{place}.name", name)
    own = f"{plate.group}."
    return _with_facts(rig, {f"{own}{place}.{path[len(own) :]}" if path.startswith(own) else path: text for path, text in facts.items()})


def _with_facts(rig: Rig, facts: Texts) -> Rig:
    problems = []
    for path, text in facts.items():
        try:
            if path in rig.facts:
                raise Unreadable(f"{fact_at(path).label} is told twice: write it once.")
            to = fact_at(path).refers_to
            rig = with_fact(rig, path, _called(rig, to, text) if to else text)
        except Unreadable as problem:
            problems.append(str(problem))
    if problems:
        raise Unreadable(" ".join(problems))
    return rig


# By what an outlet is called beside its name.
_KNOWN_BY = ("name", "configuration", "socket")


def _called(rig: Rig, group: str, text: str) -> str:
    """The name of the one thing of a list that is called so, or has this pattern. Raises Unreadable."""
    called = " ".join(text.casefold().split())
    names = [rig.facts.get(f"{group}.{place}.name") for place in range(rig.count(group)) if called in _calls(rig, f"{group}.{place}")]
    found = [name for name in names if isinstance(name, str)]
    if len(found) == 1:
        return found[0]
    listed = ", ".join(names_in(rig, group)) or "none"
    why = "fits several of the outlets" if found else "is none of the outlets"
    raise Unreadable(f"“{text}” {why} above ({listed}): give each a name before a colon, and write that name.")


def _calls(rig: Rig, thing: str) -> list[str]:
    known = (rig.facts.get(f"{thing}.{name}") for name in _KNOWN_BY)
    return [word.casefold() for word in known if isinstance(word, str)]


# --- what follows from what is typed ---------------------------------------------------------------------


def _bank_worked_out(rig: Rig) -> Rig:
    """The rig with the bank's nominal volts and energy, where its plates settle them. Raises Unreadable where what was
    typed cannot all be true."""
    chemistry, cells = rig.facts.get("bank.chemistry"), _si(rig, "bank.series")
    if isinstance(chemistry, str) and cells is not None:
        if chemistry in _ONE_NOMINAL and "bank.nominal_volts" not in rig.facts:
            rig = with_fact(rig, "bank.nominal_volts", f"{cells * _cell(chemistry, 'nominal'):.12g} V")
        _must_agree(rig, chemistry, cells)
    volts, charge = _si(rig, "bank.nominal_volts"), _charge(rig)
    if volts is not None and charge is not None and "bank.energy" not in rig.facts:
        rig = with_fact(rig, "bank.energy", f"{u.kWh.from_si(volts * charge):.12g} kWh")
    return rig


def _must_agree(rig: Rig, chemistry: str, cells: float) -> None:
    """What is typed of volts and energy must lie between empty and full cells: a battery's volts are not its string's."""
    lowest, highest = (cells * _cell(chemistry, column) for column in ("lowest", "highest"))
    made = f"{cells:.12g} cells of {chemistry} have {lowest:.3g} to {highest:.3g} V"
    if highest < _LEAST_FULL_VOLTS:
        raise Unreadable(f"{made}, too few for any inverter: count the cells of the whole string, not its batteries.")
    volts = _si(rig, "bank.nominal_volts")
    if volts is not None and not lowest <= volts <= highest:
        raise Unreadable(f"{made}, not {volts:.4g} V: count the cells of the whole string, and write the volts of the whole string.")
    if volts is not None and volts > (cells * _cell(chemistry, "nominal") + highest) / 2:
        raise Unreadable(f"{made}: {volts:.4g} V are those of a full bank. Write its nominal volts, as they stand beside its Ah.")
    energy, charge = _si(rig, "bank.energy"), _charge(rig)
    if energy is not None and charge is not None and not lowest <= energy / charge <= highest:
        raise Unreadable(
            f"{made}; with {u.Ah.from_si(charge):.4g} Ah in all that is no {u.kWh.from_si(energy):.4g} kWh. Look which of them are each, and which in all."
        )


def _must_be_an_empty_bank_s(rig: Rig) -> None:
    """A battery's protection opens twice, at the volts of an empty and at those of a full bank: here the first are asked."""
    opens = _si(rig, "bank.lowest_volts")
    for above in (_si(rig, "bank.nominal_volts"), _si(rig, "bank.highest_volts")):
        if opens is not None and above is not None and opens > above:
            raise Unreadable(f"Its protection opens at {opens:.4g} V, above {above:.4g} V: write the volts at which it opens when the battery is empty.")


def _cell(chemistry: str, column: str) -> float:
    return table("cell_volts").value(chemistry, column).si


def _charge(rig: Rig) -> float | None:
    """The charge of the whole bank, in coulombs."""
    one, strings = _si(rig, "bank.capacity"), _si(rig, "bank.strings")
    return None if one is None or strings is None else one * strings


def _si(rig: Rig, path: str) -> float | None:
    known = rig.facts.get(path)
    return known.si if isinstance(known, Quantity) else None


# What is wanted of an outlet is what the plate of the one thing that is plugged into it says.
_WANTED = {
    "loads": {"volts": "used_volts", "amps": "used_amps", "lasting": "lasting"},
    "cars": {"charging_volts": "used_volts", "charging_amps": "used_amps"},
}


def _outlets_worked_out(rig: Rig) -> Rig:
    """The rig with what is wanted of each outlet, where just one of its things is plugged into it."""
    for place, name in enumerate(names_in(rig, "outlets")):
        users = [f"{group}.{user}" for group in _WANTED for user in range(rig.count(group)) if rig.facts.get(f"{group}.{user}.outlet") == name]
        if len(users) == 1:
            for wanted, known in _wants(rig, users[0]).items():
                rig = with_known(rig, f"outlets.{place}.{wanted}", known)
    return rig


def _wants(rig: Rig, thing: str) -> dict[str, Known]:
    """What a tool or a car wants of its outlet, as far as that is known and an outlet can be asked for it."""
    group = thing.partition(".")[0]
    known = {wanted: rig.facts.get(f"{thing}.{fact}") for fact, wanted in _WANTED[group].items()}
    if group == "cars":
        known["lasting"] = "yes"  # as the fact's own help says of cars
    if known["used_volts"] not in fact_at("outlets.used_volts").options:
        del known["used_volts"]
    return {wanted: value for wanted, value in known.items() if value is not None}
