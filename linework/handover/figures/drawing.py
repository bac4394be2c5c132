"""Parts with their ratings, runs and devices, as tables."""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.conductors import pole_size
from linework.circuit.model import Device
from linework.codes import CodesError
from linework.design import Part, Run, pole_map
from linework.design.names import natural
from linework.handover.circuits import (
    most_faults,
    run_amps,
    run_devices,
    run_drop,
    run_faults,
)
from linework.handover.content import Content
from linework.handover.figures.model import Cell, Column, Data, figure, joined, length, length_unit
from linework.handover.rating_words import ratings_text, value_text
from linework.kinds import RUN_RATINGS, OneOf, Rating, Values
from linework.quantity import KINDS
from linework.study.wires.ratings import run_ampacity

Row = tuple[Cell, ...]


def _parts_of(content: Content) -> list[Part]:
    return sorted(content.design.parts, key=lambda part: natural(part.designation))


def _runs_of(content: Content) -> list[Run]:
    return sorted(content.design.runs, key=lambda run: natural(content.name(run.id)))


def parts(content: Content) -> Data:
    """Every part of the design."""
    say, design = content.say, content.design
    columns = tuple(
        Column(title)
        for title in (say("part"), say("title"), say("kind"), say("sheet"), say("ratings"))
    )
    rows = tuple(
        (
            part.designation,
            part.title,
            say(design.kind(part).name),
            part.sheet,
            ratings_text(design.kind(part), design.values(part), content.family),
        )
        for part in _parts_of(content)
    )
    return Data("parts", say("Parts"), columns, rows)


def ratings(content: Content) -> Data:
    """Every rating of every part, a line each: as a number where it is one."""
    say = content.say
    titles = (
        say("part"),
        say("rating"),
        say("lowest"),
        say("usual"),
        say("highest"),
        say("unit"),
        say("in words"),
        say("assumed"),
    )
    rows = tuple(row for part in _parts_of(content) for row in _ratings(content, part))
    return Data("ratings", say("Ratings"), tuple(map(Column, titles)), rows)


def _ratings(content: Content, part: Part) -> Iterator[Row]:
    values = content.design.values(part)
    for rating in content.design.kind(part).ratings:
        words = value_text(rating, values, content.family)
        if words:
            assumed = content.say("yes") if words.startswith("[") else content.say("no")
            label = content.say(rating.label).rstrip("?")
            told = words.strip("[]") if assumed == content.say("yes") else words
            yield (part.designation, label, *_numbers(rating, values), told, assumed)


def _numbers(rating: Rating, values: Values) -> tuple[Cell, Cell, Cell, Cell]:
    """Lowest, usual, highest and the unit; nothing for what is no quantity."""
    answer = values.answer(rating.key)
    if rating.quantity not in KINDS or rating.choices or isinstance(answer, OneOf):
        return None, None, None, ""
    three = values.three(rating.key)
    return figure(three.low), figure(three.usual), figure(three.high), KINDS[rating.quantity].unit


def runs(content: Content) -> Data:
    """Every run: ends, conductors, what it may carry, what it carries, what a short drives."""
    say = content.say
    columns = (
        Column(say("run")),
        Column(say("from part")),
        Column(say("from terminal")),
        Column(say("to part")),
        Column(say("to terminal")),
        Column(say("conductors")),
        Column(say("sizes")),
        Column(say("metal")),
        Column(say("laid")),
        Column(say("length"), length_unit(content)),
        Column(say("ampacity"), "A"),
        Column(say("most in use"), "A"),
        Column(say("drop"), "V"),
        Column(say("least fault current"), "A"),
        Column(say("most fault current"), "A"),
        Column(say("devices")),
        Column(say("remark")),
    )
    rows = tuple(_run(content, run) for run in _runs_of(content))
    return Data("runs", say("Runs"), columns, rows)


def _run(content: Content, run: Run) -> Row:
    values, name = content.design.run_values(run), content.name
    poles = pole_map(content.design, run)
    sizes = dict.fromkeys(pole_size(values, pole) for pole, _ in poles)
    ampacity, remark = _ampacity(content, run, values)
    span = run_faults(content, run) or (None, None)
    return (
        name(run.id),
        name(run.a.part),
        run.a.terminal,
        name(run.b.part),
        run.b.terminal,
        len(poles),
        joined(filter(None, sizes)),
        _picked(content, values, "material"),
        _picked(content, values, "installation"),
        length(content, values.num("length") if values.has("length") else None),
        ampacity,
        figure(run_amps(content, run)),
        figure(run_drop(content, run)),
        *map(figure, span),
        joined(run_devices(content, run)),
        remark,
    )


def _picked(content: Content, values: Values, key: str) -> str:
    word = values.pick(key)
    label = next(c.label for c in RUN_RATINGS[key].choices if c.value == word)
    return content.say(label)


def _ampacity(content: Content, run: Run, values: Values) -> tuple[float | None, str]:
    """The figure, or why there is none; a figure from memory is marked."""
    if not values.has("size"):
        return None, content.say("not checked: no size")
    if values.pick("installation") == "jumper":
        return None, content.say("carries no load current in use")
    try:
        worked = run_ampacity(content.design, run)
    except CodesError as fault:
        return None, content.say("not checked: {fault}", fault=fault)
    sure = "" if worked.confirmed else content.say("the ampacity rests on figures from memory")
    return figure(worked.value), sure


def devices(content: Content) -> Data:
    """Every device that opens by too much current or by current to ground."""
    say = content.say
    columns = (
        Column(say("part")),
        Column(say("title")),
        Column(say("kind")),
        Column(say("rating"), "A"),
        Column(say("conductors opened")),
        Column(say("trips at once from"), "A"),
        Column(say("interrupting rating"), "A"),
        Column(say("interrupting rating assumed")),
        Column(say("most fault current at it"), "A"),
        Column(say("trips on ground current from"), "mA"),
        Column(say("trips on ground current at"), "mA"),
    )
    circuit, most = content.circuit, most_faults(content)
    over = [(d.owner, _overcurrent(content, d, most)) for d in circuit.devices]
    ground = [
        (
            s.owner,
            (
                *_named(content, s.owner),
                None,
                len(s.data.opens),
                *(None, None, "", None),
                figure(s.data.trip_ma.low),
                figure(s.data.trip_ma.high),
            ),
        )
        for s in circuit.sensors
    ]
    rows = sorted((*over, *ground), key=lambda item: natural(content.name(item[0])))
    return Data("devices", say("Devices"), columns, tuple(row for _, row in rows))


def _named(content: Content, owner: str) -> tuple[str, str, str]:
    part = content.design.part(owner)
    return part.designation, part.title, content.say(content.design.kind(part).name)


def _overcurrent(content: Content, device: Device, most: dict[str, float]) -> Row:
    """Of a site's own breaker only the rating is ours to tell."""
    data, say = device.data, content.say
    named = (*_named(content, device.owner), figure(data.rating_a))
    if content.design.kind(content.design.part(device.owner)).source.off_site:
        return (*named, None, None, None, "", None, None, None)
    return (
        *named,
        len(data.contacts),
        figure(data.magnetic_a.usual) if data.magnetic_a else None,
        figure(data.interrupting_a),
        say("no") if data.interrupting_given else say("yes"),
        figure(most.get(device.owner)),
        None,
        None,
    )
