"""Jumpers from a minus, a case or a board to metal, by their size."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError, area_mm2, size_of
from linework.design import Run, pole_map
from linework.findings.mending import resize
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.view import View
from linework.study.ways.banks import strings
from linework.study.ways.protection import smallest
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_protective
from linework.words import N_

BODY = N_("{run}, {size}, bonds the metal of a vehicle: {need} copper at least.")
LEAD = N_(
    "{run}, {size}, joins the minus of {part} to metal: it must be {need} at least, by the"
    " battery's other lead."
)
CASE = N_(
    "{run}, {size}, grounds the case of {part}: it must be {need} at least, by the plus that can"
    " touch that case."
)
BOARD = N_(
    "{run}, {size}, joins the {ground} of {part} to the metal of the boat: {need} at least, as"
    " behind {device} of {rating} A a {ground_wire} must be."
)
NO_TABLE = N_("{fault}")
COPPER = N_("the least size of a bonding jumper is known for copper only")


@dataclass(frozen=True)
class _Need:
    """What a jumper must be at least, and the text that says so of the part in it."""

    size: str
    message: str
    clause: str
    part: str = ""
    words: tuple[tuple[str, str], ...] = ()


def jumpers(view: View) -> Iterator[Outcome]:
    """One hit for each that is too thin, whatever the state."""
    for run in sorted(view.design.runs, key=lambda r: r.id):
        place = view.place_of_run(run)
        if not place.aboard or not view.run_values(run.id).has("size"):
            continue
        try:
            needs = list(_on_wheels(view, run) if place.on_wheels else _afloat(view, run))
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
            continue
        if needs and view.run_values(run.id).pick("material") != "copper":
            yield NotChecked(COPPER, {}, (run.id,))
            continue
        size = size_of(view.run_values(run.id).text("size"))
        yield from (_hit(view, run, n) for n in needs if size.cmil < size_of(n.size).cmil)


def areas(size: str, need_mm2: float) -> tuple[Evidence, Evidence]:
    """What a ground wire has, and what it needs."""
    return (
        Evidence(N_("{ground_wire}"), area_mm2(size), "area"),
        Evidence(N_("needed"), need_mm2, "area"),
    )


def _on_wheels(view: View, run: Run) -> Iterator[_Need]:
    rules = rules_of(view.design)
    if _to_metal(view, run):
        for battery, string in _batteries(view, run).items():
            need = rules.battery_bond(_plus_of(view, string))
            yield _Need(need.size, LEAD, "552.10(C)(4)", battery)
    elif _to_body(view, run):
        yield _Need(rules.vehicle_bond().value, BODY, "551.56(C)")


def _afloat(view: View, run: Run) -> Iterator[_Need]:
    to_metal = _to_metal(view, run)
    parts = _batteries(view, run) if to_metal else {p: {p} for p in _cases(view, run)}
    for part, string in parts.items():
        plus = _plus_of(view, string)
        if plus is not None:
            need = rules_of(view.design).case_bond_afloat(plus)
            yield _Need(need.size, LEAD if to_metal else CASE, "ABYC E-11", part)
    if not to_metal and _to_body(view, run):
        yield from _of_board(view, run)


def _to_body(view: View, run: Run) -> bool:
    bonds = any(Pole.BODY in pair for pair in pole_map(view.design, run))
    return bonds and _protective(view, run)


def _of_board(view: View, run: Run) -> Iterator[_Need]:
    """From the ground bar of a board it is the ground wire for what touches the metal aboard."""
    for part in (run.a.part, run.b.part):
        before = _largest_before(view, part) if view.kind(part).board else None
        if before is not None:
            device, size = before
            rating = device.data.rating_a
            need = rules_of(view.design).ground_wire(rating, size)
            words = (("device", view.name(device.owner)), ("rating", f"{rating:g}"))
            yield _Need(need.size, BOARD, "ABYC E-11, 250.122", part, words)


def _largest_before(view: View, board: str) -> tuple[Device, str] | None:
    """The largest device before a board in any state, and the size of what it feeds it by."""
    feeding = {run.id for run in view.design.runs_at(board, "feed")}
    found: list[tuple[float, str, Device]] = []
    for look in view.settled_looks:
        for feed in look.studies.feeds:
            device = smallest(look.studies.situation, feed) if feed.run in feeding else None
            values = view.run_values(feed.run)
            if device is not None and feed.system.is_ac and values.has("size"):
                found.append((device.data.rating_a, values.text("size"), device))
    worst = max(found, key=lambda each: each[:2], default=None)
    return None if worst is None else (worst[2], worst[1])


def _cases(view: View, run: Run) -> list[str]:
    """The parts whose case a run grounds."""
    ends = [end.part for end in (run.a, run.b)] if _protective(view, run) else []
    return [part for part in ends if not view.kind(part).passes_on]


def _protective(view: View, run: Run) -> bool:
    return all(is_protective(p) and is_protective(q) for p, q in pole_map(view.design, run))


def _to_metal(view: View, run: Run) -> bool:
    """Whether a run joins a minus, at a post, bar or switch, to metal. From a load it is the return
    of that load and judged as such."""
    for p, q in pole_map(view.design, run):
        for pole, other, end in ((p, q, run.a), (q, p, run.b)):
            kind = view.kind(end.part)
            if pole is Pole.NEG and is_protective(other):
                return kind.source.stores or kind.passes_on
    return False


def _batteries(view: View, run: Run) -> dict[str, set[str]]:
    """Those on whose minus a run is in some state, each with all of its string: the other lead of
    a bank is that at the top."""
    found: dict[str, set[str]] = {}
    for look in view.settled_looks:
        situation = look.studies.situation
        label, circuit = situation.clusters, situation.circuit
        ends = [circuit.branches[i] for i in circuit.branches_of.get(run.id, ())]
        here = {label[node] for branch in ends for node in (branch.a, branch.b)}
        for string in strings(situation):
            lowest = circuit.sources[string.cells[-1]]
            if label[lowest.minus] in here:
                owners = {circuit.sources[i].owner for i in string.cells}
                found.setdefault(lowest.owner, set()).update(owners)
    return {owner: found[owner] for owner in sorted(found, key=view.order)}


def _plus_of(view: View, parts: Collection[str]) -> str | None:
    """The thickest plus wire at parts, or at a fuse on their post; None without any of a known
    size."""
    fitted = {seat.part for part in parts for seat in view.design.seated_in(part)}
    sizes = [
        view.run_values(run.id).text("size")
        for part in fitted.union(parts)
        for run in view.design.runs_at(part)
        if any(pole is Pole.POS for pair in pole_map(view.design, run) for pole in pair)
        and view.run_values(run.id).has("size")
    ]
    return max(sizes, key=lambda text: size_of(text).cmil, default=None)


def _hit(view: View, run: Run, need: _Need) -> Hit:
    size = view.run_values(run.id).text("size")
    words = {"part": view.name(need.part)} if need.part else {}
    words |= dict(need.words)
    return Hit(
        Level.WARNING,
        (run.id,),
        need.message,
        {"run": view.name(run.id), "size": size, "need": need.size} | words,
        areas(size, area_mm2(need.size)),
        touches=frozenset({need.part} if need.part else ()),
        mend=resize(view, run.id, need.size),
        clause=need.clause,
    )
