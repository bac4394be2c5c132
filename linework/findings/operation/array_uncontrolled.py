"""A solar array straight on a battery, without a charge controller.

What is checked
    By day: each array, or several wired in series, whose two ends lie on those of
    a battery or a string of batteries, past all switches and fuses. The current
    of all that lie there in an hour, by their plates, against 3 % of the capacity.
Why it matters
    The array goes on charging when the battery is full. It gasses, swells or
    burns; a lithium battery cuts itself off, and the open voltage of the array
    lies on everything that hangs there.
How to cure it
    A charge controller between them. One that joins a pole through is gone round
    where another wire joins the other pole too.
Limits
    Modules whose open voltage at 25 degC is no more than the battery takes at the
    end of charging stop by themselves, and are not told. Where the capacity is not
    given nothing is judged, and it is said.
Sources
    NFPA 70 (2023) 690.72, 706.33, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.series import charged_v
from linework.findings.model import Evidence, Level, NotChecked, Outcome
from linework.findings.operation._arrays import in_series
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import STANDARD_C, at_c, short_a
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.banks import String, rows, strings
from linework.words import N_

MESSAGE = N_(
    "{arrays} lies straight on {battery}, without a charge controller: {amps} A go on when it is"
    " full, up to {volts} V; {limit} A in an hour is what {hours} Ah bear. It overcharges."
)
SMALL = N_(
    "{arrays} lies straight on {battery}, without a charge controller: {amps} A, no more than the"
    " {limit} A that {hours} Ah bear when they are full."
)
HOW_LARGE = N_(
    "{arrays} lies on {battery} without a charge controller: its capacity decides whether that"
    " overcharges it; give it on the card"
)
UNCONTROLLED_SHARE = 0.03
"""Of the capacity, in an hour, that a full battery bears (NFPA 70 690.72, from memory)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each bank that arrays lie on."""
    for look in view.settled_looks:
        yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Outcome]:
    situation = look.studies.situation
    by_ends: dict[tuple[int, int], list[String]] = {}
    for bank in strings(situation):
        by_ends.setdefault((bank.top, bank.bottom), []).append(bank)
    for ends, banks in by_ends.items():
        full_v = charged_v(situation, banks[0].cells[0], situation.conductive)
        bare = [
            row
            for row in rows(situation)
            if (row.top, row.bottom) == ends and exceeds(_open_v(view, situation, row), full_v)
        ]
        if bare:
            yield _judged(view, look, banks, bare)


def _owners(situation: Situation, string: String) -> list[str]:
    return [situation.circuit.sources[i].owner for i in string.cells]


def _open_v(view: View, situation: Situation, row: String) -> float:
    return sum(at_c(view.values(owner), STANDARD_C) for owner in _owners(situation, row))


def _judged(view: View, look: Look, banks: list[String], bare: list[String]) -> Outcome:
    situation = look.studies.situation
    every = [_owners(situation, row) for row in bare]
    cells = [_owners(situation, bank) for bank in banks]
    arrays = tuple(dict.fromkeys(owner for owners in every for owner in owners))
    batteries = frozenset(owner for owners in cells for owner in owners)
    amps = sum(max(short_a(view.values(o)) for o in owners) for owners in every)
    words = {
        "arrays": ", ".join(in_series(view, owners) for owners in every),
        "battery": view.names(batteries),
    }
    if not all(view.values(o).given("capacity") for o in batteries):
        return NotChecked(HOW_LARGE, words, arrays, look.state)
    hours = sum(min(view.values(o).num("capacity") for o in owners) for owners in cells)
    limit = UNCONTROLLED_SHARE * hours
    volts = max(_open_v(view, situation, row) for row in bare)
    figures = {"amps": f"{amps:.3g}", "volts": f"{volts:.3g}", "hours": f"{hours:g}"}
    evidence = (
        Evidence(N_("current of the array"), amps, "current"),
        Evidence(N_("borne by a full battery"), limit, "current"),
    )
    too_strong = exceeds(amps, limit)
    return look.hit(
        Level.DANGER if too_strong else Level.NOTE,
        arrays,
        MESSAGE if too_strong else SMALL,
        words | figures | {"limit": f"{limit:.2g}"},
        evidence,
        touches=batteries,
        explains=_hanging(situation, bare[0]),
    )


def _hanging(situation: Situation, row: String) -> frozenset[str]:
    """The arrays' parts and the loads between the same ends, on which their voltage lies."""
    label = situation.conductive
    on_it = {
        x.owner for _, x in situation.loads if {label[x.a], label[x.b]} == {row.top, row.bottom}
    }
    return frozenset({*on_it, *_owners(situation, row)})


RULE = Rule(
    "array-uncontrolled",
    N_("Array without a charge controller"),
    check,
    {"NA": "690.72", "INT": "712"},
)
