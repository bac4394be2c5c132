"""Changes that look like mistakes and, as a rule, are none. The judge decides, not this file."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design
from linework.design.edits import retitle
from tests.trial.judge.reading import amount
from tests.trial.mistakes.change import (
    Edit,
    Made,
    added,
    ends,
    joined,
    parts,
    poles_of,
    rated,
    rated_run,
    runs,
    sized,
    standard,
    told,
    tried,
)


def wire_one_thicker(design: Design) -> Iterator[Made]:
    """A wire one gauge thicker than planned."""
    for run in runs(design):
        size = sized(told(run).word("size"), 1)
        if size and told(run).word("installation") != "jumper":
            yield from tried(design, ends(run), rated_run(run.id, size=size))


def jumper_one_thicker(design: Design) -> Iterator[Made]:
    """A bonding jumper one gauge thicker."""
    for run in runs(design):
        size = sized(told(run).word("size"), 1)
        if size and told(run).word("installation") == "jumper":
            yield from tried(design, ends(run), rated_run(run.id, size=size))


def wire_of_half_the_length(design: Design) -> Iterator[Made]:
    """A shorter way."""
    for run in runs(design):
        length = f"{float(told(run).word('length').removesuffix(' ft')) / 2:g} ft"
        yield from tried(design, ends(run), rated_run(run.id, length=length))


def wire_of_better_insulation(design: Design) -> Iterator[Made]:
    """Insulation for 90 degrees where 75 would do."""
    for run in runs(design):
        if told(run).word("insulation", "75") == "75" and len(poles_of(design, run)) > 1:
            yield from tried(design, ends(run), rated_run(run.id, insulation="90"))


def device_one_down(design: Design) -> Iterator[Made]:
    """A breaker or fuse one size smaller."""
    for item in parts(design, "breaker", "fuse"):
        rating = standard(told(item).figure("rating"), -1)
        if rating:
            yield from tried(design, (item.id,), rated(item.id, rating=rating))


def device_that_breaks_more(design: Design) -> Iterator[Made]:
    """A breaker or fuse of twice the interrupting rating."""
    for item in parts(design, "breaker", "fuse"):
        if told(item).has("interrupting"):
            more = f"{2 * amount(told(item).word('interrupting')) / 1000:g} kA"
            yield from tried(design, (item.id,), rated(item.id, interrupting=more))


def second_ground_path(design: Design) -> Iterator[Made]:
    """A second jumper beside one of ground wires and bodies."""
    for run in runs(design):
        poles = poles_of(design, run)
        if len(poles) == 1 and {p for pair in poles for p in pair} <= {"PE", "body"}:
            p, q = poles[0]
            new = joined(
                (run.a.part, run.a.terminal),
                (run.b.part, run.b.terminal),
                "W997",
                f"{p}>{q}",
                size=told(run).word("size"),
                length=told(run).word("length"),
                installation="jumper",
            )
            yield from tried(design, (*ends(run), "W997"), new)


def ground_fault_added(design: Design) -> Iterator[Made]:
    """Ground-fault protection where none is asked for, on a plain load."""
    for item in parts(design, "breaker"):
        loads = {
            design.part(run.b.part).kind
            for run in design.runs_at(item.id, "load")
            if run.a.part == item.id
        }
        plain = told(item).word("ground_fault", "none") == "none"
        if plain and loads <= {"load", "lamp", "heater", "outlet"} and loads:
            yield from tried(design, (item.id,), rated(item.id, ground_fault="class_a"))


def second_rod(design: Design) -> Iterator[Made]:
    """One more rod at a board that has one."""
    for run in runs(design):
        ids = {design.part(run.a.part).kind: run.a, design.part(run.b.part).kind: run.b}
        if set(ids) == {"panel", "electrode"}:
            board = ids["panel"].part
            wire = {"size": "6 AWG", "length": "8 ft", "installation": "jumper"}
            yield from tried(
                design,
                (board, "XE98"),
                added("electrode", "XE98", resistance="25 ohm"),
                joined((board, "ground"), ("XE98", "ground"), "W996", "PE", **wire),
            )


def load_of_half_the_power(design: Design) -> Iterator[Made]:
    """A load of half the power."""
    for item in parts(design, "load", "lamp", "heater", "plug_load", "electronic_load"):
        watts = f"{amount(told(item).word('power')) / 2:g} W"
        yield from tried(design, (item.id,), rated(item.id, power=watts))


def board_of_larger_bus(design: Design) -> Iterator[Made]:
    """A board or bar of twice the rating."""
    for item in parts(design, "panel", "busbar"):
        key = "bus" if item.kind == "panel" else "rating"
        larger = f"{2 * amount(told(item).word(key, '100 A')):g} A"
        yield from tried(design, (item.id,), rated(item.id, **{key: larger}))


def switch_of_larger_rating(design: Design) -> Iterator[Made]:
    """A switch of twice the rating."""
    kinds = ("transfer_switch", "transfer_automatic", "battery_disconnect", "isolator")
    for item in parts(design, *kinds):
        rating = f"{2 * amount(told(item).word('rating', '30 A')):g} A"
        yield from tried(design, (item.id,), rated(item.id, rating=rating))


def disconnect_in_both_poles(design: Design) -> Iterator[Made]:
    """A battery disconnect that opens minus too."""
    for item in parts(design, "battery_disconnect"):
        if told(item).word("poles") == "plus" and _has_both(design, item.id):
            yield from tried(design, (item.id,), rated(item.id, poles="both"))


def _has_both(design: Design, switch: str) -> bool:
    return any(("-", "-") in poles_of(design, run) for run in design.runs_at(switch))


def other_words(design: Design) -> Iterator[Made]:
    """A part called something else."""
    for item in parts(design, "panel", "generator", "inverter", "battery"):
        yield from tried(design, (item.id,), _called(item.id, "another name"))


def _called(part_id: str, title: str) -> Edit:
    return lambda design: retitle(design, part_id, title)


def larger_set(design: Design) -> Iterator[Made]:
    """A set of a fifth more power."""
    for item in parts(design, "generator"):
        power = f"{1.2 * amount(told(item).word('power')):g} VA"
        yield from tried(design, (item.id,), rated(item.id, power=power))
