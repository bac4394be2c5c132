"""What tools and keys ask of the view they work on."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol

from PySide6.QtCore import QPoint

from linework.bench.paper.scene import SheetScene
from linework.bench.paper.sync import Sync
from linework.design import History
from linework.picture.geometry import Box


class Board(Protocol):
    """The view, as far as tools need it; see :class:`~linework.bench.paper.view.SheetView`."""

    selection: tuple[str, ...]
    sheet_scene: SheetScene
    sync: Sync

    @property
    def history(self) -> History:
        """The history that is drawn on."""
        ...

    @property
    def slop(self) -> int:
        """How near is near enough for thin things."""
        ...

    @property
    def visible_box(self) -> Box:
        """The part of the sheet that is in view."""
        ...

    def select(self, element_ids: Iterable[str]) -> None:
        """Choose elements, and no others."""
        ...

    def refuse(self, why: str) -> None:
        """Say why something was not done."""
        ...

    def show_hint(self, text: str) -> None:
        """A small text at the pointer."""
        ...

    def ask(self, labels: tuple[str, ...], then: Callable[[int], None]) -> None:
        """A small menu at the pointer."""
        ...

    def scroll_by(self, pixels: QPoint) -> None:
        """Shift the sheet under the window."""
        ...
