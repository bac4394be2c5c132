"""Terminals as people call them: by what a switch is labelled, else in plain words."""

from __future__ import annotations

from linework.design import End
from linework.handover.content import Content
from linework.words import N_

_WORDS = {
    "ac_in": N_("AC in"),
    "ac_out": N_("AC out"),
    "battery1": N_("battery 1"),
    "battery2": N_("battery 2"),
    "dc": N_("DC"),
    "dc_in": N_("DC in"),
    "dc_out": N_("DC out"),
    "pv": N_("solar"),
    "set1": N_("set 1"),
    "set2": N_("set 2"),
    "boat": N_("boat side"),
    "bus": N_("bus"),
    "case": N_("case"),
    "frame": N_("frame"),
    "ground": N_("{ground}"),
    "inside": N_("inside"),
    "onward": N_("onward"),
    "outside": N_("outside"),
    "primary": N_("primary"),
    "secondary": N_("secondary"),
    "shore": N_("shore side"),
}


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
    word = _WORDS.get(end.terminal, "")
    return f"{part.designation} {content.say(word)}" if word else part.designation
