"""After any edits, undos and redos: what is saved and read again is the design."""

from __future__ import annotations

import tempfile
from pathlib import Path

from hypothesis import settings
from hypothesis.stateful import invariant, rule

from linework.design import Design
from linework.storage import dumps, load, loads, save
from tests.design.machine import DesignMachine
from tests.design.sketches import shed


class SavingMachine(DesignMachine):
    """A person at work who saves now and then."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()

    def beginning(self) -> Design:
        return shed().design

    @invariant()
    def what_is_written_reads_as_the_design(self) -> None:
        data = dumps(self.design)
        again = loads(data, "as written")
        assert dict(again.elements) == self.now()
        assert dumps(again) == data

    @rule()
    def save(self) -> None:
        path = Path(self.folder.name) / "work.linework"
        save(self.design, path)
        assert dict(load(path).elements) == self.now()

    def teardown(self) -> None:
        super().teardown()
        self.folder.cleanup()


TestSaving = SavingMachine.TestCase
TestSaving.settings = settings(stateful_step_count=30)
