"""What the solver makes of a part or run in the shown state, in sentences for the card's foot."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.quantity import show
from linework.words import N_, say

if TYPE_CHECKING:
    from linework.analysis import Analysis
    from linework.study.report import FaultReport, StateReport

_NEVER = N_("nothing ends it")
_LEAST = {"current": 1e-5, "voltage": 1e-2, "power": 1e-2, "time": 0.0}
"""Less than this is rounding of the solution, and shown as nought."""


def foot(design: Design, element_id: str, report: StateReport | None, why: str = "") -> list[str]:
    """The lines for a part or run; one line that says so, and ``why``, where nothing is known."""
    if report is None:
        return [why or say("Being worked out for this state.")]
    if not report.solved:
        return [say("Not solved in this state: {cause}", cause=report.cause)]
    element = design.get(element_id)
    if isinstance(element, Run):
        return _run(design, element, report)
    if isinstance(element, Part):
        return _part(design, element, report)
    return []


def sound_lines(analysis: Analysis | None, element_id: str) -> list[str]:
    """What is sound about a part or run in every state, each with its clause."""
    if analysis is None or analysis.partial:
        return []
    mine = (item for item in analysis.praise if element_id in item.subjects)
    lines = (
        f"{item.message} ({item.clause})" if item.clause not in ("", "practice") else item.message
        for item in mine
    )
    return list(dict.fromkeys(lines))


def told(value: float, kind: str) -> str:
    """A figure of the solution, in the base unit of its kind, as it is read on the card."""
    return show(0.0 if abs(value) < _LEAST[kind] else value, kind)


def _part(design: Design, part: Part, report: StateReport) -> list[str]:
    lines = _sources(part, report)
    taken = _loads(part, report)
    if not (lines and taken == [say("Dead in this state.")]):
        lines += taken
    if not lines:
        lines = _live(design, part, report)
    lines += _missing(part, report)
    return [*lines, *_ground(design, part.id, report), *_fault(design, part, report)]


def _sources(part: Part, report: StateReport) -> list[str]:
    lines = []
    mine = [s for s in report.sources if s.part == part.id]
    both = any(load.part == part.id for load in report.loads)
    for source in mine:
        named = f"{source.name}: " if both or len(mine) > 1 else ""
        amps, watts = told(source.amps, "current"), told(source.watts, "power")
        if source.watts < 0.0:
            watts = told(-source.watts, "power")
            lines.append(named + say("is fed {amps}, {watts}.", amps=amps, watts=watts))
        elif source.rated_a is None:
            lines.append(named + say("gives {amps}, {watts}.", amps=amps, watts=watts))
        else:
            rated = told(source.rated_a, "current")
            text = say("gives {amps} of {rated}, {watts}.", amps=amps, rated=rated, watts=watts)
            lines.append(named + text)
    return [line[:1].upper() + line[1:] for line in lines]


def _loads(part: Part, report: StateReport) -> list[str]:
    """What it takes. Where several things in it could take something, only what does."""
    mine = [load for load in report.loads if load.part == part.id]
    fed = [load for load in mine if load.sources]
    if mine and not fed:
        return [say("Dead in this state.")]
    return [
        say(
            "Takes {amps} at {volts} (made for {rated}).",
            amps=told(load.amps, "current"),
            volts=told(load.volts, "voltage"),
            rated=told(load.rated_v, "voltage"),
        )
        for load in fed
    ]


def _live(design: Design, part: Part, report: StateReport) -> list[str]:
    """What feeds its terminals, where it is neither source nor load nor there for grounding."""
    if all(terminal.role == "tie" for terminal in design.kind(part).terminals(design.values(part))):
        return []
    feeding = {
        owner for (owned, _), owners in report.live.items() if owned == part.id for owner in owners
    }
    if not feeding:
        return [say("Dead in this state.")]
    names = ", ".join(sorted((_name(design, owner) for owner in feeding), key=natural))
    return [say("Live, fed by {names}.", names=names)]


def _missing(part: Part, report: StateReport) -> list[str]:
    if part.id not in report.residual_ma:
        return []
    amps = told(report.residual_ma[part.id] / 1000.0, "current")
    return [say("Current missing on the way back through it: {amps}.", amps=amps)]


def _ground(design: Design, element_id: str, report: StateReport) -> list[str]:
    if element_id not in report.ground_a:
        return []
    amps = told(report.ground_a[element_id], "current")
    family = design.settings.family
    return [say("On its {ground_wire} or link in ordinary use: {amps}.", family=family, amps=amps)]


def _fault(design: Design, part: Part, report: StateReport) -> list[str]:
    """The fault to metal that lasts longest: what flows, what ends it, what metal carries."""
    mine = [f for f in report.faults if f.part == part.id and f.to in ("PE", "body")]
    if not mine:
        return []
    worst = max(mine, key=lambda f: (_finite(f.latest_s), _finite(f.metal_v)))
    family = design.settings.family
    return [
        say(
            "A fault from {pole} to metal here: {weak} to {strong}; {ending}; {volts} on metal.",
            family=family,
            pole=worst.pole,
            weak=_amps(worst.weak_a),
            strong=_amps(worst.strong_a),
            ending=_ending(design, worst),
            volts=_volts(worst.metal_v),
        )
    ]


def _finite(value: float | None) -> float:
    return math.inf if value is None or math.isnan(value) else value


def _amps(value: float) -> str:
    return told(value, "current") if math.isfinite(value) else say("not defined")


def _volts(value: float | None) -> str:
    if value is None or not math.isfinite(value):
        return say("volts not defined")
    return told(value, "voltage")


def _ending(design: Design, fault: FaultReport) -> str:
    if not fault.by or not math.isfinite(fault.latest_s):
        return say(_NEVER)
    latest = told(fault.latest_s, "time")
    if fault.by == "source":
        return say("the source gives up within {latest}", latest=latest)
    return say("{device} opens within {latest}", device=_name(design, fault.by), latest=latest)


def _run(design: Design, run: Run, report: StateReport) -> list[str]:
    amps = {pole: a for (owner, pole), a in report.run_a.items() if owner == run.id}
    if not amps:
        return [say("No current path in this state.")]
    listed = ", ".join(f"{pole} {told(a, 'current')}" for pole, a in amps.items())
    feeding = report.live_runs.get(run.id, ())
    names = ", ".join(sorted((_name(design, owner) for owner in feeding), key=natural))
    fed = say("Live, fed by {names}: {listed}.", names=names, listed=listed)
    lines = [fed if feeding else say("Dead in this state.")]
    drop = report.run_drop_v.get(run.id)
    if feeding and drop is not None and math.isfinite(drop):
        lines.append(say("Loses {volts} out and back.", volts=told(drop, "voltage")))
    device = report.run_device.get(run.id, "")
    if device:
        lines.append(say("Protected by {device}.", device=_name(design, device)))
    return [*lines, *_ground(design, run.id, report)]


def _name(design: Design, part_id: str) -> str:
    element = design.get(part_id)
    return element.designation if isinstance(element, Part) else part_id
