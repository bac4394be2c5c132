"""The only code that makes, changes and removes the items of the scene.

The sheet on the scene is what :func:`~linework.sheet.compose.compose` lays out, so that screen
and paper are one. After a change it is shown at once with the ways of all runs that the change
does not touch kept as they lie; as soon as the hand rests it is laid out from scratch.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from time import monotonic

from PySide6.QtCore import QTimer

from linework.analysis import Analysis
from linework.bench.canvas.pieces import pieces_of
from linework.bench.canvas.scene import SheetScene
from linework.design import Change, Design, History, Part, Run, Seat, Settings
from linework.sheet.compose import Options, compose
from linework.sheet.lanes import Polyline

_LEAST_REST_S = 0.12
_REST_FACTOR = 2.0
"""The longer it takes to lay out a sheet, the longer the hand must rest before it is done."""


class Sync:
    """Keeps a scene equal to one sheet of the design of a history."""

    def __init__(self, scene: SheetScene, history: History, sheet: int = 1) -> None:
        self.scene = scene
        self.history = history
        self.sheet = sheet
        self.date = ""
        self.settled = False
        self._analysis: Analysis | None = None
        self._state = ""
        self._took_s = 0.0
        self._held = False
        self._closed = False
        self._timer = QTimer(scene)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._rested)
        history.listen(self._changed)
        self.rebuild()

    @property
    def design(self) -> Design:
        """The design that is shown."""
        return self.history.design

    def close(self) -> None:
        """Take no further notice of the history."""
        self._closed = True
        self._timer.stop()

    # what is shown

    def rebuild(self) -> None:
        """Remove every item and show the sheet from scratch."""
        self.scene.clear_pieces()
        self.settle()

    def settle(self) -> None:
        """Lay the sheet out from scratch now; only what differs is touched."""
        self._show({})
        self._timer.stop()
        self.settled = True

    def show_analysis(self, analysis: Analysis | None, state_key: str = "", case: str = "") -> None:
        """Show what is live in a state, and the findings' flags; None: the bare drawing.

        ``case``: of several cases of the state the one to be shown; "" takes the first.
        """
        self._analysis = None if analysis is None else _with_case_first(analysis, case)
        self._state = state_key if analysis is not None else ""
        if self._held:
            self.settled = False
        else:
            self.settle()

    def show_sheet(self, number: int) -> None:
        """Show another sheet of the design."""
        self.sheet = number
        self.rebuild()

    def hold(self, held: bool) -> None:
        """While the hand is busy nothing under it is laid out anew."""
        self._held = held
        if not held and not self.settled:
            self._settle_soon()

    # following the design

    def _changed(self, change: Change) -> None:
        if self._closed:
            return
        kept = _kept_ways(self.design, self.scene, change)
        self.settled = False
        self._show(kept)
        self.settled = not kept
        if kept and not self._held:
            self._settle_soon()

    def _settle_soon(self) -> None:
        self._timer.start(round(1000 * max(_LEAST_REST_S, _REST_FACTOR * self._took_s)))

    def _rested(self) -> None:
        if not self._held and not self.settled:
            self.settle()

    def _show(self, kept: dict[str, Polyline]) -> None:
        begun = monotonic()
        options = Options(sheet=self.sheet, date=self.date)
        layout = compose(self.design, self._analysis, self._state, options, kept)
        self.scene.lay(layout, pieces_of(self.design, layout))
        self._took_s = monotonic() - begun


def _with_case_first(analysis: Analysis, case: str) -> Analysis:
    reports = sorted(analysis.reports, key=lambda report: report.case != case)
    return replace(analysis, reports=tuple(reports))


def _kept_ways(design: Design, scene: SheetScene, change: Change) -> dict[str, Polyline]:
    """The ways of runs that a change does not touch; none where it may touch all."""
    if scene.layout is None or any(_is_settings(pair[0]) for pair in change.pairs.values()):
        return {}
    touched = touched_parts(design, change)
    kept: dict[str, Polyline] = {}
    for key, way in scene.layout.ways.items():
        run = design.get(key)
        if (
            isinstance(run, Run)
            and key not in change.pairs
            and not touched & {run.a.part, run.b.part}
        ):
            kept[key] = way
    return kept


def _is_settings(element: object) -> bool:
    return isinstance(element, Settings)


def touched_parts(design: Design, change: Change) -> set[str]:
    """Parts that a change may draw anew: those it names, what they sit in and what sits there."""
    named: set[str] = set()
    for pair in change.pairs.values():
        for element in pair:
            if isinstance(element, Part):
                named.add(element.id)
            elif isinstance(element, Seat):
                named |= {element.part, element.host}
            elif isinstance(element, Run):
                named |= {element.a.part, element.b.part}
    return _with_seated(design, named)


def _with_seated(design: Design, part_ids: Iterable[str]) -> set[str]:
    found: set[str] = set()
    ahead = list(part_ids)
    while ahead:
        part_id = ahead.pop()
        if part_id in found:
            continue
        found.add(part_id)
        ahead += [seat.host for seat in design.seats_of(part_id)]
        ahead += [seat.part for seat in design.seated_in(part_id)]
    return found
