"""A kind that this version does not know: a plain box, kept, drawn and never judged sound."""

from __future__ import annotations

from linework.kinds.kind import Kind
from linework.kinds.values import Values
from linework.wiring import Inside, Terminal
from linework.words import N_


def terminals(values: Values) -> tuple[Terminal, ...]:
    """None that could be trusted."""
    return ()


def unknown(key: str) -> Kind:
    """A stand-in for a kind of this name."""
    return Kind(
        key=key,
        name=N_("unknown kind of part"),
        letters="U",
        strip="",
        ratings=(),
        terminals=terminals,
        inside=lambda values: Inside(),
        symbol=lambda values: "box",
    )
