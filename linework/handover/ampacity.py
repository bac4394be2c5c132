"""The ampacity of a run in words: the figure, then every step that led to it."""

from __future__ import annotations

from linework.codes import CodesError, Step
from linework.design import Run
from linework.handover.content import Content
from linework.kinds import Values
from linework.quantity import show
from linework.study.wires.ratings import run_ampacity


def ampacity_text(content: Content, run: Run, values: Values) -> str:
    """ "20 A: table 310.16 ..., ambient x 1.0". What no table has is said."""
    if not values.has("size"):
        return content.say("not checked: no size")
    if values.pick("installation") == "jumper":
        return content.say("carries no load current in use")
    try:
        worked = run_ampacity(content.design, run)
    except CodesError as fault:
        return content.say("not checked: {fault}", fault=fault)
    steps = "; ".join(dict.fromkeys(_step_text(step) for step in worked.steps))
    mark = "" if worked.confirmed else " *"
    return f"{show(worked.value, 'current')}{mark}: {steps}"


def _step_text(step: Step) -> str:
    """ "Ambient temperature x 0.94", "Table value 35 A", "Terminals at most 30 A"."""
    figure = f"{step.figure.value:.3g}"
    if step.effect == "times":
        return f"{step.what} × {figure}"
    if step.effect in ("at most", "at least"):
        return (
            f"{step.what} ≤ {figure} A" if step.effect == "at most" else f"{step.what} ≥ {figure} A"
        )
    return f"{step.what} {figure} A"
