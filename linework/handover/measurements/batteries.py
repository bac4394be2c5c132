"""What charges, what stores, what shines: currents and voltages of direct-current sources."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.charged_banks import Bank, banks
from linework.handover.content import Content
from linework.handover.devices import in_use
from linework.handover.locking import circuits_of, order_of
from linework.handover.measurements.line import Block, Bounds, Measurement, basis, chosen, names
from linework.handover.measurements.outlets import VOLTS_SHARE, about
from linework.kinds.solar_array import STANDARD_C, at_c
from linework.study.lockout import Sort
from linework.study.report import StateReport
from linework.words import N_

BATTERY = {"NA": "706.15, 480.7", "INT": "551"}
SUN = {"NA": "IEC 62446-1", "INT": "IEC 62446-1"}
RAPID = {"NA": "690.12"}
"""What asks for them; from memory."""

_MOST_FIELDS = 3
_LEFT_V, _LEFT_S = 30.0, 30.0
"""What may be left outside the array half a minute after its rapid shutdown (NFPA 70 690.12(B)(1),
from memory)."""


def chargers(content: Content) -> Iterator[Measurement]:
    """What each charger gives into a store that is not full, and the voltage at which it ends."""
    say = content.say
    most: dict[str, float] = {}
    drawn: dict[str, float] = {}
    for s in (s for r in content.reports for s in r.sources):
        if s.hertz == 0.0 and _charges(content, s.part, s.name):
            most[s.part] = max(most.get(s.part, 0.0), s.rated_a or s.amps)
            drawn[s.part] = max(drawn.get(s.part, 0.0), s.amps)
    for part in sorted(most, key=lambda p: natural(content.name(p))):
        fed: dict[float, list[str]] = {}
        for bank in banks(content):
            if bank.fed_by(content, part):
                fed.setdefault(bank.charged_v, []).extend(bank.owners)
        for volts, owners in fed.items():
            yield Measurement(
                f"charge:{part}:{owners[0]}",
                Block.LIVE,
                say(
                    "{charger} into {bank}, half empty: amps; volts at the end",
                    charger=content.name(part),
                    bank=names(content, owners),
                ),
                _stages(content, drawn[part], most[part]),
                say(
                    "up to {amps} / {volts}",
                    amps=value_text(most[part], "current"),
                    volts=value_text(volts, "voltage"),
                ),
                say("never above [p]"),
                say("A, V"),
                ((None, most[part] * (1 + VOLTS_SHARE)), (None, volts * 1.01)),
            )


def _stages(content: Content, drawn_a: float, most_a: float) -> str:
    """And what is to be expected of what is drawn before it, where that is less than its most."""
    manuals = content.say("stages, float and what cold forbids: by both manuals")
    if not _IDLE_A < drawn_a < _LESS * most_a:
        return manuals
    amps = value_text(drawn_a, "current")
    return content.say("as drawn {amps}; {rest}", amps=amps, rest=manuals)


_LESS = 0.9
"""Of its rating; above that the rating tells enough."""


def _charges(content: Content, part: str, name: str) -> bool:
    circuit = circuits_of(content.design, content.design.revision)[0]
    return any(
        s.data.group.charges for s in circuit.sources if s.owner == part and s.data.name == name
    )


def batteries(content: Content) -> Iterator[Measurement]:
    """Each switch that parts a store, opened under load."""
    say = content.say
    for step in order_of(content).steps:
        part = content.design.part(step.means.part)
        kind = content.design.kind(part)
        if step.means.sort is not Sort.STORE or kind.melts or kind.board or not step.needed:
            continue
        behind = [bank for bank in banks(content) if bank.reaches(content, part.id)]
        if not behind:
            continue
        yield Measurement(
            f"part:{part.id}",
            Block.LIVE,
            say(
                "{part} opened with all drawn loads on ({amps}): volts behind it",
                part=part.designation,
                amps=value_text(in_use(content, part.id, _giving(content, behind)), "current"),
            ),
            say("chargers off first; then cut-out on low voltage, alarms, cells: by its manual"),
            say("0 V, and no arc left"),
            "",
            "V",
            ((None, 1.0),),
            basis(content, BATTERY, part),
        )


def _giving(content: Content, stores: Iterable[Bank]) -> list[StateReport]:
    """The states in which no battery of some banks is charged."""
    owners = {owner for bank in stores for owner in bank.owners}
    return [
        r
        for r in content.reports
        if not any(s.part in owners and s.watts < 0.0 and s.amps > _IDLE_A for s in r.sources)
    ]


_IDLE_A = 0.1


# sun


def suns(content: Content) -> Iterator[Measurement]:
    """Each array: its strings one by one, their current, what is left after a shutdown."""
    design = content.design
    arrays = chosen(content, lambda part: design.kind(part).source.solar)
    for array in arrays:
        values = design.values(array)
        if "voc" in values.declared and values.has("voc") and values.has("isc"):
            yield _open(content, array)
            yield _short(content, array)
    asked = [array for array in arrays if basis(content, RAPID, array)]
    if asked:
        yield _shutdown(content, asked)


def _fields(content: Content, array: Part, bounds: Bounds) -> tuple[Bounds, ...]:
    """A field for each string, as far as there is room."""
    number = round(content.design.values(array).num("strings"))
    return (bounds,) * min(max(number, 1), _MOST_FIELDS)


def _strings(content: Content, array: Part) -> str:
    number = round(content.design.values(array).num("strings"))
    return content.say("each of {count} strings", count=number) if number > 1 else ""


def _open(content: Content, array: Part) -> Measurement:
    say = content.say
    values = content.design.values(array)
    volts = at_c(values, STANDARD_C)
    slope = at_c(values, STANDARD_C + 1.0) - volts
    more = _strings(content, array)
    return Measurement(
        f"open:{array.id}",
        Block.LIVE,
        say("{part}: open string, plus to minus, clear sun above 600 W/m²", part=array.designation),
        ", ".join(
            filter(
                None,
                (more, say("for each °C of its cells above 25: {volts} V", volts=f"{slope:+.2f}")),
            )
        ),
        say("{volts} V at 25 °C", volts=f"{volts:.1f}"),
        say("±{percent} %", percent=round(100 * VOLTS_SHARE)),
        "V",
        _fields(content, array, about(volts)),
        basis(content, SUN, array),
    )


def _short(content: Content, array: Part) -> Measurement:
    say = content.say
    amps = content.design.values(array).num("isc")
    return Measurement(
        f"short:{array.id}",
        Block.LIVE,
        say("{part}: string shorted by an instrument made for it", part=array.designation),
        say("reading x 1000 / (W/m² in the plane of the array)"),
        say("{amps} at 1000 W/m²", amps=value_text(amps, "current")),
        say("±{percent} %", percent=round(100 * VOLTS_SHARE)),
        "A",
        _fields(content, array, about(amps)),
        basis(content, SUN, array),
    )


def _shutdown(content: Content, arrays: list[Part]) -> Measurement:
    say = content.say
    return Measurement(
        "shutdown",
        Block.LIVE,
        say(
            "Rapid shutdown of {parts}: leads outside the array after {seconds} s",
            parts=names(content, (array.id for array in arrays)),
            seconds=f"{_LEFT_S:g}",
        ),
        say(_NOT_DRAWN),
        say("below {volts} V", volts=f"{_LEFT_V:g}"),
        "",
        "V",
        ((None, _LEFT_V),),
        basis(content, RAPID, arrays[0]),
    )


_NOT_DRAWN = N_("of arrays on a building; how it is done the drawing does not tell")
