"""Terminals as people call them: by what a switch is labelled, else in plain words."""

from __future__ import annotations

from linework.design import End
from linework.handover.content import Content
from linework.kinds.terminal_words import TERMINAL_WORDS


def end_text(content: Content, end: End) -> str:
    """ "QT1 shore", "TB1 AC in", "QP1 ground", "MA1"."""
    design = content.design
    part = design.part(end.part)
    kind = design.kind(part)
    named = {each.terminal: each.name for each in kind.inputs}
    if end.terminal in named:
        called = design.values(part).text(named[end.terminal])
        return f"{part.designation} {called}".strip()
    # what feeds or leads on needs no word: there is no other that could be meant
    word = TERMINAL_WORDS.get(end.terminal, "")
    return f"{part.designation} {content.say(word)}" if word else part.designation
