"""The card beside the chosen part or run."""

from linework.bench.card.card import Card
from linework.bench.card.row import Row, row_for
from linework.bench.card.testerbars import TesterBars

__all__ = ["Card", "Row", "TesterBars", "row_for"]
