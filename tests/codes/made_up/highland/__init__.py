"""A made-up family of a handful of values. It borrows the words of another, whose key it takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from linework.codes import CodesError, Sourced, Step, Worked
from linework.codes.families import Family
from linework.data import Confidence

AMPS = {"12 AWG": 20.0, "10 AWG": 30.0}


@dataclass(frozen=True)
class Highland(Family):
    edition: str = "7"
    key: str = "INT"

    @property
    def title(self) -> str:
        return f"Highland rules ({self.edition})"

    def ampacity(self, size: str, material: str, insulation_c: float, **_: Any) -> Worked[float]:
        if size not in AMPS:
            raise CodesError(f"{size} is not in the Highland rules")
        figure = Sourced(AMPS[size], "A", self.cite("1"), size, Confidence.DEFINED, "made up")
        return Worked(figure.value, "A", (Step("Table", "start", figure, figure.value, True),))

    def terminal_temperature(
        self, size: str, device_a: float | None, marked_c: int | None = None
    ) -> Sourced[int]:
        return Sourced(60, "C", self.cite("2"), "all", Confidence.DEFINED, "made up")

    def largest_device(self, ampacity: Any, size: str, *_: Any, **__: Any) -> Worked[float]:
        return self.ampacity(size, "copper", 60.0)


KEY, EDITIONS, MAKE = "INT", ("7",), Highland
