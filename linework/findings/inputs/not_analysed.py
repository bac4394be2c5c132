"""What could not be worked out.

What is checked
    Kinds and ratings that this version does not know, runs and seats of which
    no conductor is joined, or of which one does not fit in one case of what is
    not known, runs of which something that decides their ampacity is not known,
    followers that find no rest, states that were not all looked at, solutions
    that failed or did not balance, batteries whose plus is grounded, families of
    standards and devices that no table knows.
Why it matters
    What was passed over must not look sound.
How to cure it
    As each line says.
Limits
    None of these lines can be accepted away. Where more than four cords or
    switches have only loads behind them, not all their combinations are taken:
    all, none, each alone, each alone out, and the same of all on one conductor.
    One feels another only by what it draws and leaks, which is at its worst
    among these. It is said of which this was done.
Sources
    None.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.network import NotSolved
from linework.circuit.search import MOST_CIRCUITS
from linework.codes import CodesError
from linework.design import Run, pole_map
from linework.design.cases import case_text, misfits
from linework.findings.model import Clear, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds import is_known
from linework.study.shorts.clearing import band_of
from linework.study.ways.banks import grounded_above
from linework.study.wires.ratings import rules_of
from linework.words import N_, say

UNKNOWN = N_("the kind '{kind}' is not known to this version; nothing of it was judged")
FIELD = N_("the rating '{key}' is not known to this version and was not judged")
FAMILY = N_("what {title} says is not in this version for: {topics}")
NO_WIRE = N_("not one conductor of it is joined at both ends; say which wire goes where")
NO_FIT = N_("not every conductor of it is joined: {fault}")
NO_FIT_IN_CASE = N_("not every conductor of it is joined where {case}: {fault}")
LIVE_MINUS = N_(
    "metal is joined to a plus of {battery} and not to the minus: that is the live conductor then,"
    " and whether something opens a fault of it was not judged"
)
RESTLESS = N_("{who} finds no position of rest in {state}: its rule chases its own effect")
TOO_MANY = N_(
    "there are more combinations of unknowns than are judged one by one; settle some unknowns"
)
CUT = N_(
    "not all that it feeds in the many positions of switches and plugs was looked at: these make"
    " more than {most} different circuits; draw some of the plugs as fixed, or split the design"
)
POCKETS = N_(
    "only loads hang behind each of these: judged with all in, with none, with each alone in and"
    " alone out, and with those of one conductor in or out together, not in all combinations"
)
FAILED = N_("{state} was not solved: {cause}")
UNBALANCED = N_("the solution of {state} at {hertz} Hz does not balance ({amps} A) and is not used")
NO_BAND = N_("no time-current band: {fault}")


def check(view: View) -> Iterator[Outcome]:
    """Gaps, and which combinations of loads stand for all."""
    yield from _unknown(view)
    yield from _misfits(view)
    if not view.all_cases:
        yield NotChecked(TOO_MANY)
    for part in view.cut:
        yield NotChecked(CUT, {"most": MOST_CIRCUITS}, (part,))
    if view.pocketed:
        yield Clear(view.pocketed, POCKETS)
    for look in view.looks:
        yield from _look(look)
        yield from _live_minus(view, look)
    yield from _restless(view)
    for case in view.in_cases:
        yield from _loose_runs(case)
        yield from _tables(case)


def _unknown(view: View) -> Iterator[Outcome]:
    for part in view.design.parts:
        if not is_known(part.kind):
            yield NotChecked(UNKNOWN, {"kind": part.kind}, (part.id,))
            continue
        for key in part.ratings:
            if key not in view.kind(part.id).declared:
                yield NotChecked(FIELD, {"key": key}, (part.id,))


def _loose_runs(view: View) -> Iterator[Outcome]:
    """Runs that the expansion had to leave out, wholly."""
    terminals = view.circuit.terminals if view.circuit else {}
    for run in view.design.runs:
        here = terminals.get((run.a.part, run.a.terminal), {})
        there = terminals.get((run.b.part, run.b.terminal), {})
        if not any(p in here and q in there for p, q in pole_map(view.design, run)):
            yield NotChecked(NO_WIRE, {}, (run.id,))


def _misfits(view: View) -> Iterator[Outcome]:
    """Runs and seats that leave out a conductor, if only in one case; places that are gone."""
    for joint, case, fault in misfits(view.design):
        values = {"case": case_text(view.design, case), "fault": fault}
        subject = joint.id if isinstance(joint, Run) else joint.part
        yield NotChecked(NO_FIT_IN_CASE if case else NO_FIT, values, (subject,))


def _look(look: Look) -> Iterator[Outcome]:
    name = look.state or look.title
    loaded = look.studies.loaded
    if not loaded.solved:
        yield NotChecked(FAILED, {"state": name, "cause": loaded.cause}, (), look.state)
    for balance in loaded.checks:
        if not balance.sound:
            values = {
                "state": name,
                "hertz": f"{balance.hertz:g}",
                "amps": f"{balance.unbalance_a:.2g}",
            }
            yield NotChecked(UNBALANCED, values, (), look.state)
    try:
        len(look.studies.faults)
    except NotSolved as fault:
        yield NotChecked(FAILED, {"state": name, "cause": fault}, (), look.state)


def _live_minus(view: View, look: Look) -> Iterator[NotChecked]:
    """Devices and faults are judged on the plus of batteries, the minus as what is grounded."""
    sources = look.studies.circuit.sources
    for string in grounded_above(look.studies.situation):
        owners = tuple(sorted({sources[i].owner for i in string.cells}))
        yield NotChecked(LIVE_MINUS, {"battery": view.names(owners)}, owners)


def _restless(view: View) -> Iterator[Outcome]:
    for parts, state in view.restless:
        who = ", ".join(map(view.name, parts))
        yield NotChecked(RESTLESS, {"who": who, "state": state or say("every state")}, parts)


def _tables(view: View) -> Iterator[Outcome]:
    rules = rules_of(view.design)
    lacking = rules.lacking()
    if lacking:
        yield NotChecked(FAMILY, {"title": rules.title, "topics": ", ".join(lacking)})
    for device in view.circuit.devices if view.circuit else ():
        try:
            band_of(device)
        except CodesError as fault:
            yield NotChecked(NO_BAND, {"fault": fault}, (device.owner,))


RULE = Rule(
    "not-analysed",
    N_("Not analysed"),
    check,
    {"NA": "practice", "INT": "practice"},
    as_given=True,
)
