"""Drawings made from tables and answers, as text of inline SVG: classes and presentation attributes, no styles."""

from __future__ import annotations

from calc.check import Answer, Check, Named


def drawing_of(check: Check, answer: Answer) -> str:
    """The drawing that goes with an answer; empty where there is none. It holds no text that anybody typed."""
    from calc.checks.roll.backing import Backing
    from calc.drawing.backing import plan
    from calc.drawing.outlet_faces import industrial_face, outlet_face

    face, earth = answer.results.get("face"), answer.results.get("earth_contact")
    if isinstance(check, Backing):
        return plan(check)
    if isinstance(face, Named):
        return outlet_face(face.text)
    if isinstance(earth, Named) and earth.text[0].isdigit():
        return industrial_face(int(earth.text.split()[0]), contacts=3)
    return ""
