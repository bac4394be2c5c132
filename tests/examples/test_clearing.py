"""Published examples of what opens first."""

from __future__ import annotations

from linework.codes import maker_band
from tests.examples.published import published


@published("053", "Selective coordination (fuse maker's library)", "studylib.net/doc/26045677")
def test_two_fuses_in_series() -> None:
    # Read from the curves at 1000 A: a 100 A fuse clears in 1.75 s, a 400 A one begins to melt at
    # 90 s. The points besides are ours: a band needs two edges.
    small = maker_band(100.0, [(1000.0, 1.75)], [(500.0, 10.0)], "sheet")
    large = maker_band(400.0, [(1000.0, 200.0)], [(600.0, 900.0), (1000.0, 90.0)], "sheet")
    assert small.opens_by_s(1000.0) < large.may_open_s(1000.0)
