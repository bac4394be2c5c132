"""The whole set, or some sheets of it, as PDF."""

from __future__ import annotations

from linework.handover.content import Content
from linework.handover.document import pages_bytes
from linework.handover.formats.asked import chosen


def make(content: Content, asked: tuple[str, ...]) -> dict[str, bytes]:
    """One file. HandoverError for a sheet that is not in the set."""
    if not asked:
        return {"": pages_bytes(content)}
    return {"": pages_bytes(content, choose=lambda known: chosen(asked, known))}
