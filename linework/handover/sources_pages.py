"""Source data: what an inspector asks of sets, inverters, chargers, arrays and batteries."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from linework.design import Part
from linework.design.names import natural
from linework.handover.banks import (
    beside,
    devices_at,
    disconnects_at,
    names_of,
    string_of,
)
from linework.handover.content import Content
from linework.handover.rating_words import value_text as rating_value
from linework.handover.sheets import Room
from linework.handover.standing_in import stands_in
from linework.handover.styles import Cell, table, text, with_room
from linework.kinds import Values
from linework.kinds.solar_array import open_v, short_a
from linework.words import N_

Shown = Callable[[Content, Part, Values], str]


def source_data(content: Content, room: Room) -> list[Flowable]:
    """One small table for each type of source that there is; what nobody gave and nothing is
    assumed for has no column."""
    tables: list[Flowable] = []
    for name, wanted, columns in _TYPES:
        parts = [p for p in content.design.parts if wanted(content, p)]
        parts.sort(key=lambda part: natural(part.designation))
        if parts:
            gap = [Spacer(1, 2 * mm)] if tables else []
            tables += [*gap, _table(content, name, parts, columns, room.width)]
    if not tables:
        return []
    return [with_room(), text(content.say("Source data"), "heading", anchor="sources"), *tables]


def _table(
    content: Content,
    name: str,
    parts: Sequence[Part],
    columns: Sequence[tuple[str, Shown]],
    width: float,
) -> Flowable:
    heads = [content.say(name), *(content.say(head) for head, _ in columns)]
    rows: list[list[Cell]] = []
    for part in parts:
        string = string_of(content, part)
        if part.id != string[0]:
            continue
        values = content.design.values(part)
        row: list[Cell] = [text(names_of(content, string), "cell", link=content.link_to(part.id))]
        rows.append([*row, *(shown(content, part, values) for _, shown in columns)])
    return table(heads, rows, width)


# what a column shows


def _rating(*keys: str) -> Shown:
    """The first of some ratings that a part has; assumed ones in brackets."""

    def shown(content: Content, part: Part, values: Values) -> str:
        for key in keys:
            if key in values.declared and values.has(key):
                declared = content.design.kind(part).declared[key]
                found = rating_value(declared, values, content.family)
                plain = found.startswith("[") or not found or not stands_in(values, key)
                return found if plain else f"[{found}]"
        return ""

    return shown


def _given(key: str) -> Shown:
    """A rating only where somebody gave it."""

    def shown(content: Content, part: Part, values: Values) -> str:
        if key not in values.declared or not values.given(key):
            return ""
        return rating_value(content.design.kind(part).declared[key], values, content.family)

    return shown


def _input_a(content: Content, part: Part, values: Values) -> str:
    """What a charger takes from its input at its rating, worked out of its ratings."""
    found = [
        load.data.watts / (load.data.volts * load.data.power_factor)
        for load in content.circuit.loads
        if load.owner == part.id and load.data.hertz != 0.0 and load.data.volts
    ]
    needed = ("current", "dc_voltage", "efficiency", "power_factor", "voltage")
    if not found or any(key not in values.declared or not values.has(key) for key in needed):
        return ""
    watts = values.num("current") * values.num("dc_voltage") / values.num("efficiency")
    return f"{watts / (values.num('voltage') * values.num('power_factor')):.3g} A"


def _cold_v(content: Content, part: Part, values: Values) -> str:
    """The open voltage on the coldest day; in brackets where the coldest day, or by how much the
    voltage rises, is assumed."""
    if not values.has("voc"):
        return ""
    shown = f"{open_v(values).high:.1f} V"
    known = all(values.given(key) for key in ("coldest", "voc_per_degree"))
    return shown if known else f"[{shown}]"


def _short_a(content: Content, part: Part, values: Values) -> str:
    return f"{short_a(values):.3g} A" if values.has("isc") else ""


def _layout(content: Content, part: Part, values: Values) -> str:
    series, rows = values.num("series"), values.num("strings")
    return content.say("{series} in series × {rows}", series=f"{series:g}", rows=f"{rows:g}")


def _outlets(content: Content, part: Part, values: Values) -> str:
    """The configurations of the outlets that sit in a part, or behind breakers in it."""
    design = content.design
    waiting, found = [part], list[str]()
    while waiting:
        for seat in design.seated_in(waiting.pop().id):
            inner = design.part(seat.part)
            waiting.append(inner)
            if design.kind(inner).receptacle:
                own = design.values(inner)
                found.append(_rating("configuration")(content, inner, own) or inner.designation)
    counted = sorted(set(found), key=natural)
    return ", ".join(
        name if found.count(name) == 1 else f"{found.count(name)} × {name}" for name in counted
    )


def _bank(content: Content, part: Part, values: Values) -> str:
    return beside(content, string_of(content, part))


def _devices(content: Content, part: Part, values: Values) -> str:
    return ", ".join(
        map(content.name, devices_at(content, string_of(content, part)))
    ) or content.say("none")


def _disconnects(content: Content, part: Part, values: Values) -> str:
    return ", ".join(
        map(content.name, disconnects_at(content, string_of(content, part)))
    ) or content.say("none")


# the tables


def _off_site(content: Content, part: Part) -> bool:
    return content.design.kind(part).source.off_site


def _driven(content: Content, part: Part) -> bool:
    return content.design.kind(part).source.driven


def _inverts(content: Content, part: Part) -> bool:
    kind = content.design.kind(part)
    return bool(kind.source) and {"power", "dc_voltage"} <= kind.declared.keys()


def _charges(content: Content, part: Part) -> bool:
    return content.design.kind(part).source.charges


def _solar(content: Content, part: Part) -> bool:
    return content.design.kind(part).source.solar


def _stores(content: Content, part: Part) -> bool:
    return content.design.kind(part).source.stores


_BOTH = (
    (N_("continuous"), _rating("power")),
    (N_("surge"), _rating("surge")),
    (N_("for"), _rating("surge_time")),
    (N_("voltage"), _rating("voltage")),
)
_TYPES: tuple[tuple[str, Callable[[Content, Part], bool], tuple[tuple[str, Shown], ...]], ...] = (
    (
        N_("supply"),
        _off_site,
        (
            (N_("voltage"), _rating("voltage")),
            (N_("breaker"), _rating("breaker")),
            (N_("short circuit"), _rating("prospective")),
            (N_("X / R"), _rating("x_over_r")),
            (N_("{neutral}"), _rating("neutral")),
            (N_("outlets"), _outlets),
        ),
    ),
    (
        N_("{generator}"),
        _driven,
        (
            *_BOTH,
            (N_("fuel"), _given("fuel")),
            (N_("breaker"), _rating("breaker")),
            (N_("{neutral}"), _rating("neutral")),
            (N_("outlets"), _outlets),
        ),
    ),
    (
        N_("inverter"),
        _inverts,
        (
            *_BOTH,
            (N_("battery"), _rating("dc_voltage")),
            (N_("charges"), _rating("charge", "charge_power")),
            (N_("relay"), _rating("transfer")),
            (N_("input limit"), _rating("input_limit")),
            (N_("changes over in"), _rating("transfer_time")),
            (N_("{neutral}"), _rating("neutral")),
            (N_("through"), _rating("neutral_through")),
            (N_("outlets"), _outlets),
        ),
    ),
    (
        N_("charger"),
        _charges,
        (
            (N_("charges"), _rating("current")),
            (N_("battery"), _rating("dc_voltage")),
            (N_("input"), _rating("in_voltage", "voltage")),
            (N_("input A"), _input_a),
            (N_("array at most"), _rating("pv_voltage")),
            (N_("Isc at most"), _rating("pv_current")),
            (N_("efficiency"), _rating("efficiency")),
        ),
    ),
    (
        N_("array"),
        _solar,
        (
            (N_("modules"), _layout),
            (N_("each"), _rating("power")),
            (N_("Voc each"), _rating("voc")),
            (N_("coldest"), _rating("coldest")),
            (N_("Voc cold"), _cold_v),
            (N_("Isc"), _short_a),
            (N_("string fuse"), _rating("string_fuse")),
        ),
    ),
    (
        N_("battery"),
        _stores,
        (
            (N_("chemistry"), _rating("chemistry")),
            (N_("V"), _rating("voltage")),
            (N_("Ah"), _rating("capacity")),
            (N_("bank"), _bank),
            (N_("short circuit"), _rating("fault_current")),
            (N_("for good"), _rating("discharge_limit")),
            (N_("for a start"), _rating("discharge_peak")),
            (N_("takes"), _rating("charge_limit")),
            (N_("charged at"), _rating("charged_voltage")),
            (N_("fuse"), _devices),
            (N_("disconnect"), _disconnects),
        ),
    ),
)
"""Head of the first column, which parts, and what stands in the others."""
