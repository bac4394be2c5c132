"""A design built from Python, a line a part."""

from __future__ import annotations

from linework.design.change import Change
from linework.design.edits import (
    add_part,
    add_run,
    change_settings,
    rate,
    rate_run,
    remove,
    seat,
    set_poles,
)
from linework.design.elements import End, Part, Run
from linework.design.model import Design
from linework.design.names import next_run_designation
from linework.design.poles import PoleMap
from linework.kinds import Answer
from linework.wiring import Pole


class Draft:
    """Builds a :class:`Design` step by step; each call is an ordinary edit.

    >>> draft = Draft(place="field")
    >>> _ = draft.part("generator", "G1", power="5 kVA", neutral="floating")
    >>> _ = draft.part("outlet", "X1", configuration="5-20")
    >>> draft.run("G1.out", "X1.feed", size="12 AWG", length="6 ft").designation
    'W1'
    """

    def __init__(self, **settings: str | bool) -> None:
        self.design = Design()
        self._do(change_settings(self.design, **settings))

    def part(
        self,
        kind: str,
        designation: str,
        title: str = "",
        at: tuple[int, int] = (0, 0),
        **ratings: Answer,
    ) -> Part:
        """A new part; ``ratings`` by key, as typed."""
        self._do(
            add_part(
                self.design,
                kind,
                designation=designation,
                part_id=designation,
                title=title,
                at=at,
                ratings=ratings,
            )
        )
        return self.design.part(designation)

    def run(self, a: str, b: str, name: str = "", poles: str = "", **ratings: Answer) -> Run:
        """A run between two terminals written "G1.out".

        ``poles``: "L>N N>L PE>PE" where they are not the default.
        """
        mapped = _poles(poles) if poles else None
        name = name or next_run_designation(self.design)
        change = add_run(
            self.design,
            self._end(a),
            self._end(b),
            ratings=ratings,
            poles=mapped,
            designation=name,
            run_id=name,
        )
        self._do(change)
        return next(new for _, new in change.pairs.values() if isinstance(new, Run))

    def seat(self, part: str, host: str, place: str) -> None:
        """A part put into a place of another."""
        ids = (self.design.by_designation(part).id, self.design.by_designation(host).id)
        self._do(seat(self.design, *ids, place))

    def rate(self, part: str, **answers: Answer | None) -> None:
        """Ratings of a part set or taken away."""
        self._do(rate(self.design, self.design.by_designation(part).id, answers))

    def rate_run(self, run: str, **answers: Answer | None) -> None:
        """Ratings of a run set or taken away."""
        self._do(rate_run(self.design, self._run_id(run), answers))

    def run_poles(self, run: str, poles: str) -> None:
        """The conductors of a run, as in :meth:`run`."""
        self._do(set_poles(self.design, self._run_id(run), _poles(poles)))

    def cut(self, *runs: str) -> None:
        """Runs taken away."""
        self._do(remove(self.design, [self._run_id(run) for run in runs]))

    def remove(self, *parts: str) -> None:
        """Parts taken away, with their runs and seats."""
        self._do(remove(self.design, [self.design.by_designation(p).id for p in parts]))

    def _run_id(self, name: str) -> str:
        for run_id in self.design.named(Run, name):
            return run_id
        raise KeyError(name)

    def _end(self, text: str) -> End:
        name, _, terminal = text.rpartition(".")
        return End(self.design.by_designation(name).id, terminal)

    def _do(self, change: Change) -> None:
        self.design.apply(change)


def _poles(text: str) -> PoleMap:
    pairs = (item.partition(">") for item in text.split())
    return tuple((Pole(a), Pole(b or a)) for a, _, b in pairs)
