"""A solar array that can drive more current into its controller than that stands.

What is checked
    By day: the short-circuit current of all arrays on a charge controller
    against the largest that its manual allows; for one that joins array and
    battery (PWM), 125 % of it against the output current as well.
Why it matters
    A controller of that kind carries whatever the array gives; any kind is
    damaged when its battery or array is joined the wrong way round.
How to cure it
    A larger controller, or fewer strings in parallel.
Limits
    More power than an MPPT controller can use is only lost, and not told.
    Where the manual's figure is not given and decides, nothing is judged and
    it is said. An array on a battery without a controller has a rule of its own.
Sources
    Makers' manuals of controllers; NFPA 70 (2023) 690.8(A)(1), 690.9.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds import Values
from linework.kinds.solar_array import BRIGHT, short_a
from linework.study.loads.sun import rows_before
from linework.study.slack import exceeds
from linework.words import N_

ARRAY = N_("{arrays} can drive {amps} A into {where}, which stands {limit} A of a shorted array.")
OUTPUT = N_(
    "{arrays} gives up to {amps} A in bright sun and {where} passes it on to the battery; it is"
    " rated {limit} A."
)
MANUAL = N_(
    "{arrays} can drive {amps} A into {where}: give the largest short-circuit current that its"
    " manual allows"
)
NO_MARK = N_(
    "the short-circuit current that the input of {where} stands decides: {arrays} gives {amps} A in"
    " a short; it is on its plate or beside the socket"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each controller, with all arrays that some state puts on it."""
    arrays: dict[str, set[tuple[str, ...]]] = {}
    for look in view.settled_looks:
        for conversion in look.studies.circuit.conversions:
            if "pv_current" in view.kind(conversion.owner).declared:
                found = {row.owners for row in rows_before(look.studies.situation, conversion)}
                arrays.setdefault(conversion.owner, set()).update(found)
    for owner, rows in sorted(arrays.items()):
        yield from _judged(view, owner, rows)


def _judged(view: View, owner: str, rows: Collection[tuple[str, ...]]) -> Iterator[Outcome]:
    """``rows``: arrays in series drive the current of the strongest, past the others by their
    bypass diodes; of a row that a switch parts, what is left of it counts once with it."""
    values = view.values(owner)
    names = tuple(sorted({name for row in rows for name in row}))
    by_first = {row[0]: row for row in sorted(rows, key=len)}
    amps = sum(max(short_a(view.values(n)) for n in row) for row in by_first.values())
    if not values.has("pv_current"):
        if "current" not in values.declared and names:  # else "value missing" tells
            yield NotChecked(NO_MARK, _words(view, owner, names, amps, 0.0), (owner,))
        return
    bright, rated, limit = BRIGHT * amps, _output_a(values), values.num("pv_current")
    if rated is not None and exceeds(bright, rated):
        yield _hit(view, owner, names, OUTPUT, bright, rated)
    elif exceeds(amps, limit):
        if values.given("pv_current"):
            yield _hit(view, owner, names, ARRAY, amps, limit)
        else:
            yield NotChecked(MANUAL, _words(view, owner, names, amps, limit), (owner,))


def _output_a(values: Values) -> float | None:
    """What it gives at the most where the current of the array goes through it as it is."""
    joins = "type" in values.declared and values.pick("type") == "pwm"
    return values.opt("current") if joins else None


def _words(
    view: View, owner: str, arrays: tuple[str, ...], amps: float, limit: float
) -> dict[str, str]:
    return {
        "arrays": ", ".join(view.name(array) for array in arrays),
        "where": view.name(owner),
        "amps": f"{amps:.3g}",
        "limit": f"{limit:g}",
    }


def _hit(
    view: View, owner: str, arrays: tuple[str, ...], message: str, amps: float, limit: float
) -> Hit:
    evidence = (
        Evidence(N_("current of the array"), amps, "current"),
        Evidence(N_("stands at the most"), limit, "current"),
    )
    words = _words(view, owner, arrays, amps, limit)
    return Hit(Level.WARNING, (owner,), message, words, evidence, touches=frozenset(arrays))


RULE = Rule(
    "controller-overcurrent",
    N_("Array too strong for its controller"),
    check,
    {"NA": "690.8, 690.9", "INT": "712"},
)
