"""The conductor positions of a terminal (IEC 60445 letters)."""

from enum import StrEnum


class Pole(StrEnum):
    """One conductor position: a line, neutral, protective or direct-current conductor."""

    L = "L"
    L1 = "L1"
    L2 = "L2"
    L3 = "L3"
    N = "N"
    PE = "PE"
    PEN = "PEN"
    POS = "+"
    MID = "M"
    NEG = "-"
    BODY = "body"
    EARTH = "earth"


_LINES = frozenset({Pole.L, Pole.L1, Pole.L2, Pole.L3})
_DIRECT = frozenset({Pole.POS, Pole.MID, Pole.NEG})
_PROTECTIVE = frozenset({Pole.PE, Pole.PEN, Pole.BODY, Pole.EARTH})


def is_ac(pole: Pole) -> bool:
    """True for the poles that carry alternating current in normal use."""
    return pole in _LINES or pole is Pole.N


def is_dc(pole: Pole) -> bool:
    """True for the poles of a direct-current circuit."""
    return pole in _DIRECT


def is_protective(pole: Pole) -> bool:
    """True for what touchable metal is joined to: ground wire, body, earth."""
    return pole in _PROTECTIVE


def is_ungrounded(pole: Pole) -> bool:
    """True for the poles that stand at a voltage to ground in a grounded system."""
    return pole in _LINES or pole is Pole.POS
