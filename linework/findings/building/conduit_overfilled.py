"""More wires in a raceway than it may hold.

What is checked
    For every raceway whose trade size is given: the area of all its wires, with
    their insulation, against the share of its inside that they may fill.
Why it matters
    Wires are hurt when they are pulled in, and cannot shed their heat.
How to cure it
    A larger raceway, or a second one.
Limits
    Ground wires count as if they were insulated. Nipples up to 24 in, which
    may be filled to 60 %, are not told apart. Cables in a raceway are not
    judged. Of a raceway without a trade size nothing is told.
Sources
    NFPA 70 (2023) chapter 9 tables 1, 4 and 5.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError
from linework.findings.mending import change_run, together
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.run import TRADE_SIZES
from linework.study.slack import exceeds
from linework.study.wires.fill import Raceway, raceways
from linework.study.wires.ratings import rules_of
from linework.words import N_, say

MESSAGE = N_(
    "{raceway} ({size} {type}) holds {count} wires of {need} in2 together; {room} in2 may be filled"
    " ({share} of it)."
)
CONFLICT = N_("{runs} name one raceway and say different things of it: {answers}")
NO_TYPE = N_("the type of the raceway, by which its inside is known, is not given")
NO_WIRE = N_("the type of its wires, by which their thickness is known, is not given for all")
CABLE = N_("{runs} lie in it and are not single wires: how thick they are is not known")
NO_TABLE = N_("{fault}")
MM2_PER_IN2 = 645.16
ENOUGH = 0.8
"""Part of a wire for which there must be room, of wires of one size (chapter 9 note 7, memory)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each raceway."""
    for raceway in raceways(view.design):
        if raceway.sizes:
            yield from _judged(view, raceway)


def _judged(view: View, raceway: Raceway) -> Iterator[Outcome]:
    unknown = _unknown(view, raceway)
    if unknown is not None:
        yield unknown
        return
    if not all(size for size, _ in raceway.wires):
        return  # told by "value-missing"
    rules = rules_of(view.design)
    try:
        need = sum(rules.conductor_area_in2(size, kind).value for size, kind in raceway.wires)
        room = _room(view, raceway, raceway.sizes[0])
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, raceway.runs)
        return
    if exceeds(need - _spared(view, raceway), room):
        yield _hit(view, raceway, need, room)


def _spared(view: View, raceway: Raceway) -> float:
    """What wires of one size and kind may take beyond the room: if 0.8 of one more would fit, it
    may lie there (chapter 9 note 7)."""
    if len(set(raceway.wires)) != 1:
        return 0.0
    return (1.0 - ENOUGH) * rules_of(view.design).conductor_area_in2(*raceway.wires[0]).value


def _unknown(view: View, raceway: Raceway) -> NotChecked | None:
    names = ", ".join(view.name(run) for run in raceway.runs)
    for answers in (raceway.sizes, raceway.types):
        if len(answers) > 1:
            return NotChecked(
                CONFLICT, {"runs": names, "answers": ", ".join(answers)}, raceway.runs
            )
    if raceway.cables:
        cables = ", ".join(view.name(run) for run in raceway.cables)
        return NotChecked(CABLE, {"runs": cables}, raceway.runs)
    if not raceway.types:
        return NotChecked(NO_TYPE, {}, raceway.runs)
    if not all(kind for _, kind in raceway.wires):
        return NotChecked(NO_WIRE, {}, raceway.runs)
    return None


def _room(view: View, raceway: Raceway, size: str) -> float:
    rules = rules_of(view.design)
    return rules.raceway_room_in2(raceway.types[0], size, len(raceway.wires)).value


def _hit(view: View, raceway: Raceway, need: float, room: float) -> Hit:
    count = len(raceway.wires)
    name = raceway.name or say("The raceway of {run}", run=view.name(raceway.runs[0]))
    return Hit(
        Level.WARNING,
        raceway.runs,
        MESSAGE,
        {
            "raceway": name,
            "size": raceway.sizes[0],
            "type": raceway.types[0],
            "count": str(count),
            "need": f"{need:.4f}",
            "room": f"{room:.4f}",
            "share": f"{100.0 * rules_of(view.design).raceway_fill(count).value:.0f} %",
        },
        (
            Evidence(N_("area of the wires"), need * MM2_PER_IN2, "area"),
            Evidence(N_("area that may be filled"), room * MM2_PER_IN2, "area"),
            Evidence(N_("wires"), float(count), "count"),
        ),
        mend=_mend(view, raceway, need),
    )


def _mend(view: View, raceway: Raceway, need: float) -> Mend | None:
    """The next trade size that holds them."""
    size = _larger(view, raceway, need)
    if size is None:
        return None
    done = say("a raceway of {size}", size=size)
    steps = [change_run(done, run, {"trade_size": size}) for run in raceway.runs]
    return together(say("Make the raceway {size}", size=size), done, steps)


def _larger(view: View, raceway: Raceway, need: float) -> str | None:
    for size in TRADE_SIZES:
        try:
            if _room(view, raceway, size) >= need - _spared(view, raceway):
                return size
        except CodesError:
            continue
    return None


RULE = Rule(
    "conduit-overfilled",
    N_("Raceway too full"),
    check,
    {"NA": "chapter 9 table 1", "INT": "522"},
)
