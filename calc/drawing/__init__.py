"""Drawings made from tables and answers, as text of inline SVG: classes and presentation attributes, no styles."""

from __future__ import annotations

from calc.check import Answer, Check, Named


def drawing_of(check: Check, answer: Answer) -> str:
    """The drawing that goes with an answer; empty where there is none. It holds no text that anybody typed."""
    from calc.checks.roll.backing import Backing
    from calc.checks.roll.ramp_tip import RampTip
    from calc.checks.roll.weights import Weights
    from calc.drawing.backing import plan
    from calc.drawing.footprint import from_above
    from calc.drawing.outlet_faces import industrial_face, outlet_face
    from calc.drawing.weights import two_views

    face, earth = answer.results.get("face"), answer.results.get("earth_contact")
    if isinstance(check, Backing):
        return plan(check)
    if isinstance(check, Weights):
        return two_views(check, answer)
    if isinstance(check, RampTip):
        return from_above(check, answer)
    if isinstance(face, Named):
        return outlet_face(face.text)
    if isinstance(earth, Named) and earth.text[0].isdigit():
        return industrial_face(int(earth.text.split()[0]), contacts=3)
    return ""
