"""What is held of any device before a circuit: it holds the load, there is a rating for it, it breaks a short."""

from __future__ import annotations

from calc.check import Named, Requirement, require
from calc.laws.protection import standard_ratings
from calc.quantity import Condition, Quantity

Listed = tuple[str, str]


def holds(asked: Quantity, rating: Quantity, comfortable: Condition | None = None, exact: bool = False) -> Requirement:
    """What is asked of a device for long, held against its rating."""
    return require(
        asked <= rating,
        comfortable=comfortable,
        exact=exact,
        label="Breaker holds the load",
        yes="It holds the load.",
        tight="It holds, but {left} is asked of its {right}.",
        no="{left} is asked of a device of {right}: it opens, or wears out warm.",
    )


def there_is_one(least: Quantity, most: Quantity, size: str) -> Requirement:
    """The smallest rating that holds the load, held against the largest that the wire allows."""
    return require(
        least <= most,
        exact=True,
        label="A rating for load and wire",
        yes="There is a rating between load and wire.",
        no=f"The load needs {{left}} or more, and {size} as laid allows {{right}}: no rating serves both. Use thicker wire.",
    )


def interrupts(short: Quantity, breaks: Quantity) -> Requirement:
    """What a short may draw, held against what the device can break."""
    return require(
        short <= breaks,
        label="Interrupting",
        yes="It can break a short.",
        tight="A short may draw {left}; it breaks {right}.",
        no="A short may draw {left}; it breaks {right} at most, and may burst with fire.",
    )


def breaks_dc(highest: Quantity, marked: Quantity) -> Requirement:
    """The bank's highest volts, held against those that the device may break on dc."""
    return require(
        highest <= marked,
        label="Volts dc",
        yes="It may break the bank's volts.",
        tight="The bank reaches {left} and it may break {right}.",
        no="The bank reaches {left}; on dc it may break {right}. It would go on burning inside after it has opened.",
    )


def say(least: Quantity, most: Quantity, size: str) -> str:
    """The smallest and the largest rating, in a sentence."""
    if least.si == most.si:
        return f"{least}: the only rating for this load and {size}."
    return f"{least} is the smallest that holds the load, {most} the largest that this circuit may have."


def ratings_that_serve(least: Quantity, most: Quantity, listed: Listed) -> Named:
    """The standard ratings from the smallest that holds to the largest allowed."""
    serve = [str(rating) for rating in standard_ratings(listed) if (rating >= least).holds and (rating <= most).holds]
    return Named(
        ", ".join(serve) or "none", "Standard ratings that serve", "from the smallest that holds to the largest allowed"
    )


def smaller_than_the_table(size: str, usable: Quantity, most: Quantity) -> tuple[str, ...]:
    """Name the ampacity that a hurried reader would take for the breaker of a small wire."""
    if (usable <= most).holds:
        return ()
    return (f"{size} carries {usable} as it lies, and is held to {most} all the same: small wires have a cap.",)
