"""The signs in a block: contacts on a level line, devices between two of them, pens by conductor.

After IEC 60617 (S00227 make contact, S00362 fuse, S00253 variant with the arc of a breaker, S00835
winding; from memory).
"""

from __future__ import annotations

from linework.handover.threeline.model import Contact, Device, Inner, Means
from linework.picture.inks import BAR, HEAVY, MEDIUM, THIN, WIDE, Dash, Ink, Pen
from linework.picture.marks import alternating, cell, direct
from linework.picture.model import Arc, Circle, Group, Item, Line, Polyline, Rect
from linework.wiring import Pole

_THIN = Pen(width=THIN)
_SIGN = Pen(width=MEDIUM)
REACH = 24
"""Half the length of a contact."""


def pen_of(pole: str) -> Pen:
    """Lines and plus full and wide, neutral and minus dashed, ground and bonds in chains."""
    if pole in (Pole.N, Pole.MID, Pole.NEG):
        return Pen(width=MEDIUM, dash=Dash.DASHED)
    if pole in (Pole.PE, Pole.PEN, Pole.BODY, Pole.EARTH) or pole.startswith(Pole.BODY):
        return Pen(width=MEDIUM, dash=Dash.CHAIN)
    return Pen(width=WIDE)


def contact_sign(contact: Contact, x: int, y: int) -> list[Item]:
    """On a line through (x, y), which is left open for it over twice ``REACH``."""
    if contact.means is Means.WIRE:
        return [Line(x - REACH, y, x + REACH, y, _SIGN)]
    if contact.means is Means.BLOCKING:
        return _diodes(x, y)
    if contact.means is Means.FUSE:
        return [Rect(x - REACH, y - 9, 2 * REACH, 18, 0, _SIGN), Line(x - REACH, y, x + REACH, y)]
    if contact.means is Means.PLUG:
        return [
            Line(x - REACH, y, x - 8, y, _SIGN),
            Arc(x + 2, y, 10, 10, 90, 180, _SIGN),
            Rect(x - 2, y - 4, 14, 8, 0, None, Ink.INK),
            Line(x + 12, y, x + REACH, y, _SIGN),
        ]
    ends: list[Item] = [Circle(x + s * 17, y, 5, _THIN, Ink.PAPER) for s in (-1, 1)]
    ends += [Line(x + s * 22, y, x + s * REACH, y, _SIGN) for s in (-1, 1)]
    if contact.means is Means.BREAKER:
        return [*ends, Arc(x, y - 2, 18, 10, 180, 180, _SIGN)]
    lift = 5 if contact.closed else 14
    return [*ends, Line(x - 13, y - 3, x + 16, y - lift, _SIGN)]


def _diodes(x: int, y: int) -> list[Item]:
    """Two side by side, one for each way."""
    sign: list[Item] = [Rect(x - REACH, y - 13, 2 * REACH, 26, 0, _SIGN, Ink.PAPER)]
    for turn, at in ((1, y - 6), (-1, y + 6)):
        tip = x + turn * 6
        head = ((x - turn * 6, at - 5), (tip, at), (x - turn * 6, at + 5))
        sign += [
            Line(x - REACH, at, x + REACH, at, _THIN),
            Polyline(head, True, None, Ink.INK),
            Line(tip, at - 5, tip, at + 5, _THIN),
        ]
    return sign


def bond_sign(contact: Contact, left: int, right: int, x: int, y: int) -> list[Item]:
    """A link between unlike conductors: thick from bar to bar; a relay's with a contact at x."""
    dash = Dash.SOLID if contact.certain else Dash.DASHED
    pen = Pen(width=BAR, dash=dash)
    if not contact.moves:
        return [Line(left, y, right, y, pen)]
    pen = Pen(width=HEAVY, dash=dash)
    return [
        Line(left, y, x - REACH, y, pen),
        Line(x + REACH, y, right, y, pen),
        *contact_sign(contact, x, y),
    ]


def device_sign(inner: Inner, x: int, high: int, low: int) -> list[Item]:
    """Upright at x, from the line at ``high`` to that at ``low``."""
    middle = (high + low) // 2
    if inner.device is Device.CELLS:
        sign: list[Item] = [Group(cell(0, 0, 30, _SIGN), x, middle, turn=3)]
        return [*sign, Line(x, high, x, middle - 10), Line(x, middle + 10, x, low)]
    if inner.device is Device.WINDING:
        tall = (low - high) // 3
        arcs: list[Item] = [
            Arc(x, high + tall // 2 + n * tall, 9, tall // 2, 270, 180, _SIGN) for n in range(3)
        ]
        return [*arcs, Line(x, high + 3 * tall, x, low, _SIGN)]
    if inner.device is Device.SOURCE:
        inside = direct(x, middle, 20) if inner.direct else alternating(x, middle, 22)
        stems = [Line(x, high, x, middle - 19), Line(x, middle + 19, x, low)]
        return [Circle(x, middle, 19, _SIGN, Ink.PAPER), *inside, *stems]
    return [
        Rect(x - 9, middle - 15, 18, 30, 0, _SIGN, Ink.PAPER),
        Line(x, high, x, middle - 15),
        Line(x, middle + 15, x, low),
    ]
