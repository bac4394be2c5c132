"""The card beside the chosen part or run."""

from linework.bench.card.card import Card
from linework.bench.card.testerbars import TesterBars

__all__ = ["Card", "TesterBars"]
