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
    reached and locked is not known. In vehicles, for small batteries, and in
    boats for those of less than 800 cranking amperes, or 100 Ah, that start no
    engine, it is a note (from memory). Loads put straight
    into an outlet are unplugged. Solar arrays have a rule of their own.
Sources
    NFPA 70 (2023) 445.18, 480.7, 706.15; ABYC E-11; all from memory; 706 begins at
    1 kWh.
"""

from __future__ import annotations

from collections.abc import Iterator

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
from linework.study.ways.openings import always_joined, opened_by_hand
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
    situation, branches = look.studies.situation, look.studies.circuit.branches
    plus, minus = always_joined(situation, source, opened_by_hand(situation))
    (index,) = (i for i, s in situation.active if s is source)
    loads = _between(view, look, plus, minus)
    if loads:
        volts = string_v(situation, index, situation.conductive)
        mark_v = charged_v(situation, index, situation.conductive)
        fused = any(
            view.kind(device.owner).melts
            and any({branches[i].a, branches[i].b} & plus for i in device.branches)
            for device in look.studies.circuit.devices
        )
        yield from _told(view, source, loads, (volts, mark_v), fused)
    elif source.data.group.stores:
        _, far = always_joined(situation, source, ())
        loads = _between(view, look, plus, far)
        if loads:
            yield _in_minus(view, source, loads)


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
    volt_pair: tuple[float, float],
    fused: bool,
) -> Iterator[Outcome]:
    """``volt_pair``: of the bank, and what a switch there must be marked for; ``fused``: a fuse
    lies on its plus."""
    volts, mark_v = volt_pair
    battery = source.data.group.stores
    try:
        high = battery and _is_high(view, volts)
        level = _level(view, source, volts, loads) if battery else Level.WARNING
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (source.owner,))
        return
    guessed = battery and not view.values(source.owner).given("capacity")
    if guessed and level is Level.WARNING and not high and not view.place_of(source.owner).afloat:
        yield NotChecked(HOW_LARGE, {}, (source.owner,))
        return
    yield Hit(
        level,
        (source.owner,),
        (BATTERY if fused else BARE) if battery else SET,
        {"source": view.name(source.owner), "loads": ", ".join(view.name(o) for o in loads)},
        (Evidence(N_("loads always joined"), float(len(loads)), "count"),),
        touches=frozenset(loads),
        mend=_mend(view, source, mark_v) if battery else None,
        clause=view.clause({"NA": _american_clause(view, source.owner, high)}) if battery else "",
    )


def _is_high(view: View, volts: float) -> bool:
    return volts > rules_of(view.design).disconnect_from("voltage").value


def _american_clause(view: View, battery: str, high: bool) -> str:
    if high:
        return "480.7"
    return "ABYC E-11" if view.place_of(battery).afloat else "706.15"


def _level(view: View, source: LiveSource, volts: float, loads: tuple[str, ...]) -> Level:
    if _is_high(view, volts):
        return Level.WARNING
    if view.place_of(source.owner).afloat:
        return Level.WARNING if _is_asked_afloat(view, source.owner, loads) else Level.NOTE
    stored_wh = view.values(source.owner).num("capacity") * volts
    large = stored_wh > rules_of(view.design).disconnect_from("energy").value
    return Level.WARNING if large and not view.place_of(source.owner).aboard else Level.NOTE


def _is_asked_afloat(view: View, battery: str, loads: tuple[str, ...]) -> bool:
    """Whether it starts an engine, or is as large as a bank that needs a switch."""
    values, rules = view.values(battery), rules_of(view.design)
    circuit = view.circuit
    starters = {x.owner for x in circuit.loads if x.data.lasts == "seconds"} if circuit else set()
    if not starters.isdisjoint(loads):
        return True
    if values.has("cranking_amperes"):
        return values.num("cranking_amperes") > rules.disconnect_afloat("cranking").value
    return (
        values.given("capacity")
        and values.num("capacity") >= rules.disconnect_afloat("capacity").value
    )


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
