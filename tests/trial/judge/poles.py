"""What kinds of parts share: their poles, their hot ones, contacts from side to side."""

from __future__ import annotations

from tests.trial.judge.net import Net, Node, When
from tests.trial.judge.reading import Told

POLES = {
    "ac": ("L", "N", "PE"),
    "split": ("L1", "L2", "N", "PE"),
    "ac240": ("L1", "L2", "PE"),
    "dc": ("+", "-"),
}
LINE_V = 120.0


def poles(told: Told) -> tuple[str, ...]:
    """The poles of a part's circuit."""
    return POLES[told.word("circuit", "dc" if told.kind == "fuse" else "ac")]


def hots(of: tuple[str, ...]) -> tuple[str, ...]:
    """The hot ones among poles."""
    return tuple(p for p in of if p in ("L", "L1", "L2", "+"))


def through(
    net: Net,
    ends: tuple[str, str, str],
    told: Told,
    opened: tuple[str, ...],
    amps: float | None = None,
    when: When = None,
    senses: bool = False,
) -> None:
    """Contacts in some poles of a part from one terminal to another, the rest joined.

    ``ends``: the part and its two terminals.
    """
    name, a, b = ends
    for pole in poles(told):
        one, other = Node(name, a, pole), Node(name, b, pole)
        if pole in opened:
            net.contact(name, one, other, amps, when, senses)
        else:
            net.join(name, one, other)
