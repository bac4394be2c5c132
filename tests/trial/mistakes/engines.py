"""Mistakes at what engines charge, at isolators and transformers, at sets side by side."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Run
from linework.design.elements import End
from linework.kinds import Answer
from tests.trial.judge.reading import amount
from tests.trial.mistakes.change import (
    Edit,
    Made,
    added,
    ends,
    gone,
    joined,
    moved_end,
    parts,
    poles_of,
    rated,
    told,
    tried,
)


def _side(run: Run, part: str) -> str:
    return "a" if run.a.part == part else "b"


def _far(run: Run, part: str) -> End:
    return run.b if run.a.part == part else run.a


def dc_charger_turned(design: Design) -> Iterator[Made]:
    """A DC-DC charger with input and output exchanged."""
    for item in parts(design, "dc_charger"):
        edits: list[Edit] = []
        place: tuple[str, ...] = (item.id,)
        for terminal, other in (("dc_in", "dc"), ("dc", "dc_in")):
            for run in design.runs_at(item.id, terminal):
                edits.append(moved_end(run, _side(run, item.id), End(item.id, other)))
                place += ends(run)
        yield from tried(design, place, *edits)


def isolator_bypassed(design: Design) -> Iterator[Made]:
    """A ground wire past a galvanic isolator, or from shore to boat past a shield."""
    sides = {"galvanic_isolator": ("shore", "boat"), "transformer": ("primary", "secondary")}
    for item in parts(design, *sides):
        if item.kind == "transformer" and told(item).word("ground") != "shield":
            continue
        one, other = (
            [_far(r, item.id) for r in design.runs_at(item.id, s)] for s in sides[item.kind]
        )
        if one and other:
            wire = {"size": "10 AWG", "length": "6 ft", "installation": "jumper"}
            ends_of = [(end.part, end.terminal) for end in (one[0], other[0])]
            new = joined(*ends_of, "W995", "PE", **wire)
            yield from tried(design, (item.id, "W995", one[0].part, other[0].part), new)


def transformer_link_removed(design: Design) -> Iterator[Made]:
    """An isolation transformer whose secondary is joined to ground nowhere."""
    for item in parts(design, "transformer"):
        if told(item).word("neutral") == "bonded":
            yield from tried(design, (item.id,), rated(item.id, neutral="floating"))


def transformer_of_a_third(design: Design) -> Iterator[Made]:
    """A transformer of a third of the power."""
    for item in parts(design, "transformer"):
        power = f"{amount(told(item).word('power')) / 3:.0f} VA"
        around = tuple(x for run in design.runs_at(item.id) for x in ends(run))
        yield from tried(design, (item.id, *around), rated(item.id, power=power))


def tabs_left_in(design: Design) -> Iterator[Made]:
    """A plain outlet, its tabs in, in the place of one that two hots feed."""
    for item in parts(design, "split_outlet"):
        runs = [run for feed in ("feed", "feed_2") for run in design.runs_at(item.id, feed)]
        edits = [moved_end(run, _side(run, item.id), End("XD97", "feed")) for run in runs]
        pattern = told(item).word("configuration")
        place = ("XD97", *(x for run in runs for x in ends(run)))
        new = added("outlet", "XD97", configuration=pattern)
        yield from tried(design, place, new, *edits, gone(item.id))


def sets_of_two_makes(design: Design) -> Iterator[Made]:
    """Two sets side by side of which one is not made for it."""
    for item in parts(design, "generator"):
        if told(item).word("parallel") == "kit":
            others = tuple(g.id for g in parts(design, "generator"))
            yield from tried(design, others, rated(item.id, parallel="no"))


def plain_y_for_a_kit(design: Design) -> Iterator[Made]:
    """Two plain sets on a box with three cords in the place of the maker's kit."""
    for kit in parts(design, "parallel_kit"):
        sets = parts(design, "generator")
        circuit: Answer = told(kit).word("circuit", "ac")
        edits: list[Edit] = [added("junction_box", "XJ97", circuit=circuit)]
        edits += [rated(g.id, parallel="no") for g in sets]
        for terminal, to in (("set1", "a"), ("set2", "b")):
            for run in design.runs_at(kit.id, terminal):
                edits.append(moved_end(run, _side(run, kit.id), End("XJ97", to)))
        for seat in design.seated_in(kit.id):
            for plug in design.seated_in(seat.part):
                for run in design.runs_at(plug.part, "cord"):
                    edits.append(moved_end(run, _side(run, plug.part), End("XJ97", "c")))
                    edits.append(gone(plug.part, seat.part))
        yield from tried(design, ("XJ97", *(g.id for g in sets)), *edits, gone(kit.id))


def battery_of_other_chemistry(design: Design) -> Iterator[Made]:
    """A battery of lithium in the place of lead, or the other way round."""
    for item in parts(design, "battery"):
        other = "agm" if told(item).word("chemistry") == "lithium" else "lithium"
        others = tuple(p.id for p in parts(design, "battery", "alternator"))
        yield from tried(design, (item.id, *others), rated(item.id, chemistry=other))


def alternator_behind_a_lever(design: Design) -> Iterator[Made]:
    """An alternator on the far side of a switch that can part it from its battery."""
    for item in parts(design, "alternator"):
        for lead in design.runs_at(item.id, "dc"):
            fuse = _far(lead, item.id).part
            if ("+", "+") not in poles_of(design, lead) or design.part(fuse).kind != "fuse":
                continue
            for line in design.runs_at(fuse, "line"):
                for switch in parts(design, "battery_selector", "battery_disconnect"):
                    there = "a" if _side(line, fuse) == "b" else "b"
                    edit = moved_end(line, there, End(switch.id, "load"))
                    yield from tried(design, (item.id, switch.id, *ends(line)), edit)


def surge_device_low(design: Design) -> Iterator[Made]:
    """A surge device for 100 V on 120 V."""
    for item in parts(design, "surge_device"):
        yield from tried(design, (item.id,), rated(item.id, continuous_voltage="100 V"))


def management_of_a_tenth(design: Design) -> Iterator[Made]:
    """A lithium battery whose management lets a tenth of the current through, out or in."""
    for item in parts(design, "battery"):
        for key in ("discharge_limit", "charge_limit"):
            if told(item).has(key):
                small = f"{amount(told(item).word(key)) / 10:g} A"
                more = {"discharge_peak": None} if key == "discharge_limit" else {}
                yield from tried(design, (item.id,), rated(item.id, **{key: small}, **more))
