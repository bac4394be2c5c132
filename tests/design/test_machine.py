from __future__ import annotations

from hypothesis import settings

from linework.design import Design
from tests.design.machine import DesignMachine
from tests.design.sketches import shed


class FromNothing(DesignMachine):
    """A new drawing."""


class FromASketch(DesignMachine):
    """A drawing that is joined, seated and fed already."""

    def beginning(self) -> Design:
        return shed().design


TestFromNothing = FromNothing.TestCase
TestFromNothing.settings = settings(stateful_step_count=40)
TestFromASketch = FromASketch.TestCase
TestFromASketch.settings = settings(stateful_step_count=30)
