"""A string whose voltage on a cold morning is more than its controller or a device stands.

What is checked
    By day: the open-circuit voltage of each array, or of several that are drawn
    one by one and wired in series, at the lowest temperature against the
    largest voltage of each charge controller it reaches, of each converter or
    load straight on it that no battery of lead guards whatever one thing opens,
    and of each switch, breaker and fuse in its circuit.
Why it matters
    A module's voltage rises as it gets colder. The first clear morning frost
    destroys the controller for good; a switch cannot end the arc.
How to cure it
    Fewer modules in series, or a controller and devices for a higher voltage.
Limits
    Voc (1 + b (T - 25)) with the module's own figure b; without it the slope
    of table 690.7(A). Where the lowest temperature is not given and decides,
    nothing is judged and it is said; nor of a motor straight on the array whose
    greatest voltage is not given. Altitude and tilt are not looked at.
Sources
    NFPA 70 (2023) 690.7; IEC 60364-7-712; makers' manuals of controllers.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Load
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.operation._arrays import held_down, in_series
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import modules, open_v
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.banks import String, rows
from linework.study.wires.markings import marked_v, parts_on
from linework.wiring import Three
from linework.words import N_, say

MESSAGE = N_(
    "{array} reaches {volts} V on the coldest morning ({cold} °C); {where} stands {limit} V at the"
    " most."
)
COLD = N_(
    "the lowest temperature decides whether {array} is too high for the {limit} V of {where}: it"
    " reaches {low} to {high} V; give it on the card"
)
NO_MARK = N_("the voltage that {where} is marked for decides: {array} reaches {high} V")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each array and each part that it is too high for."""
    told: set[tuple[str, ...]] = set()
    for look in view.settled_looks:
        sources = look.studies.circuit.sources
        for string in rows(look.studies.situation):
            arrays = tuple(sources[i].owner for i in string.cells)
            for where, limit_v in _limits(view, look, string):
                if (*arrays, where) not in told:
                    told.add((*arrays, where))
                    yield from _judged(view, arrays, where, limit_v)


def _limits(view: View, look: Look, string: String) -> Iterator[tuple[str, float | None]]:
    """Each part on the arrays with the voltage that it stands; None where nothing tells."""
    situation, circuit = look.studies.situation, look.studies.circuit
    label = situation.conductive
    for load in circuit.loads:
        if (label[load.a], label[load.b]) == (string.top, string.bottom):
            declared = view.kind(load.owner).declared
            values = view.values(load.owner)
            if "pv_voltage" not in declared:
                if not held_down(view, situation, string, load):
                    yield load.owner, _most_v(view, load)
            elif values.has("pv_voltage"):
                yield load.owner, values.num("pv_voltage")
            elif not declared["pv_voltage"].needed:  # else "value missing" tells
                yield load.owner, None
    for owner in parts_on(view.design, situation, _own(situation, string)):
        yield owner, marked_v(view.design, owner, dc=True)


def _most_v(view: View, load: Load) -> float | None:
    """What a load on the array stands. Of a motor only what its plate says: from standstill on it
    draws the voltage of an array down, but for what electronics drive it nobody may guess."""
    given = view.values(load.owner).given("most_voltage")
    return load.data.works_v[1] if given or not view.kind(load.owner).turns else None


def _own(situation: Situation, string: String) -> set[int]:
    """The conductors of arrays that they do not share with a battery; the whole voltage of a string
    lies on a switch that opens anywhere in it."""
    label, sources = situation.clusters, situation.circuit.sources
    cells = [s for _, s in situation.active if s.data.group.stores]
    shared = {label[n] for s in cells for n in (s.plus, s.minus)}
    return {label[n] for i in string.cells for n in (sources[i].plus, sources[i].minus)} - shared


def _judged(
    view: View, arrays: tuple[str, ...], where: str, limit_v: float | None
) -> Iterator[Outcome]:
    volts, subjects = _open_v(view, arrays), (*arrays, where)
    words = {
        "array": in_series(view, arrays),
        "where": view.name(where),
        "low": f"{volts.low:.0f}",
        "high": f"{volts.high:.0f}",
    }
    if limit_v is None:
        yield NotChecked(NO_MARK, words, (where,))
    elif exceeds(volts.low, limit_v):
        yield _hit(view, subjects, volts, limit_v)
    elif exceeds(volts.high, limit_v):
        yield NotChecked(COLD, {**words, "limit": f"{limit_v:g}"}, subjects)


def _open_v(view: View, arrays: tuple[str, ...]) -> Three:
    each = [open_v(view.values(array)) for array in arrays]
    return Three(sum(v.low for v in each), sum(v.usual for v in each), sum(v.high for v in each))


def _hit(view: View, subjects: tuple[str, ...], volts: Three, limit_v: float) -> Hit:
    *arrays, where = subjects
    cold_c = min(view.values(array).three("coldest").low for array in arrays)
    return Hit(
        Level.DANGER,
        subjects,
        MESSAGE,
        {
            "array": in_series(view, arrays),
            "where": view.name(where),
            "volts": f"{volts.high:.0f}",
            "cold": f"{cold_c:g}",
            "limit": f"{limit_v:g}",
        },
        (
            Evidence(N_("open-circuit voltage on the coldest day"), volts.high, "voltage"),
            Evidence(N_("stands at the most"), limit_v, "voltage"),
            Evidence(N_("lowest temperature"), cold_c, "temperature"),
        ),
        mend=_mend(view, arrays[0], volts, limit_v) if len(arrays) == 1 else None,
    )


def _mend(view: View, array: str, volts: Three, limit_v: float) -> Mend | None:
    """The same modules in shorter strings of equal length; none of them is left out."""
    values = view.values(array)
    longest = int(limit_v / (volts.high / values.num("series")))
    number = int(modules(values))
    fitting = [each for each in range(longest, 0, -1) if number % each == 0]
    if not fitting:
        return None
    strings = number // fitting[0]
    title = say(
        "Wire the {number} modules of {array} as {strings} strings of {count}",
        number=number,
        array=view.name(array),
        strings=strings,
        count=fitting[0],
    )
    return change_part(title, array, {"series": str(fitting[0]), "strings": str(strings)})


RULE = Rule(
    "string-voltage-high",
    N_("String voltage too high in the cold"),
    check,
    {"NA": "690.7", "INT": "712"},
    hangs_on=("array-uncontrolled",),
    timeless=True,
)
