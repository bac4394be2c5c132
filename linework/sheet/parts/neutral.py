"""Whether a part joins neutral to ground, as its own elements say it."""

from __future__ import annotations

from typing import Literal

from linework.design import Design, Part
from linework.kinds import OneOf
from linework.wiring import Link, Pole

LinkKind = Literal["strap", "apart", "relay", "unknown"]
KEYS = ("bond", "neutral")
"""The ratings that say so: of boards, and of sources and converters."""


def neutral_link(design: Design, part: Part) -> tuple[LinkKind, bool] | None:
    """How neutral and ground are joined in a part, and whether that is assumed.

    None where the part has no neutral, or nothing that could join it to ground.
    """
    kind, values = design.kind(part), design.values(part)
    keys = [key for key in KEYS if key in kind.declared and values.applies(key)]
    has_neutral = any(Pole.N in terminal.poles for terminal in kind.terminals(values))
    if not keys or not has_neutral:
        return None
    if isinstance(values.answer(keys[0]), OneOf):
        return "unknown", True
    links = [e for e in kind.inside(values).elements if isinstance(e, Link) and e.bond]
    assumed = values.assumes(keys[0])
    if not links:
        return "apart", assumed
    return ("relay" if all(link.when for link in links) else "strap"), assumed
