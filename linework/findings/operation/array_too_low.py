"""A solar array whose voltage is too low to charge its battery.

What is checked
    By day: the voltage of each array at its greatest power, together with those
    in series with it, its cells as cool as on the plate and as hot as in bright
    sun, against the voltage at which the battery behind its controller is
    charged to the end.
Why it matters
    A controller makes a higher voltage lower, never a lower one higher: the
    battery never gets full, or gets nothing, and ages.
How to cure it
    More modules in series, or modules of a higher voltage.
Limits
    Cells are taken to be at 65 °C in bright sun. Controllers that step up are
    not known to the program. Voltage lost on the way is not taken off.
Sources
    Makers' manuals of controllers; the temperature: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.model import Conversion
from linework.circuit.series import charged_v
from linework.codes import stated
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.operation._arrays import in_series
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import STANDARD_C, working_v
from linework.study.loads.sun import Row, rows_before
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.words import N_, say

NEVER = N_(
    "{array} works at {volts} V; charging {battery} to the end takes {needed} V. {where} can only"
    " make a voltage lower: the battery never gets full."
)
HOT = N_(
    "{array} works at {volts} V while its cells are hot; charging {battery} to the end takes"
    " {needed} V. On sunny days the battery does not get full."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each array and controller, in the first state that shows it."""
    told: set[tuple[str, ...]] = set()
    for look in view.settled_looks:
        situation = look.studies.situation
        for conversion in look.studies.circuit.conversions:
            for row in rows_before(situation, conversion):
                subjects = *row.owners, conversion.owner
                if subjects not in told and _whole(situation, row, conversion):
                    hit = _judged(view, look, row.owners, conversion)
                    told.update({subjects} if hit is not None else ())
                    yield from () if hit is None else (hit,)


def _whole(situation: Situation, row: Row, conversion: Conversion) -> bool:
    """Whether the current of a row comes back to it: no switch in it is open."""
    label = situation.conductive
    return label[row.minus] == label[situation.circuit.loads[conversion.load].b]


def _judged(view: View, look: Look, arrays: tuple[str, ...], conversion: Conversion) -> Hit | None:
    values = [view.values(array) for array in arrays]
    bank = _bank(look, conversion)
    if bank is None or not all(each.has("voc") and each.has("vmp") for each in values):
        return None
    battery, needed = bank
    hot_c = stated("common", "hot_cells").value
    cool, hot = (sum(working_v(each, c) for each in values) for c in (STANDARD_C, hot_c))
    if not exceeds(needed, hot):
        return None
    never = exceeds(needed, cool)
    volts = cool if never else hot
    return Hit(
        Level.WARNING,
        (*arrays, conversion.owner),
        NEVER if never else HOT,
        {
            "array": in_series(view, arrays),
            "where": view.name(conversion.owner),
            "battery": view.name(battery),
            "volts": f"{volts:.3g}",
            "needed": f"{needed:.3g}",
        },
        (
            Evidence(N_("voltage at its greatest power"), volts, "voltage"),
            Evidence(N_("needed to charge"), needed, "voltage"),
        ),
        touches=frozenset({battery}),
        mend=_mend(view, arrays[0], needed, hot) if len(arrays) == 1 else None,
    )


def _bank(look: Look, conversion: Conversion) -> tuple[str, float] | None:
    """The battery on the output of a controller with the highest end of charging, in volt."""
    situation = look.studies.situation
    output = situation.circuit.sources[conversion.source]
    stores = [
        system
        for system in situation.feeds(output.plus)
        if situation.circuit.sources[system.source].data.group.stores
    ]
    found = [
        (charged_v(situation, system.source, situation.clusters), system.owner) for system in stores
    ]
    return max(found)[::-1] if found else None


def _mend(view: View, array: str, needed_v: float, hot_v: float) -> Mend | None:
    """As many modules in series as are enough; nothing where strings would have to be broken up."""
    values = view.values(array)
    if values.num("strings") > 1:
        return None
    count = math.ceil(values.num("series") * needed_v / hot_v)
    title = say("Put {count} modules in series in {array}", count=count, array=view.name(array))
    return change_part(title, array, {"series": str(count)})


RULE = Rule(
    "array-too-low",
    N_("Array too low to charge"),
    check,
    {"NA": "maker", "INT": "maker"},
    causes=(
        "batteries-unlike",
        "battery-turned",
    ),
)
