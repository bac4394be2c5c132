"""States in words: the keys by which files name them, told as a person would."""

from __future__ import annotations

import re

from linework.design import Design
from linework.kinds import Kind
from linework.words import say

_TOKEN = re.compile(r"([^ =]+)=(.+?)(?= [^ =]+=| while |$)")
_MOVING = re.compile(r"while .+$")


def spoken_state(design: Design, key: str) -> str:
    """A state or arrangement in words: "G1 running, QT1 on generator, XP1 pulled out" for
    "G1=running QT1=generator XP1=unplugged"; what names no part of the design stays as it is."""
    told = [_position(design, name, position) for name, position in _TOKEN.findall(key)]
    moving = _MOVING.search(key)
    return ", ".join([*told, *([moving.group()] if moving else [])]) or key


def _position(design: Design, name: str, position: str) -> str:
    try:
        part = design.by_designation(name.split(".")[0])
    except KeyError:
        return f"{name}={position}"
    return _told(design.kind(part), name, position)


def _told(kind: Kind, name: str, position: str) -> str:
    if kind.source.solar:
        return say("{part} by day", part=name) if position == "day" else say("at night")
    if kind.plugs and position == "unplugged":
        return say("{part} pulled out", part=name)
    if kind.plugs:
        return say("{part} in {outlet}", part=name, outlet=position)
    if kind.transfers and position != "off":
        return say("{part} on {input}", part=name, input=position)
    return f"{name} {position}"
