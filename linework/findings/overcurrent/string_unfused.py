"""Parallel strings of a solar array without the fuses that their modules need.

What is checked
    By day: what all the other strings on the same conductors drive back into a
    faulty one, against the largest fuse that the module's plate allows. A fuse or
    breaker drawn in a string counts as one said of it.
Why it matters
    The others push their current backwards through the faulty module, and it
    burns on the roof.
How to cure it
    A fuse in each string, made for solar strings, from 156 % of the module's
    short-circuit current up to what its plate allows.
Limits
    Two strings need none: one other string drives no more than a module
    stands. From three on the plate decides; where its figure is not given,
    nothing is judged and it is said, up to three times a module's current. What
    a battery could drive back through a controller is not counted: controllers
    are taken to block it.
Sources
    NFPA 70 (2023) 690.9(A); IEC 62548, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.incircuit import LINKS
from linework.circuit.model import LiveSource
from linework.codes import CodesError
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.kinds.solar_array import BRIGHT, short_a
from linework.quantity import write
from linework.study.situation import Situation
from linework.study.wires.ratings import rules_of
from linework.words import N_, say

MESSAGE = N_(
    "The other {others} strings drive up to {amps} A back into a faulty one of {array}; its modules"
    " stand {plate} A, and no fuse is in the string."
)
LARGE = N_("The string fuse of {array} is {fuse} A; the plate of its modules allows {plate} A.")
PLATE = N_(
    "{others} other strings can drive {amps} A back into one of {array}: the largest series fuse on"
    " the plate of its modules decides whether each string needs one"
)
ANY = N_(
    "The other {others} strings drive up to {amps} A back into a faulty one of {array}: more than"
    " the plate of any module of its current allows, and no fuse is in the string."
)
ANY_PLATE = 3.0
"""Times its short-circuit current that no module's plate goes beyond (from memory)."""
SAFE_OTHERS = 1
"""So many other strings never drive more than a module stands (from memory)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each array, with all others that some state puts beside it."""
    beside: dict[str, tuple[int, float, float]] = {}
    for look in view.settled_looks:
        situation = look.studies.situation
        for _, source in situation.active:
            if source.data.group.solar:
                found = *_beside(view, situation, source), _drawn_a(view, situation, source)
                beside[source.owner] = max(beside.get(source.owner, found), found)
    for owner, others in sorted(beside.items()):
        yield from _judged(view, owner, *others)


def _drawn_a(view: View, situation: Situation, source: LiveSource) -> float:
    """The rating in ampere of the least device between a string of its own and all the others;
    infinite without any. That before an array of several strings protects none of them, and where
    no other lies beside it none is a string fuse: what it meets belongs to the battery."""
    others = [s for s in _on_its_conductor(situation, source) if s.owner != source.owner]
    if view.values(source.owner).num("strings") != 1.0 or not others:
        return math.inf
    found = math.inf
    for device in situation.circuit.devices:
        opened = frozenset(device.branches) & situation.closed
        if not opened or device.data.rating_a >= found:
            continue
        label = situation.labels_without(opened, LINKS)
        if label[source.plus] not in {label[s.plus] for s in others}:
            found = device.data.rating_a
    return found


def _on_its_conductor(situation: Situation, source: LiveSource) -> list[LiveSource]:
    """The arrays whose plus lies on that of one of them, itself among them."""
    hot = situation.clusters[source.plus]
    return [
        s for _, s in situation.active if s.data.group.solar and situation.clusters[s.plus] == hot
    ]


def _beside(view: View, situation: Situation, source: LiveSource) -> tuple[int, float]:
    """How many other strings lie on the same conductors, and what they drive together in A."""
    arrays = {s.owner for s in _on_its_conductor(situation, source)}
    number = sum(view.values(owner).num("strings") for owner in arrays)
    amps = sum(short_a(view.values(owner)) for owner in arrays)
    own = view.values(source.owner).num("isc")
    return int(number) - 1, BRIGHT * (amps - own)


def _judged(view: View, owner: str, others: int, amps: float, drawn_a: float) -> Iterator[Outcome]:
    """``drawn_a``: rating of the device drawn in the string, in ampere; infinite without one."""
    values = view.values(owner)
    fuse, plate = values.opt("string_fuse"), values.opt("largest_fuse")
    if math.isfinite(drawn_a):
        fuse = drawn_a if fuse is None else min(fuse, drawn_a)
    words = {
        "array": view.name(owner),
        "others": others,
        "amps": f"{amps:.1f}",
        "plate": f"{plate or 0.0:g}",
        "fuse": f"{fuse or 0.0:g}",
    }
    evidence: tuple[Evidence, ...] = (Evidence(N_("driven back"), amps, "current"),)
    if plate is None:
        if others > SAFE_OTHERS and fuse is None and amps > ANY_PLATE * values.num("isc"):
            yield Hit(Level.WARNING, (owner,), ANY, words, evidence)
        elif others > SAFE_OTHERS and fuse is None:
            yield NotChecked(PLATE, words, (owner,))
        return
    evidence += (Evidence(N_("largest fuse on the plate"), plate, "current"),)
    if fuse is not None and fuse > plate:
        mend = _mend(view, owner) if math.isinf(drawn_a) else None
        yield Hit(Level.WARNING, (owner,), LARGE, words, evidence, mend=mend)
    elif fuse is None and amps > plate:
        yield Hit(Level.WARNING, (owner,), MESSAGE, words, evidence, mend=_mend(view, owner))


def _mend(view: View, owner: str) -> Mend | None:
    """The least standard fuse of 156 % of the short-circuit current, where the plate allows it."""
    values = view.values(owner)
    least = BRIGHT * BRIGHT * values.num("isc")
    try:
        amps = rules_of(view.design).standard_up(least, "fuse").value
    except CodesError:
        return None
    if amps > values.num("largest_fuse"):
        return None

    title = say(
        "Put a fuse of {amps} A into each string of {array}",
        amps=f"{amps:g}",
        array=view.name(owner),
    )
    return change_part(title, owner, {"string_fuse": write(amps, "current")})


RULE = Rule(
    "string-unfused",
    N_("Strings without fuses"),
    check,
    {"NA": "690.9", "INT": "712"},
)
