"""Whether terminals can be joined and parts seated: the reason why not, or an empty text."""

from __future__ import annotations

from collections.abc import Iterable

from linework.design.poles import PoleMap, default_map, left_open, misfit
from linework.kinds import Kind, Values
from linework.wiring import Place, Pole, Terminal, is_ac, is_dc, is_ungrounded
from linework.words import say

Names = tuple[str, str]
"""The designations of the two parts concerned."""


def cannot_join(a: Terminal | None, b: Terminal | None, poles: PoleMap | None, names: Names) -> str:
    """Why no run can lie between two terminals with this pole map (None: the default)."""
    if a is None or b is None:
        return say("there is no terminal of this name")
    if poles is None and not default_map(a, b):
        told = {"a": names[0], "b": names[1], "p": listed(a.poles), "q": listed(b.poles)}
        if _currents(a) and _currents(b) and not _currents(a) & _currents(b):
            return say(
                "{a} has {p} and {b} has {q}: no conductor fits both, and direct current is never"
                " joined to alternating",
                **told,
            )
        return say(
            "{a} has {p} and {b} has {q}: no conductor fits both; say which goes where", **told
        )
    if poles is not None and not poles:
        return say("a run needs at least one conductor")
    if len(set(poles or ())) < len(poles or ()):
        return say("the same two conductors are joined twice")
    bad = misfit(a, b, poles or ())
    if bad:
        return say("{p} of {a} cannot go to {q} of {b}", a=names[0], b=names[1], p=bad[0], q=bad[1])
    return ""


def _currents(terminal: Terminal) -> frozenset[str]:
    """Which sorts of current its conductors carry in normal use."""
    sorts = {"ac": any(map(is_ac, terminal.poles)), "dc": any(map(is_dc, terminal.poles))}
    return frozenset(sort for sort, carried in sorts.items() if carried)


def must_ask(a: Terminal, b: Terminal, names: Names) -> str:
    """What the default pole map would have to guess: a live conductor with no place of its name."""
    p, q = left_open(a, b)
    if not p or not q:
        return ""
    return say(
        "{p} of {a} may go to {q} of {b}: say which goes where",
        a=names[0],
        b=names[1],
        p=listed(p),
        q=say(" or ").join(q),
    )


def cannot_sit(kind: Kind, values: Values, place: Place | None, names: Names, asked: str) -> str:
    """Why a part cannot sit in a place of its host, whoever else sits there."""
    what, host = names
    if place is None:
        return say("{host} has no place '{place}'", host=host, place=asked)
    if not kind.seat or not place.accepts & kind.roles:
        return say("{what} does not sit in {host}", what=what, host=host)
    own = next((t for t in kind.terminals(values) if t.name == kind.seat), None)
    offered = [pole for pole, _ in place.offers]
    lacking = [pole for pole in own.poles if pole not in offered] if own else []
    if lacking:
        return say(
            "{what} needs {p}, which place {place} of {host} does not have",
            what=what,
            host=host,
            place=place.name,
            p=listed(lacking),
        )
    if place.next is None and on_two_legs(kind, values):
        return say(
            "{what} takes two places, and none lies below place {place} of {host}",
            what=what,
            place=place.name,
            host=host,
        )
    return ""


def on_two_legs(kind: Kind, values: Values) -> bool:
    """Whether a part sits with two hot poles."""
    own = next((t for t in kind.terminals(values) if t.name == kind.seat), None)
    return own is not None and sum(map(is_ungrounded, own.poles)) > 1


def listed(poles: Iterable[Pole]) -> str:
    """Poles as a person reads them."""
    return ", ".join(poles)
