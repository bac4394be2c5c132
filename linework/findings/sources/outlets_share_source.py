"""Outlets of one source that add up to more than it delivers.

What is checked
    Each generator or inverter with two or more outlets in use in its own
    panel: whether their ratings together exceed its own.
Why it matters
    A second cord adds contacts, not power: both hang on the same windings.
How to cure it
    Count the loads of all cords against the one rating.
Limits
    What the drawn loads really ask for is source-overloaded. Outlets into which
    nothing is drawn do not count.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.quantity import read
from linework.study.wires.rated import ends_of
from linework.words import N_

MESSAGE = N_(
    "{outlets} in use on {source} are made for {together} in all; it gives {power}. A second cord"
    " adds no power."
)
FAULT = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One note for each source."""
    for part in sorted(view.design.parts, key=lambda p: natural(p.designation)):
        values = view.values(part.id)
        if "power" not in values.declared or not values.has("power"):
            continue
        power = values.num("power")
        try:
            outlets = _together(view, part.id)
            together = sum(_watts(view, outlet) for outlet in outlets)
        except CodesError as fault:
            yield NotChecked(FAULT, {"fault": fault}, (part.id,))
            continue
        if len(outlets) > 1 and together > power:
            yield Hit(
                Level.NOTE,
                (part.id,),
                MESSAGE,
                {
                    "outlets": ", ".join(view.name(outlet) for outlet in outlets),
                    "source": part.designation,
                    "together": f"{together / 1000.0:.3g} kVA",
                    "power": f"{power / 1000.0:.3g} kVA",
                },
                (
                    Evidence(N_("outlets in use together"), together, "apparent_power"),
                    Evidence(N_("rating of the source"), power, "apparent_power"),
                ),
                touches=frozenset(outlets),
            )


def _together(view: View, host: str) -> list[str]:
    """The outlets of a source that can be in use at once, those of the greatest power: a plug that
    a person moves between several counts in one of them."""
    guests = {o: mine for o in _outlets(view, host) if (mine := _guests(view, o))}
    if len(guests) < 2:
        return list(guests)
    taken: dict[str, str] = {}  # each guest with the outlet in which it counts

    def finds_room(outlet: str, asked: set[str]) -> bool:
        """Whether an outlet gets a guest, others moving on to guests of theirs."""
        for guest in guests[outlet]:
            if guest not in asked:
                asked.add(guest)
                if guest not in taken or finds_room(taken[guest], asked):
                    taken[guest] = outlet
                    return True
        return False

    by_name = sorted(guests, key=view.order)
    strongest_first = sorted(by_name, key=lambda outlet: -_watts(view, outlet))
    found = {outlet for outlet in strongest_first if finds_room(outlet, set())}
    return [outlet for outlet in by_name if outlet in found]


def _outlets(view: View, host: str) -> list[str]:
    """The outlets in a source's own panel, behind breakers there too."""
    found: list[str] = []
    for seat in view.design.seated_in(host):
        own = view.kind(seat.part).receptacle
        found += [seat.part] if own else _outlets(view, seat.part)
    return found


def _guests(view: View, outlet: str) -> list[str]:
    """What takes power from an outlet."""
    return [end for end in ends_of(view.design, outlet) if not view.kind(end).bridges]


def _watts(view: View, outlet: str) -> float:
    """What an outlet is made for in volt-ampere, at the voltage of the design on each leg."""
    values = view.values(outlet)
    made = configuration(values.text("configuration"))
    volts = read(view.design.settings.voltage, "voltage")
    legs = 2.0 if values.pick("circuit") in ("split", "ac240") else 1.0
    return made.amps * volts * legs


RULE = Rule(
    "outlets-share-source",
    N_("Outlets share one source"),
    check,
    {"NA": "practice", "INT": "practice"},
)
