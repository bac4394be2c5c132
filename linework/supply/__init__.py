"""Supply over time: whether a design carries its loads, and for how long.

Data flows one way: `figures` and `climate` (tables, settings) and `modes` (which sources are there,
from the circuit) -> `plant` (banks, what hangs on them) -> `exogenous` (what a day asks and brings)
-> `simulate` (the charge of the banks, step by step) -> `answers` (bands).
"""

from linework.supply.answers import Answers, answer
from linework.supply.climate import SupplyError

__all__ = ["Answers", "SupplyError", "answer"]
