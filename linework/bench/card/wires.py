"""A run's pole map as a person reads and writes it: "L>L N>N PE>PE"."""

from __future__ import annotations

from linework.design import Design, EditError, PoleMap, Run, pole_map
from linework.wiring import Pole
from linework.words import say


def wires_text(poles: PoleMap | None, design: Design | None = None, run: Run | None = None) -> str:
    """The map in words; of None the one that the run's terminals make by themselves."""
    if poles is None:
        if design is None or run is None:
            return ""
        return f"[{wires_text(pole_map(design, run))}]"
    return " ".join(f"{a}>{b}" for a, b in poles)


def read_wires(text: str) -> PoleMap | None:
    """The map that was typed; None for nothing. EditError with an example where it is none."""
    pairs = []
    for word in text.replace(",", " ").split():
        a, _, b = word.partition(">")
        try:
            pairs.append((_pole(a), _pole(b or a)))
        except ValueError:
            raise EditError(
                say("'{word}' is no pair of conductors; write for example L>L N>N PE>PE", word=word)
            ) from None
    return tuple(pairs) or None


def _pole(text: str) -> Pole:
    known = {pole.value.casefold(): pole for pole in Pole}
    try:
        return known[text.strip().casefold()]
    except KeyError:
        raise ValueError(text) from None
