"""A device rated below the current that it carries.

What is checked
    In every state, with all drawn loads on: the current in each fuse and
    breaker, those built into sources and boards included, against its rating.
    In the circuits of solar arrays: 156 % of the short-circuit current of the
    plates, and 125 % of a controller's output.
Why it matters
    It opens in use, sooner or later, and what it feeds goes dead.
How to cure it
    A larger device where the conductors allow it, else fewer loads on it.
Limits
    All drawn loads are taken to run together. Starting currents are judged
    elsewhere.
Sources
    NFPA 70 (2023) 210.20, 215.3, 690.8, 690.9(B); IEC 60364-4-43 433.1.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.overcurrent._larger_device import larger_device
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.carried import Carried, carried, needed_a, runs_behind
from linework.study.slack import exceeds, shows_more
from linework.study.ways.solar_devices import InTheSun, devices_in_the_sun
from linework.words import N_

MESSAGE = N_("{device} carries {amps} A with all drawn loads on; it is rated {rating} A.")
SUN = N_(
    "{device} is rated {rating} A and needs {amps} A for {source}, which gives its current all day"
    " and more in bright sun."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device beyond its rating."""
    for look in view.settled_looks:
        for item in carried(look.studies):
            if shows_more(item.amps, item.rating_a):
                yield _hit(view, look, item)
        for each in devices_in_the_sun(view.design, look.studies.situation):
            if exceeds(each.needed_a, each.device.data.rating_a):
                yield _in_the_sun(view, look, each)


def _hit(view: View, look: Look, item: Carried) -> Hit:
    return look.hit(
        Level.WARNING,
        (item.device.owner,),
        MESSAGE,
        {
            "device": view.name(item.device.owner),
            "amps": f"{item.amps:.1f}",
            "rating": f"{item.rating_a:g}",
        },
        (
            Evidence(N_("current"), item.amps, "current"),
            Evidence(N_("rated"), item.rating_a, "current"),
        ),
        touches=runs_behind(look.studies, item.device),
        mend=larger_device(view, look, item.device, needed_a(view.design, item)),
    )


def _in_the_sun(view: View, look: Look, item: InTheSun) -> Hit:
    rating = item.device.data.rating_a
    return look.hit(
        Level.WARNING,
        (item.device.owner,),
        SUN,
        {
            "device": view.name(item.device.owner),
            "source": ", ".join(map(view.name, item.sources)),
            "amps": f"{item.needed_a:.1f}",
            "rating": f"{rating:g}",
        },
        (
            Evidence(N_("needed"), item.needed_a, "current"),
            Evidence(N_("rated"), rating, "current"),
        ),
        touches=runs_behind(look.studies, item.device) | set(item.sources),
        mend=larger_device(view, look, item.device, item.needed_a),
        clause=view.clause({"NA": "690.8(B), 690.9(B)"}),
    )


RULE = Rule(
    "device-below-load",
    N_("Device smaller than its load"),
    check,
    {"NA": "210.20, 215.3", "INT": "433.1"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "source-overloaded",
        "inverter-input-small",
        "voltage-wrong",
    ),
    hangs_on=("metal-live", "conductors-shorted"),
)
