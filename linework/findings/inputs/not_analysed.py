"""What could not be worked out.

What is checked
    Kinds that this version does not know, followers that find no rest, states
    that were not all looked at, solutions that failed or did not balance,
    devices that no table knows, three-phase or other parts beyond the solver.
Why it matters
    What was passed over must not look sound.
How to cure it
    As each line says.
Limits
    None of these lines can be accepted away.
Sources
    None.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.network import NotSolved
from linework.codes import CodesError
from linework.findings.model import NotChecked, Outcome, Rule
from linework.findings.view import Look, View
from linework.kinds import is_known
from linework.study.clearing import band_of
from linework.words import N_

UNKNOWN = N_("the kind '{kind}' is not known to this version; nothing of it was judged")
FIELD = N_("the rating '{key}' is not known to this version and was not judged")
RESTLESS = N_("{who} finds no position of rest in {state}: its rule chases its own effect")
TOO_MANY = N_(
    "there are more combinations of positions or unknowns than are judged one by one; settle some"
    " unknowns or split the design"
)
FAILED = N_("{state} was not solved: {cause}")
UNBALANCED = N_("the solution of {state} at {hertz} Hz does not balance ({amps} A) and is not used")
NO_TABLE = N_("no time-current band: {fault}")


def check(view: View) -> Iterator[Outcome]:
    """Gaps only."""
    yield from _unknown(view)
    if not view.complete:
        yield NotChecked(TOO_MANY)
    for look in view.looks:
        yield from _look(look)
    yield from _devices(view)


def _unknown(view: View) -> Iterator[Outcome]:
    for part in view.design.parts:
        if not is_known(part.kind):
            yield NotChecked(UNKNOWN, {"kind": part.kind}, (part.id,))
            continue
        for key in part.ratings:
            if key not in view.kind(part.id).declared:
                yield NotChecked(FIELD, {"key": key}, (part.id,))


def _look(look: Look) -> Iterator[Outcome]:
    restless = look.studies.state.restless
    if restless:
        owners = tuple(sorted({owner for owner, _ in restless}))
        yield NotChecked(
            RESTLESS, {"who": ", ".join(owners), "state": look.state}, owners, look.state
        )
    loaded = look.studies.loaded
    if not loaded.solved:
        yield NotChecked(FAILED, {"state": look.state, "cause": loaded.cause}, (), look.state)
    for balance in loaded.checks:
        if not balance.sound:
            values = {
                "state": look.state,
                "hertz": f"{balance.hertz:g}",
                "amps": f"{balance.unbalance_a:.2g}",
            }
            yield NotChecked(UNBALANCED, values, (), look.state)
    try:
        len(look.studies.faults)
    except NotSolved as fault:
        yield NotChecked(FAILED, {"state": look.state, "cause": fault}, (), look.state)


def _devices(view: View) -> Iterator[Outcome]:
    for device in view.circuit.devices if view.circuit else ():
        try:
            band_of(device)
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (device.owner,))


RULE = Rule("not-analysed", N_("Not analysed"), check, {"NA": "practice", "INT": "practice"})
