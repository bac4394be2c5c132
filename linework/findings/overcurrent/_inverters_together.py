"""What several inverters share towards their batteries, when all of them give their rating."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import combinations

from linework.findings.model import Evidence, Hit, Level
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.at_rating import AtRating
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.sums import inflow
from linework.study.wires.rated import rated_parts
from linework.wiring import Pole, is_protective
from linework.words import N_, say

MESSAGE = N_(
    "When {inverters} give their rating at once, {rated} VA in all, they take {amps} A from a"
    " battery at {volts} V; what they share must be made for {needed} A. {weak}."
)
DEVICE = N_("{what} is rated {good} A")
RUN = N_("{what} carries {good} A")
PART = N_("{what} is made for {good} A")

_TOLD_A = 0.5
"""What other loads take is told from here on (common practice, no source)."""


@dataclass(frozen=True)
class _Group:
    """Inverters that work from the same batteries, and the branches through which the current of
    each of them flows."""

    look: Look
    items: tuple[AtRating, ...]
    branches: tuple[int, ...] = ()

    @property
    def amps(self) -> float:
        return sum(item.amps for item in self.items)

    @property
    def needed_a(self) -> float:
        return sum(item.needed_a for item in self.items)

    @property
    def owners(self) -> list[str]:
        return [item.load.owner for item in self.items]

    def beside_a(self, branch: int) -> float:
        """What drawn loads take through a branch besides them, in ampere."""
        loaded = loaded_or_none(self.look.studies)
        if loaded is None:
            return 0.0
        drawn = sum(loaded.load_a.get(item.index, 0.0) for item in self.items)
        return max(0.0, self.items[0].comes_a(loaded, branch) - drawn)


@dataclass(frozen=True)
class _Weak:
    """Something that they share: what it is good for, and whether that is less than they take."""

    owner: str
    text: str
    good_a: float
    grave: bool


def inverters_together(
    view: View, look: Look, items: list[AtRating], told: Collection[str]
) -> Iterator[Hit]:
    """One hit for each group of inverters that share what is too small for all of them. A warning
    where they feed one system, whose loads fall on them together; else a note. CodesError where no
    table tells.

    ``told``: what is too small for one of them already.
    """
    for group in _groups(look, items):
        weak = {each.owner: each for each in (*_devices(view, group), *_wires(view, group))}
        new = [each for owner, each in weak.items() if owner not in told]
        if new:
            yield _hit(view, group, new)


def _groups(look: Look, items: list[AtRating]) -> list[_Group]:
    """By what they share; those that share nothing but batteries last."""
    through: dict[int, list[AtRating]] = {}
    for item in items if len(items) > 1 else ():
        for branch in item.alone():
            through.setdefault(branch, []).append(item)
    shared: dict[tuple[int, ...], list[int]] = {}
    for branch, members in through.items():
        if len(members) > 1:
            shared.setdefault(tuple(item.index for item in members), []).append(branch)
    for one, other in combinations(items, 2):
        if {s.source for s in one.stores} & {s.source for s in other.stores}:
            shared.setdefault((one.index, other.index), [])
    by_index = {item.index: item for item in items}
    return [
        _Group(look, tuple(by_index[i] for i in indices), tuple(sorted(branches)))
        for indices, branches in shared.items()
    ]


def _devices(view: View, group: _Group) -> Iterator[_Weak]:
    """Those that let through less to all than to each by itself, and too little."""
    situation = group.look.studies.situation
    stores = {s.source: s for item in group.items for s in item.stores}.values()
    comes = inflow(situation, [item.load.a for item in group.items], stores)
    each_a = sum(item.devices()[0].amps for item in group.items)
    devices = [situation.circuit.devices[i] for i in comes.devices]
    several = len(devices) > 1
    beside = (
        0.0
        if several
        else max((group.beside_a(i) for device in devices for i in device.branches), default=0.0)
    )
    if exceeds(each_a, comes.amps) and exceeds(group.needed_a + beside, comes.amps):
        for device in devices:
            good, grave = device.data.rating_a, exceeds(group.amps + beside, comes.amps)
            text = weak_text(view, DEVICE, device.owner, good, beside)
            yield _Weak(device.owner, text, good, grave)


def _wires(view: View, group: _Group) -> Iterator[_Weak]:
    """Runs and switches through which the current of all flows."""
    circuit, told = group.look.studies.circuit, set[str]()
    rated = {r.part: r for r in rated_parts(circuit, view.design) if r.given}
    for index in group.branches:
        branch = circuit.branches[index]
        if branch.owner in told or is_protective(Pole(branch.pole or Pole.POS)):
            continue
        run, beside = view.run(branch.owner), group.beside_a(index)
        amps, needed = group.amps + beside, group.needed_a + beside
        if run is not None and branch.sort == "run" and view.run_values(run.id).has("size"):
            laid = view.ampacities.of_pole(run, Pole(branch.pole), needed).value
            plain = view.ampacities.plain(run, Pole(branch.pole), needed).value
            if exceeds(amps, laid) or exceeds(needed, plain):
                told.add(run.id)
                good = min(laid, plain)
                text = weak_text(view, RUN, run.id, good, beside)
                yield _Weak(run.id, text, good, exceeds(amps, laid))
        elif branch.owner in rated and exceeds(amps, rated[branch.owner].amps):
            told.add(branch.owner)
            good = rated[branch.owner].amps
            text = weak_text(view, PART, branch.owner, good, beside)
            yield _Weak(branch.owner, text, good, True)


def weak_text(view: View, message: str, owner: str, good_a: float, beside_a: float) -> str:
    """What is too small, in words; ``beside_a``: what other loads take of it, in ampere."""
    text = say(message, what=view.name(owner), good=f"{good_a:.4g}")
    if beside_a < _TOLD_A:
        return text
    return say("{text}, and other loads take {amps} A of it", text=text, amps=f"{beside_a:.3g}")


def _one_system(situation: Situation, group: _Group) -> bool:
    """Whether a wire joins their neutrals: they feed the loads of one installation."""
    circuit, mine = situation.circuit, {item.index for item in group.items}
    backs = {
        situation.clusters[circuit.sources[c.source].minus]
        for c in circuit.conversions
        if c.load in mine
    }
    return len(backs) == 1


def _hit(view: View, group: _Group, weak: list[_Weak]) -> Hit:
    grave = any(each.grave for each in weak)
    together = _one_system(group.look.studies.situation, group)
    return group.look.hit(
        Level.WARNING if grave and together else Level.NOTE,
        (*group.owners, *sorted((each.owner for each in weak), key=view.name)),
        MESSAGE,
        {
            "inverters": view.names(group.owners),
            "rated": f"{sum(item.rated_va for item in group.items):.0f}",
            "amps": f"{group.amps:.0f}",
            "volts": f"{group.items[0].volts:.4g}",
            "needed": f"{group.needed_a:.0f}",
            "weak": "; ".join(sorted(each.text for each in weak)),
        },
        (
            Evidence(N_("needed at their rating"), group.needed_a, "current"),
            Evidence(N_("good for"), min(each.good_a for each in weak), "current"),
            Evidence(N_("taken at their rating"), group.amps, "current"),
        ),
        touches=frozenset(s.owner for item in group.items for s in item.stores),
        clause=view.clause({"NA": "690.8(B)"}),
    )
