"""Words that facts of several parts share."""

from __future__ import annotations

from calc.fact import Fact

YES_NO = ("no", "yes")
NAME = Fact("What it is called", "Your own word for it")
