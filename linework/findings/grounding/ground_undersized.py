"""A ground wire or bonding jumper that is too thin.

What is checked
    The ground wire of each live run against the table by the largest device
    that is ahead of it in any state, grown with the live conductors where
    these are thicker than need be, or without one by what its source holds; a
    ground wire on its own, where some metal has no other way back; in every
    fault to metal, whether it is burnt before the fault is ended. Jumpers to
    the chassis of a vehicle: 8 AWG at least, and from the minus of a battery,
    wherever on it they start, not below its ungrounded lead. Afloat: from a
    minus or the case of what runs on direct current, one size under its plus
    at the least; from the ground bar of a board to the boat's metal, the
    ground wire for the largest device before that board. Conductors to the
    electrodes of a building, by the thickest live conductor.
Why it matters
    It must carry the whole fault current until the device opens. If it burns
    off before, the metal stays live.
How to cure it
    A thicker ground wire, or a smaller device.
Limits
    A ground wire as thick as the live conductors of its run is never below the
    table (250.122(A)). Conductors that are no thicker than a load as large as the
    device asks for may not have grown: that is a note. Cords have ground wires by
    the same table. Electrodes are taken for rods, plates or pipes, which never
    ask for more than 6 AWG copper. What devices let through is not in the tables:
    their fast edge counts, so that what is told as burnt burns for certain; the
    maker's figures may show more.
Sources
    NFPA 70 (2023) 250.122, table 250.122, 250.4(A)(5), 250.66, 551.56(C),
    552.10(C)(4); ABYC E-11; IEC 60949; IEC 60364-5-54 543.1.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError, GroundNeed, area_mm2, size_not_below, size_of
from linework.design import PlaceKind, Run, pole_map
from linework.findings.grounding._at_sources import at_sources
from linework.findings.grounding._jumpers import areas, jumpers
from linework.findings.mending import change_run, resize
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.scorched import Scorched, scorched
from linework.study.neutral.grounds import lone_ground_wires
from linework.study.ways.protection import smallest
from linework.study.wires.ratings import kind_of_device, rules_of
from linework.wiring import Pole
from linework.words import N_, say

BY_TABLE = N_(
    "The {ground_wire} of {run} is {size}; behind {device} of {rating} A it must be {need} at"
    " least."
)
GROWN = N_(
    "The {ground_wire} of {run} is {size}. The other conductors are thicker than {device} of"
    " {rating} A asks for, and it must grow with them: {need} at least."
)
IF_GROWN = N_(
    "The {ground_wire} of {run} is {size}. The other conductors are thicker than need be if its"
    " load takes less than {device} of {rating} A lets through; then it must grow with them: {need}"
    " at least."
)
ALONE = N_(
    "{run} is {size} and the only way back for faults at {metal}; behind {device} of {rating} A it"
    " must be {need} at least."
)
ROD = N_("{run}, {size}, leads to {electrode}: it must be {need} at least.")
BURNS = N_(
    "The {ground_wire} of {run}, {size}, is burnt by a fault at {where}: {amps} A flow through it"
    " for {seconds} s; it would have to be {need}."
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run and reason."""
    try:
        yield from [*jumpers(view), *_rods(view)]
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault})
    largest = _largest(view)
    for look in view.settled_looks:
        yield from _by_table(view, look, largest)
        yield from at_sources(view, look, largest)
        yield from _alone(view, look)
        for item in scorched(look.studies, view.design):
            if item.protective:
                yield _burns(view, look, item)


@dataclass(frozen=True)
class _Asked:
    """A ground wire, the device ahead of it, and what it must be."""

    run: Run
    size: str
    device: Device
    need: GroundNeed


def _by_table(view: View, look: Look, largest: Mapping[str, float]) -> Iterator[Outcome]:
    """Ground wires thinner than the conductors that they go with; where several sources feed a
    run, by the largest device of all states, with which its conductors grew."""
    for run_id, device in _ahead(view, look).items():
        run = view.run(run_id)
        wired = run is not None and any(p is Pole.PE for p, _ in pole_map(view.design, run))
        if run is not None and wired and device.data.rating_a >= largest[run_id]:
            yield from _judged(view, look, run, device)


def _ahead(view: View, look: Look) -> dict[str, Device]:
    """Run with a ground wire of a known size -> the largest device ahead of it in a state."""
    ahead: dict[str, Device] = {}
    for feed in look.studies.feeds:
        device = smallest(look.studies.situation, feed)
        if device is not None and view.run_values(feed.run).has("ground_size"):
            before = ahead.get(feed.run)
            if before is None or device.data.rating_a > before.data.rating_a:
                ahead[feed.run] = device
    return ahead


def _largest(view: View) -> dict[str, float]:
    """The same by rating in ampere, over all states."""
    found: dict[str, float] = {}
    for look in view.settled_looks:
        for run, device in _ahead(view, look).items():
            found[run] = max(found.get(run, 0.0), device.data.rating_a)
    return found


def _judged(view: View, look: Look, run: Run, device: Device) -> Iterator[Outcome]:
    rating, kind = device.data.rating_a, kind_of_device(device.data.curve)
    values = view.run_values(run.id)
    if not values.has("size"):
        return
    try:
        need = view.ampacities.ground_wire(run, rating, kind)
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
        return
    size = values.text("ground_size")
    if need.met_by(size):
        return
    grown = any(step.effect == "times" and step.decides for step in need.steps)
    if grown and _made_for_main(view, run, rating, size):
        return
    loaded = view.ampacities.ground_wire(run, rating, kind, True).met_by(size)
    message = IF_GROWN if grown and loaded else GROWN if grown else BY_TABLE
    yield _table_hit(view, look, _Asked(run, size, device, need), message, "ground_size")


def _made_for_main(view: View, run: Run, rating: float, size: str) -> bool:
    """Whether the conductors are no thicker than the main asks for of a board at which they end,
    and the ground wire is as thick as that asks for: a coach made for 50 A on a park's 30 A."""
    for end in (run.a, run.b):
        values = view.values(end.part)
        if "main" in values.declared and values.has("main") and values.num("main") > rating:
            try:
                need = view.ampacities.ground_wire(run, values.num("main"), "breaker")
            except CodesError:
                continue
            if need.met_by(size):
                return True
    return False


def _alone(view: View, look: Look) -> Iterator[Outcome]:
    """Runs of nothing but a ground wire, where metal hangs on them."""
    for wire in lone_ground_wires(look.studies.situation):
        run = view.run(wire.run)
        if run is None or not view.run_values(run.id).has("size"):
            continue
        device = look.studies.circuit.devices[wire.device]
        size = view.run_values(run.id).text("size")
        metal = view.run_values(run.id).pick("material")
        try:
            # the conductors that it goes with lie elsewhere: what they grew by is not known
            need = rules_of(view.design).ground_wire(
                device.data.rating_a,
                _thickest(view, wire.live_runs) or size,
                material=metal,
                circuit_material=metal,
            )
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
            continue
        if not need.met_by(size):
            asked = _Asked(run, size, device, need)
            yield _table_hit(view, look, asked, ALONE, "size", wire.parts)


def _thickest(view: View, runs: tuple[str, ...]) -> str:
    sizes = [view.run_values(r).text("size") for r in runs if view.run_values(r).has("size")]
    return max(sizes, key=lambda text: size_of(text).cmil, default="")


def _table_hit(
    view: View,
    look: Look,
    asked: _Asked,
    message: str,
    rating: str,
    metal: tuple[str, ...] = (),
) -> Hit:
    run, device, need = asked.run, asked.device, asked.need
    return look.hit(
        Level.NOTE if message is IF_GROWN else Level.WARNING,
        (run.id,),
        message,
        {
            "run": view.name(run.id),
            "size": asked.size,
            "device": view.name(device.owner),
            "rating": f"{device.data.rating_a:g}",
            "need": need.size,
            "metal": ", ".join(view.name(p) for p in metal),
        },
        (
            Evidence(N_("device ahead"), device.data.rating_a, "current"),
            *areas(asked.size, area_mm2(need.size)),
        ),
        touches=frozenset({device.owner}),
        mend=_mend(view, run, {rating: need.size}),
        clause=need.clause.removeprefix(f"{rules_of(view.design).title} "),
    )


def _mend(view: View, run: Run, answers: dict[str, str]) -> Mend | None:
    (key, size), *_ = answers.items()
    if key == "size":
        return resize(view, run.id, size)
    title = say(
        "Make the {ground_wire} of {what} {size}",
        family=view.family,
        what=view.name(run.id),
        size=size,
    )
    return change_run(title, run.id, answers)


# conductors to electrodes


def _rods(view: View) -> Iterator[Outcome]:
    """In a building; elsewhere an electrode is an addition that no size is asked of (250.54)."""
    thickest = _thickest_live(view)
    if thickest is None:
        return
    for run in sorted(view.design.runs, key=lambda r: r.id):
        ends = [part for part in map(view.part, (run.a.part, run.b.part)) if part is not None]
        rods = [part.id for part in ends if view.kind(part.id).electrode]
        rods = [rod for rod in rods if view.place_of(rod) is PlaceKind.BUILDING]
        if rods and view.run_values(run.id).has("size"):
            yield from _to_rod(view, run, rods[0], thickest)


def _thickest_live(view: View) -> tuple[str, str] | None:
    """Size and material of the thickest conductor of alternating current that is live in a building
    in some state."""
    live = {f.run for look in view.settled_looks for f in look.studies.feeds if f.system.is_ac}
    runs = [run for run in map(view.run, sorted(live)) if run is not None]
    here = [run.id for run in runs if view.place_of_run(run) is PlaceKind.BUILDING]
    found = [values for values in map(view.run_values, here) if values.has("size")]
    worst = max(found, key=lambda v: size_of(v.text("size")).cmil, default=None)
    return None if worst is None else (worst.text("size"), worst.pick("material"))


def _to_rod(view: View, run: Run, rod: str, thickest: tuple[str, str]) -> Iterator[Outcome]:
    values = view.run_values(run.id)
    size, metal = values.text("size"), values.pick("material")
    try:
        need = rules_of(view.design).electrode_conductor(*thickest, own_material=metal, to_rod=True)
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
        return
    if size_of(size).cmil < size_of(need.value).cmil:
        yield Hit(
            Level.WARNING,
            (run.id,),
            ROD,
            {
                "run": view.name(run.id),
                "size": size,
                "electrode": view.name(rod),
                "need": need.value,
            },
            areas(size, area_mm2(need.value)),
            mend=_mend(view, run, {"size": need.value}),
            clause=need.clause.removeprefix(f"{rules_of(view.design).title} "),
        )


# heat


def _burns(view: View, look: Look, item: Scorched) -> Hit:
    burnt, run = item.burnt, view.run(item.run)
    values = view.run_values(item.run)
    own = "ground_size" if values.has("ground_size") else "size"
    size, need = values.text(own), _size_of_area(burnt.least_mm2)
    point = item.shock.fault.point
    return look.hit(
        Level.WARNING,
        (item.run,),
        BURNS,
        {
            "run": view.name(item.run),
            "size": size,
            "where": view.name(point.part),
            "amps": f"{burnt.current_a:.3g}",
            "seconds": f"{burnt.time_s:.2g}",
            "need": need or f"{burnt.least_mm2:.3g} mm2",
        },
        (
            Evidence(N_("current in it"), burnt.current_a, "current"),
            Evidence(N_("lasts"), burnt.time_s, "time"),
            *areas(size, burnt.least_mm2),
        ),
        touches=frozenset({point.part}),
        mend=_mend(view, run, {own: need}) if run is not None and need else None,
        clause=view.clause({"NA": "250.4(A)(5), 250.122", "INT": "543.1.2"}),
    )


def _size_of_area(mm2: float) -> str | None:
    """The thinnest American size of at least this area, None beyond the tables."""
    try:
        return size_not_below(size_of(f"{mm2:.4f} mm2").cmil)
    except CodesError:
        return None


RULE = Rule(
    "ground-undersized",
    N_("{Ground_wire} or bonding jumper too thin"),
    check,
    {"NA": "250.122, 551.56(C)", "INT": "543.1"},
    causes=("fault-not-cleared", "device-above-ampacity"),
)
