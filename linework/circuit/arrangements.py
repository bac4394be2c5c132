"""Sets of states told by few positions: merging, counting, comparing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from linework.circuit.choices import Arrangement, Choices
from linework.circuit.model import SelectorKey

Cube = frozenset[tuple[SelectorKey, str]]
"""The positions of an arrangement."""


@dataclass(frozen=True)
class Arrangements:
    """The states that agree with one of several arrangements: ``count`` states of rest.

    What stands only while a follower moves has that follower's position in its arrangements.
    """

    cubes: tuple[Cube, ...]
    count: int

    def holds(self, positions: Arrangement) -> bool:
        """Whether a state is one of these, by the positions of all selectors."""
        return any(all(positions.get(key) == at for key, at in cube) for cube in self.cubes)


def arranged(arrangements: Iterable[Arrangement], choices: Choices) -> Arrangements:
    """The states of some arrangements, told by few and wide ones."""
    cubes = merged(choices.pockets.widened(arrangements), choices)
    at_rest = [cube for cube in cubes if all(key in choices.free for key, _ in cube)]
    return Arrangements(cubes, number(at_rest, choices))


def merged(arrangements: Iterable[Arrangement], choices: Choices) -> tuple[Cube, ...]:
    """The same states by fewer and wider arrangements, sorted."""
    cubes = set(_widest({frozenset(a.items()) for a in arrangements}))
    changed = True
    while changed:
        changed = False
        for cube in sorted(cubes, key=_order):
            wider = _without_needless(cube, cubes, choices)
            if wider != cube:
                cubes = set(_widest({*cubes, wider}))
                changed = True
    return tuple(sorted(cubes, key=_order))


def _order(cube: Cube) -> tuple[int, list[tuple[SelectorKey, str]]]:
    return len(cube), sorted(cube)


def _widest(cubes: set[Cube]) -> list[Cube]:
    """Without those that lie in another."""
    found: list[Cube] = []
    for cube in sorted(cubes, key=_order):
        if not any(wide <= cube for wide in found):
            found.append(cube)
    return found


def _without_needless(cube: Cube, cubes: set[Cube], choices: Choices) -> Cube:
    """A cube without the selectors all of whose other positions are there as well."""
    for key, position in sorted(cube):
        if key not in choices.free:
            continue
        rest = cube - {(key, position)}
        others = (p for p in choices.free[key].positions if p != position)
        if all(_within(rest | {(key, p)}, cubes, choices) for p in others):
            cube = rest
    return cube


def _within(cube: Cube, cubes: Iterable[Cube], choices: Choices) -> bool:
    return any(wide <= cube for wide in cubes) or not choices.count(dict(cube))


def covered(cube: Cube, cubes: Iterable[Cube], choices: Choices) -> bool:
    """Whether every permitted state of an arrangement is in one of others."""
    near = [other for other in cubes if _meets(cube, other)]
    if any(other <= cube for other in near) or not choices.count(dict(cube)):
        return True
    if not near:
        return False
    key = _dividing(near, cube, choices)
    if key is None:
        return False
    return all(covered(cube | {(key, p)}, near, choices) for p in choices.free[key].positions)


def _dividing(cubes: list[Cube], within: Cube, choices: Choices) -> SelectorKey | None:
    """A selector of some arrangements that another leaves open."""
    open_ones = (key for cube in cubes for key, _ in sorted(cube - within))
    return next((key for key in open_ones if key in choices.free), None)


def number(cubes: Iterable[Cube], choices: Choices, within: Cube = frozenset()) -> int:
    """How many permitted states agree with one of some arrangements."""
    near = [cube for cube in cubes if _meets(cube, within)]
    if not near:
        return 0
    if any(cube <= within for cube in near):
        return choices.count(dict(within))
    key = _dividing(near, within, choices)
    if key is None:
        return choices.count(dict(within))
    return sum(number(near, choices, within | {(key, p)}) for p in choices.free[key].positions)


def met(one: Cube, other: Cube, choices: Choices) -> bool:
    """Whether some permitted state agrees with both of two arrangements."""
    return _meets(one, other) and choices.count(dict(one | other)) > 0


def _meets(one: Cube, other: Cube) -> bool:
    """Whether no selector stands differently in two arrangements."""
    known = dict(one)
    return all(known.get(key, at) == at for key, at in other)
