"""Table rows and default figures on which the verdict rests and that nobody has confirmed."""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration
from linework.data import Confidence
from linework.design import Run
from linework.design.names import natural
from linework.findings.view import View
from linework.study.shorts.clearing import band_of
from linework.study.wires.ratings import rules_of


def unconfirmed_values(view: View) -> tuple[str, ...]:
    """Lines to print, each once: default figures from memory, then table rows and their users."""
    lines = [
        f"{item.where}: {item.rating} [{item.value}] ({item.source})"
        for item in view.assumed
        if item.confidence is Confidence.MEMORY
    ]
    users: dict[str, list[str]] = {}
    for name, row in (*_ampacities(view), *_bands(view), *_places(view)):
        users.setdefault(row, []).append(name)
    lines += [
        f"{', '.join(sorted(dict.fromkeys(names), key=natural))}: {row}"
        for row, names in sorted(users.items())
    ]
    return tuple(dict.fromkeys(lines))


def _ampacities(view: View) -> Iterator[tuple[str, str]]:
    for run in view.design.runs:
        if "size" in run.ratings and run.ratings.get("installation") != "jumper":
            yield from _steps(view, run)


def _steps(view: View, run: Run) -> Iterator[tuple[str, str]]:
    name = view.name(run.id)
    try:
        worked = view.ampacities.of_run(run)
    except (CodesError, KeyError):
        return
    for step in worked.steps:
        if step.decides and not step.figure.confirmed:
            yield name, f"{step.figure.clause}, {step.figure.row} ({step.figure.source})"


def _places(view: View) -> Iterator[tuple[str, str]]:
    """Where outlets need ground-fault protection."""
    for part in view.design.parts:
        if not view.kind(part.id).receptacle:
            continue
        values = view.values(part.id)
        try:
            made = configuration(values.text("configuration"))
            found = rules_of(view.design).ground_fault_protection(
                view.place_of(part.id), values.pick("area"), made.volts, made.amps
            )
        except CodesError:
            continue
        if not found.confirmed:
            yield part.designation, f"{found.clause} ({found.source})"


def _bands(view: View) -> Iterator[tuple[str, str]]:
    """The slow edge of each device at twice and at ten times its rating."""
    for device in view.circuit.devices if view.circuit else ():
        try:
            band = band_of(device)
        except CodesError:
            continue
        found = band.opens_by(10.0 * device.data.rating_a)
        if not found.confirmed:
            yield view.name(device.owner), f"{found.clause}, {found.row} ({found.source})"
