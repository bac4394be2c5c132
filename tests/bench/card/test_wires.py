"""Which conductor goes where, in writing."""

from __future__ import annotations

import pytest

from linework.bench.card.wires import read_wires, wires_text
from linework.design import EditError
from linework.wiring import Pole


def test_wires_are_written_and_read_alike() -> None:
    poles = ((Pole.L, Pole.N), (Pole.PE, Pole.PE))
    assert read_wires(wires_text(poles)) == poles
    assert read_wires("l>n, pe") == poles
    assert read_wires("  ") is None
    with pytest.raises(EditError, match="Q>L"):
        read_wires("Q>L")
