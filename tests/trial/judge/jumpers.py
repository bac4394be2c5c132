"""Bonding jumpers to bodies: how thick they must be, by the place."""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from linework.design import Design, Run
from tests.trial.judge.expand import pairs, size_of
from tests.trial.judge.flaws import WARNING, Fact, Flaw
from tests.trial.judge.net import GROUNDS, Net, Node
from tests.trial.judge.reading import Told
from tests.trial.judge.tables import SIZES, ground_wire, thinner

Said = Iterator[Flaw | Fact]
_LOADS = ("load", "lamp", "motor", "heater", "electronic_load")


def jumpers(design: Design, net: Net) -> Said:
    """Bonding jumpers to a body, by the place: see ``_least_jumper``. Ashore one beside another way
    between the same metal may be of any size, as it might be left out."""
    for run in design.runs:
        told = Told(run)
        ends = {p for pair in pairs(design, run) for p in pair}
        size = size_of(told, "PE" if told.has("ground_size") else "L")
        returns = any(design.part(end.part).kind in _LOADS for end in (run.a, run.b))
        if "body" not in ends or not told.has("size") or returns:
            continue
        if design.settings.place in ("building", "field") and _has_company(net, run):
            continue
        least, doubtful = _least_jumper(design, run, "-" in ends)
        if thinner(size, least):
            reason = f"{run.designation} of {size} AWG bonds metal: {least} AWG at least"
            yield Flaw("jumper thin", run.id, WARNING, reason, near=not thinner(size, doubtful))


def _has_company(net: Net, run: Run) -> bool:
    """Whether other ground wires and bodies join the ends of a jumper."""
    green = [e for e in net.edges if _is_green(e.a) and _is_green(e.b)]
    graph = nx.Graph((e.a, e.b) for e in green if e.owner != run.id and e.sort != "soil")
    mine = next(((e.a, e.b) for e in green if e.owner == run.id), None)
    return mine is not None and all(n in graph for n in mine) and nx.has_path(graph, *mine)


def _is_green(node: Node) -> bool:
    return node.pole in GROUNDS or node.pole.startswith("body")


def _least_jumper(design: Design, run: Run, minus: bool) -> tuple[str, str]:
    """The least size of a jumper to a body, and the size down to which the judge leaves it open."""
    place, lead = design.settings.place, _leads(design) if minus else ""
    if place in ("vehicle", "recreational"):  # NFPA 70 551.56(C); 552.10(C)(4) for the minus
        return _thicker("8", lead), _thicker("8", lead)
    if place == "boat":
        return _least_afloat(design, run, lead)
    if minus:  # 250.166(B), (C) and 250.168; up to 60 V nobody asks for the bond at all (250.162)
        return _thicker("8", lead if thinner(lead or "8", "6") else "6"), "18"
    own = ground_wire(_largest_alternating(design))  # 250.104(C), 250.122
    return _thicker("8", own), own


def _least_afloat(design: Design, run: Run, lead: str) -> tuple[str, str]:
    """ABYC E-11: one size under the plus for minus and for cases of what runs on direct current;
    the ground wire of the largest device for boards; 8 AWG for what lies in the water (E-2)."""
    if lead:
        return _one_under(lead), _one_under(lead)
    kinds = {design.part(end.part).kind for end in (run.a, run.b)}
    if "electrode" in kinds:
        return "8", "18"
    plus = [_plus_at(design, end.part) for end in (run.a, run.b)]
    cases = [size for size in plus if size]
    if cases:
        return _one_under(cases[0]), _one_under(cases[0])
    return "8", ground_wire(_largest_alternating(design))


def _plus_at(design: Design, part: str) -> str:
    """The thickest plus wire at a part that is no bar or board; empty where none is."""
    if design.part(part).kind in ("panel", "busbar"):
        return ""
    found = ""
    for run in design.runs_at(part):
        if any("+" in pair for pair in pairs(design, run)):
            found = _thicker(found or "18", size_of(Told(run), "+"))
    return found


def _largest_alternating(design: Design) -> float:
    """The largest device on alternating current in ampere."""
    found = [0.0]
    for part in design.parts:
        told = Told(part, part.kind)
        if told.word("circuit", "ac") != "dc" and part.kind in ("breaker", "panel", "supply"):
            key = {"breaker": "rating", "panel": "main", "supply": "breaker"}[part.kind]
            found.append(told.figure(key, 0.0))
    return max(found)


def _thicker(one: str, other: str) -> str:
    return other if other and thinner(one, other) else one


def _one_under(size: str) -> str:
    return SIZES[max(SIZES.index(size) - 1, 0)]


def _leads(design: Design) -> str:
    """The thickest plus lead at a battery or at its post fuse."""
    found = ""
    for run in design.runs:
        at = {design.part(end.part).kind for end in (run.a, run.b)}
        plus = any("+" in pair for pair in pairs(design, run))
        seated = {s.part for s in design.seats if design.part(s.host).kind == "battery"}
        near = "battery" in at or seated & {run.a.part, run.b.part}
        if plus and near and isinstance(run, Run):
            size = size_of(Told(run), "+")
            found = size if not found or thinner(found, size) else found
    return found
