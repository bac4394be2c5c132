"""The ampacity of a run in words: the figure, then every step that led to it."""

from __future__ import annotations

from linework.codes import CodesError
from linework.design import Run
from linework.handover.content import Content
from linework.kinds import Values
from linework.quantity import show
from linework.study.ratings import run_ampacity


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
    steps = "; ".join(dict.fromkeys(step.what for step in worked.steps))
    return f"{show(worked.value, 'current')}: {steps}"
