"""A battery or generator that nothing cuts off from what it feeds.

What is checked
    For each battery, and each generator that is wired in: whether some load is
    joined to it past every switch, breaker and plug, so that only a fuse that
    is pulled or a nut that is undone makes the circuit dead.
Why it matters
    Nobody can make it dead in a fire, and nobody works on it dead.
How to cure it
    A battery disconnect close to the post, behind its fuse; a breaker at the
    generator.
Limits
    One switch in the plus is enough; one in the minus alone is told: what hangs on
    the plus stays joined to it. A fuse does not count. Whether a switch can be
    reached and locked is not known. Batteries beside each other count as one. In
    vehicles, for small ones, and in boats for those of less than 800 cranking
    amperes, or 100 Ah, that start no engine, it is a note (from memory); so it is afloat
    where all that stays joined is what safety depends on, as bilge pumps and alarms, and has
    a fuse (from memory). Loads put straight into an outlet are unplugged; the connector of a
    cord at an inlet counts as a plug. Solar arrays have a rule of their own.
Sources
    NFPA 70 (2023) 445.18, 480.7, 706.15; ABYC E-11; all from memory; 706 begins at
    1 kWh.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import LiveSource
from linework.circuit.series import charged_v, string_v
from linework.codes import CodesError
from linework.design import Run
from linework.findings.mending import put_into
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds import Answer, Remedy, remedy
from linework.quantity import write
from linework.study.situation import Situation
from linework.study.slack import exceeds, within
from linework.study.ways.banks import strings
from linework.study.ways.openings import always_joined, opened_by_hand, pulled_off
from linework.study.wires.ratings import rules_of
from linework.words import N_, say

BARE = N_("Nothing cuts {source} off from {loads}: no fuse, switch, breaker or plug.")
BATTERY = N_("Nothing but its fuse cuts {source} off from {loads}: no switch, breaker or plug.")
MINUS = N_(
    "Only the minus of {source} can be opened: {loads} stay joined to its plus, and whatever joins"
    " them to another minus closes the circuit again."
)
SET = N_("Nothing cuts {source} off from {loads}: no breaker, switch or plug lies between.")
HOW_LARGE = N_("the capacity decides whether a disconnect is required: give it on the card")

NO_TABLE = N_("{fault}")
_MARKS_V = (32.0, 48.0, 60.0, 125.0, 250.0, 500.0, 1000.0)
"""Usual markings of battery disconnects (common practice, no source)."""


@dataclass(frozen=True)
class _Bank:
    """A battery with those in its string and beside it: parts, voltage in volt, and that while they
    are charged."""

    owners: tuple[str, ...]
    volts: float
    charged_v: float


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source, in the first state in which it is so."""
    told: set[str] = set()
    for look in view.settled_looks:
        for _, source in look.studies.situation.active:
            if (source.data.group.stores or source.data.group.driven) and source.owner not in told:
                found = list(_uncut(view, look, source))
                told.update({source.owner} if found else ())
                yield from found


def _uncut(view: View, look: Look, source: LiveSource) -> Iterator[Outcome]:
    """Of a source from which some load is not cut off, or in its minus alone."""
    situation = look.studies.situation
    by_hand = opened_by_hand(situation) | pulled_off(situation, view.design)
    plus, minus = always_joined(situation, source, by_hand)
    (index,) = (i for i, s in situation.active if s is source)
    loads = _between(view, look, plus, minus)
    if loads:
        fuses = {
            i
            for device in look.studies.circuit.devices
            if view.kind(device.owner).melts
            for i in device.branches
        }
        bare = _between(view, look, *always_joined(situation, source, by_hand | fuses))
        yield from _told(view, source, loads, _bank(situation, index), bare)
    elif source.data.group.stores:
        _, far = always_joined(situation, source, ())
        loads = _between(view, look, plus, far)
        if loads:
            yield _in_minus(view, source, loads)


def _bank(situation: Situation, index: int) -> _Bank:
    """Of a battery, by the index of its source; of anything else by itself."""
    label, sources = situation.conductive, situation.circuit.sources
    every = strings(situation)
    ends = {(each.top, each.bottom) for each in every if index in each.cells}
    beside = [i for each in every if (each.top, each.bottom) in ends for i in each.cells]
    owners = dict.fromkeys(sources[i].owner for i in beside or [index])
    volts, most = (reckon(situation, index, label) for reckon in (string_v, charged_v))
    return _Bank(tuple(owners), volts, most)


def _between(view: View, look: Look, plus: set[int], minus: set[int]) -> tuple[str, ...]:
    """The loads across some nodes, without those that a person can unplug."""
    found = {
        load.owner
        for load in look.studies.circuit.loads
        if load.a in plus and load.b in minus and not view.design.seats_of(load.owner)
    }
    return tuple(sorted(found))


def _in_minus(view: View, source: LiveSource, loads: tuple[str, ...]) -> Hit:
    return Hit(
        Level.WARNING,
        (source.owner,),
        MINUS,
        {"source": view.name(source.owner), "loads": view.names(loads)},
        (Evidence(N_("loads joined to its plus"), float(len(loads)), "count"),),
        touches=frozenset(loads),
        clause=view.clause({"NA": "ABYC E-11" if view.place_of(source.owner).afloat else "480.7"}),
    )


def _told(
    view: View,
    source: LiveSource,
    loads: tuple[str, ...],
    bank: _Bank,
    bare: tuple[str, ...],
) -> Iterator[Outcome]:
    """``bare``: those of the loads that have no fuse before them; where any is they are named."""
    battery = source.data.group.stores
    try:
        high = battery and _is_high(view, bank.volts)
        level = _level(view, source, bank, loads) if battery else Level.WARNING
        if battery and not bare and _may_stay_on(view, source, loads):
            level = Level.NOTE
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (source.owner,))
        return
    ashore = battery and not high and not view.place_of(source.owner).afloat
    if ashore and level is Level.WARNING and not _is_large(view, _given(view, bank)):
        yield NotChecked(HOW_LARGE, {}, (source.owner,))
        return
    yield Hit(
        level,
        (source.owner,),
        (BARE if bare else BATTERY) if battery else SET,
        {"source": view.name(source.owner), "loads": ", ".join(map(view.name, bare or loads))},
        (Evidence(N_("loads always joined"), float(len(loads)), "count"),),
        touches=frozenset(loads),
        mend=_mend(view, source, bank.charged_v) if battery else None,
        clause=view.clause({"NA": _american_clause(view, source.owner, high)}) if battery else "",
    )


def _may_stay_on(view: View, source: LiveSource, loads: tuple[str, ...]) -> bool:
    """Whether safety depends on all these loads of a boat (ABYC E-11 lets them lie before the
    switch, from memory)."""
    each = (view.values(load) for load in loads)
    critical = all("critical" in v.declared and v.pick("critical") == "yes" for v in each)
    return critical and view.place_of(source.owner).afloat


def _is_high(view: View, volts: float) -> bool:
    return volts > rules_of(view.design).disconnect_from("voltage").value


def _american_clause(view: View, battery: str, high: bool) -> str:
    if high:
        return "480.7"
    return "ABYC E-11" if view.place_of(battery).afloat else "706.15"


def _level(view: View, source: LiveSource, bank: _Bank, loads: tuple[str, ...]) -> Level:
    if _is_high(view, bank.volts):
        return Level.WARNING
    if view.place_of(source.owner).afloat:
        return Level.WARNING if _is_asked_afloat(view, bank, loads) else Level.NOTE
    large = _is_large(view, bank.owners) and not view.place_of(source.owner).aboard
    return Level.WARNING if large else Level.NOTE


def _given(view: View, bank: _Bank) -> tuple[str, ...]:
    """The batteries whose capacity is known."""
    return tuple(owner for owner in bank.owners if view.values(owner).given("capacity"))


def _is_large(view: View, owners: tuple[str, ...]) -> bool:
    each = (view.values(owner) for owner in owners)
    stored_wh = sum(values.num("capacity") * values.num("voltage") for values in each)
    return exceeds(stored_wh, rules_of(view.design).disconnect_from("energy").value)


def _is_asked_afloat(view: View, bank: _Bank, loads: tuple[str, ...]) -> bool:
    """Whether it starts an engine, or is as large as a bank that needs a switch; batteries in
    series have the cranking amperes and the ampere-hours of one."""
    rules = rules_of(view.design)
    circuit = view.circuit
    starters = {x.owner for x in circuit.loads if x.data.lasts == "seconds"} if circuit else set()
    if not starters.isdisjoint(loads):
        return True

    def together(owners: tuple[str, ...], key: str) -> float:
        each = (view.values(owner) for owner in owners)
        return sum(values.num(key) * values.num("voltage") / bank.volts for values in each)

    if all(view.values(owner).has("cranking_amperes") for owner in bank.owners):
        most = rules.disconnect_afloat("cranking").value
        return exceeds(together(bank.owners, "cranking_amperes"), most)
    hours = together(_given(view, bank), "capacity")
    return within(rules.disconnect_afloat("capacity").value, hours)


def _mend(view: View, source: LiveSource, mark_v: float) -> Mend | None:
    """A disconnect in the only run that leaves the battery, behind its fuse where one follows.

    ``mark_v``: what it must be marked for.
    """
    run = _lead(view, source.owner)
    if run is None:
        return None

    volts = next((v for v in _MARKS_V if v >= mark_v), None)
    length = view.run_values(run.id).opt("length")
    if volts is None or length is None:
        return None
    ratings: dict[str, Answer] = {"voltage": write(volts, "voltage")}
    halves = (length / 2.0, length / 2.0)
    title = say("Put a battery disconnect into {run}", run=view.name(run.id))
    return put_into(title, run, remedy(Remedy.BATTERY_SWITCH).key, ratings, halves)


def _lead(view: View, owner: str) -> Run | None:
    """The run behind the fuse at the post, or the one at the post; None where several leave."""
    runs = [r for r in view.design.runs_at(owner) if r.poles is None]
    seated = [seat.part for seat in view.design.seated_in(owner)]
    runs += [r for part in seated for r in view.design.runs_at(part, "load")]
    if len(runs) != 1:
        return None
    far = runs[0].b if runs[0].a.part in (owner, *seated) else runs[0].a
    onward = view.design.runs_at(far.part, "load")
    fused = view.kind(far.part).melts and len(onward) == 1
    return onward[0] if fused else runs[0]


RULE = Rule(
    "disconnect-missing",
    N_("Nothing cuts it off"),
    check,
    {"NA": "445.18", "INT": "537"},
)
