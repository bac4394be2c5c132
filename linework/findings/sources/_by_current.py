"""What carries more with the drawn loads on than it is made for; cords by their length too."""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.findings.model import Evidence, Hit, Level, NotChecked
from linework.findings.view import Look, View
from linework.study.answers.behind import Behind, carried_a, device_before
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.cords import cord_watts
from linework.study.slack import shows_more, within
from linework.study.wires.rated import Rated
from linework.study.wires.ratings import rules_of
from linework.words import N_

CURRENT = N_("{where} is made for {rated} A and carries {amps} A with the drawn loads on.")
CORD = N_(
    "{where} is made for {rated} A and carries {amps} A with the drawn loads on: {watts} W heat it"
    " along its length, and where it is coiled or covered they melt it."
)
LONG_CORD = N_(
    "{where} carries {amps} A with the drawn loads on; a cord of its size and length is usually"
    " marked for {rated} A. {watts} W heat it, and where it is coiled or covered they melt it."
)
ASSUMED_LESS = N_(
    "the rating of {where} is not given; the usual {rated} A would be too small for the {amps} A"
    " that it carries"
)


def by_current(view: View, look: Look, parts: list[Rated]) -> Iterator[Hit | NotChecked]:
    """One for each part that no device keeps within its rating."""
    if loaded_or_none(look.studies) is None:
        return
    told: set[str] = set()
    for rated in parts:
        amps = carried_a(look.studies, view.design, rated)
        if rated.part in told:
            continue
        if shows_more(amps, rated.amps):
            behind = device_before(look.studies.situation, rated)
            opens = isinstance(behind, Behind) and within(behind.device.data.rating_a, rated.amps)
            if not opens:  # else "device-below-load" tells that the device will
                told.add(rated.part)
                yield _carries(view, look, rated, amps)
        elif rated.kind.cord and shows_more(amps, usual := _usual_a(view, rated.part)):
            told.add(rated.part)
            yield _hit(view, look, rated, amps, usual, Level.WARNING, LONG_CORD)


def _usual_a(view: View, cord: str) -> float:
    """What makers mark on a cord of this size and length that bears no mark; infinite where nothing
    is known of it."""
    values = view.values(cord)
    if values.has("marked") or not (values.has("size") and values.has("length")):
        return float("inf")
    try:
        figure = rules_of(view.design).cord_mark(values.text("size"), values.num("length"))
    except CodesError:
        return float("inf")
    return float("inf") if figure is None else figure.value


def _carries(view: View, look: Look, rated: Rated, amps: float) -> Hit | NotChecked:
    if not rated.given:
        words = {"where": view.name(rated.part), "rated": f"{rated.amps:g}", "amps": f"{amps:.3g}"}
        return NotChecked(ASSUMED_LESS, words, (rated.part,), look.state)
    message = CORD if rated.kind.cord else CURRENT
    return _hit(view, look, rated, amps, rated.amps, Level.DANGER, message)


def _hit(
    view: View, look: Look, rated: Rated, amps: float, limit_a: float, level: Level, message: str
) -> Hit:
    watts = cord_watts(look.studies.situation, look.studies.loaded, [rated.part])[rated.part]
    figures = [
        Evidence(N_("current"), amps, "current"),
        Evidence(N_("made for"), limit_a, "current"),
    ]
    if rated.kind.cord:
        figures.append(Evidence(N_("heat along it"), watts, "power"))
    words = {
        "where": view.name(rated.part),
        "rated": f"{limit_a:g}",
        "amps": f"{amps:.3g}",
        "watts": f"{watts:.0f}",
    }
    clause = view.clause({"NA": "110.3(B)" if level is Level.DANGER else "practice"})
    return look.hit(level, (rated.part,), message, words, tuple(figures), clause=clause)
