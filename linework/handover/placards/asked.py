"""What asks for a placard where it goes: the clauses that hold there, or that it is practice."""

from __future__ import annotations

from collections.abc import Mapping

from linework.codes.citing import PRACTICE, Where, cited, holds
from linework.design import Part
from linework.handover.content import Content
from linework.study.stands import place_of


def asked_at(
    content: Content, part: Part, clauses: Mapping[str, str], device: str = "", like: str = ""
) -> str:
    """Those of some clauses, by family, that hold where a part stands, as the caption says them.

    ``device``: "breaker" or "fuse" where the placard is about one. ``like``: the rule whose
    standard is cited afloat; without one a placard there is practice, for no marine clause on
    signs has been read.
    """
    found = cited(
        content.family, like, clauses.get(content.family, ""), _where(content, part, device)
    )
    return content.say("practice, no clause") if found in ("", PRACTICE) else found


def holds_at(content: Content, part: Part, clauses: Mapping[str, str]) -> bool:
    """Whether any clause of the family holds where a part stands: for what only a clause asks."""
    line = clauses.get(content.family, "")
    where = _where(content, part, "")
    return any(holds(content.family, each, where) for each in line.split(", ") if each)


def _where(content: Content, part: Part, device: str) -> Where:
    design = content.design
    solar = any(design.kind(each).source.solar for each in design.parts)
    return Where(place_of(design, part.id).value, solar, device)
