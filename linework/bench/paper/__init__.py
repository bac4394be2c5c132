"""The paper on the screen: scene, sync, view and one tool for each mouse interaction."""

from linework.bench.paper.hits import Hit
from linework.bench.paper.runform import RunForm
from linework.bench.paper.view import KIND_MIME, SheetView

__all__ = ["KIND_MIME", "Hit", "RunForm", "SheetView"]
