"""A solar array whose voltage is too low to charge its battery.

What is checked
    By day: the voltage of each array at its greatest power, its cells as cool
    as on the plate and as hot as in bright sun, against the voltage at which
    the battery behind its controller is charged to the end.
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

from linework.circuit.model import Conversion, LiveSource
from linework.circuit.series import charged_v
from linework.codes import stated
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import STANDARD_C, working_v
from linework.study.loads.sun import arrays_before
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
    told: set[tuple[str, str]] = set()
    for look in view.settled_looks:
        for conversion in look.studies.circuit.conversions:
            for array in arrays_before(look.studies.situation, conversion):
                pair = array.owner, conversion.owner
                if pair not in told:
                    hit = _judged(view, look, array, conversion)
                    told.update({pair} if hit is not None else ())
                    yield from () if hit is None else (hit,)


def _judged(view: View, look: Look, array: LiveSource, conversion: Conversion) -> Hit | None:
    values = view.values(array.owner)
    bank = _bank(look, conversion)
    if bank is None or not (values.has("voc") and values.has("vmp")):
        return None
    battery, needed = bank
    hot_c = stated("common", "hot_cells").value
    cool, hot = working_v(values, STANDARD_C), working_v(values, hot_c)
    if not exceeds(needed, hot):
        return None
    never = exceeds(needed, cool)
    volts = cool if never else hot
    return Hit(
        Level.WARNING,
        (array.owner, conversion.owner),
        NEVER if never else HOT,
        {
            "array": view.name(array.owner),
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
        mend=_mend(view, array.owner, needed, hot),
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
