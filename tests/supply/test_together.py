"""What may run together: by a published plan of a 30 A supply, and on drawn sources."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from linework.design import Draft
from linework.storage import load
from linework.supply.modes import Mode
from linework.supply.telling import run_together
from linework.supply.together import Asked, judged, together
from tests.supply.plants import PLACE, WIRE

SAMPLES = Path(__file__).resolve().parents[2] / "samples"
PLAN = {  # ampere, and whether for three hours and more: vehicle lists of currents (S191, S190)
    "cooling": (13.2, True),
    "water": (12.0, True),
    "microwave": (12.8, False),
    "charger": (5.0, True),
    "fridge": (1.7, True),
    "coffee": (8.3, False),
    "dryer": (12.5, False),
    "tv": (1.5, True),
}


def planned(names=PLAN, rated=30.0, surge=None, share=0.8):
    asked = [Asked(n, (PLAN[n][0],), (PLAN[n][0],), PLAN[n][1]) for n in names]
    return judged("S", Mode(), asked, rated, surge, share)


def test_the_plan_of_a_30_a_supply():
    """Of 255 combinations 101 keep within 30 A and 24 A for long; 11 of these are the largest."""
    found = planned()
    allowed = {
        some
        for size in range(1, 9)
        for some in combinations(sorted(PLAN), size)
        if any(set(some) <= set(each) for each in found.carried)
    }
    assert len(allowed) == 101
    assert len(found.carried) == 11
    assert ("charger", "coffee", "cooling", "fridge", "tv") in found.carried
    assert any({"microwave", "cooling"} < set(b) for b in found.barred)


def test_order_does_not_matter():
    assert planned(list(PLAN)).carried == planned(list(reversed(PLAN))).carried


def test_a_start_counts_on_top_of_what_runs():
    motor = Asked("motor", (5.0,), (30.0,))
    lamp = Asked("lamp", (6.0,), (6.0,))
    near = judged("S", Mode(), [motor, lamp], 20.0, 36.0)
    over = judged("S", Mode(), [motor, lamp], 20.0, 35.0)
    assert near.carried == (("lamp", "motor"),)
    assert over.barred == (("lamp", "motor"),)


def test_each_leg_for_itself():
    """20 A on one leg beside 20 A on the other is carried by 25 A a leg; both on one are not."""
    one, other = Asked("a", (20.0, 0.0), (20.0, 0.0)), Asked("b", (0.0, 20.0), (0.0, 20.0))
    same = Asked("c", (20.0, 0.0), (20.0, 0.0))
    assert judged("S", Mode(), [one, other], 25.0).barred == ()
    assert judged("S", Mode(), [one, same], 25.0).barred == (("a", "c"),)


def test_many_small_loads_count_as_always_on():
    asked = [Asked(f"E{n}", (1.0,), (1.0,)) for n in range(20)]
    found = judged("S", Mode(), asked, 10.0)
    assert len(found.always) == 6
    assert {len(each) for each in found.carried} == {4}


def kitchen(rating: str = "2 kVA") -> Draft:
    d = Draft(place="field", **PLACE)
    d.part("generator", "G1", "set", power=rating, neutral="bonded", outlets="0")
    d.part("load", "EA1", "kettle", power="1200 W")
    d.part("load", "EA2", "heater", power="1100 W")
    d.part("load", "EA3", "radio", power="20 W")
    for name in ("EA1", "EA2", "EA3"):
        d.run("G1.out", f"{name}.in", **WIRE)
    return d


def test_the_plain_sentence():
    design = kitchen().design
    (found,) = together(design)
    assert found.barred == (("EA1", "EA2"),)
    assert found.carried == (("EA1", "EA3"), ("EA2", "EA3"))
    told = run_together(design, [found])
    assert told[0] == "Not EA1 kettle and EA2 heater together on G1 set."
    assert "not known" in told[1]


def test_a_larger_set_carries_both():
    design = kitchen("3 kVA").design
    (found,) = together(design)
    assert found.barred == ()
    assert "may run together" in run_together(design, [found])[0]


def test_a_load_that_is_too_much_by_itself():
    found = together(kitchen("1.15 kVA").design)[0]
    assert found.alone == ("EA1",)
    assert "asks more than G1 set gives, by itself" in run_together(kitchen().design, [found])[0]


@pytest.mark.parametrize(
    ("sample", "source"), [("vaccination-trailer", "G1"), ("mountain-hut", "TB1")]
)
def test_samples_have_an_answer_for_each_source(sample: str, source: str):
    found = {each.source: each for each in together(load(SAMPLES / f"{sample}.linework"))}
    assert source in found
    assert found[source].carried
