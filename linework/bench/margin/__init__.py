"""The sheet's right margin: findings, why they are some, and the parts tree in their place."""

from linework.bench.margin.margin import Margin
from linework.bench.margin.text import earlier_acceptances
from linework.bench.margin.tree import PartsTree
from linework.bench.margin.whywindow import WhyWindow

__all__ = ["Margin", "PartsTree", "WhyWindow", "earlier_acceptances"]
