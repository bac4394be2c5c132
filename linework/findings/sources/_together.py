"""A part into which several sources or ways together, or one without a device, let more than it is
made for."""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Clear, Evidence, Hit, Level, NotChecked
from linework.findings.view import Look, View
from linework.study.answers.behind import Together, together, unguarded_bar
from linework.study.slack import within
from linework.study.wires.rated import Rated
from linework.words import N_

MESSAGE = N_(
    "{where} is made for {rated} A and can carry {amps} A before anything opens: what {feeders} let"
    " through adds up in it."
)
BOUNDED = N_(
    "{feeders} together let {amps} A into {where}, which is made for {rated} A, and that is right:"
    " the devices behind it let no more than {taken} A on."
)
UNGUARDED = N_(
    "{where} is made for {rated} A; {feeders} gives it up to {amps} A past no device, and what"
    " hangs there may take {taken} A of them."
)
ASSUMED_ONE = N_(
    "the rating of {where} is not given; the usual {rated} A would be too small for the {amps} A"
    " that {feeders} gives it past no device"
)
ASSUMED = N_(
    "the rating of {where} is not given; the usual {rated} A would be too small for the {amps} A"
    " that {feeders} together let into it"
)


def by_several(view: View, look: Look, rated: Rated) -> Iterator[Hit | NotChecked | Clear]:
    """At most one; none where sources meet, because what flows then is anybody's guess, and none
    where its far end only gives."""
    found = None if look.meeting else together(look.studies.situation, rated)
    if found is None or not found.taken_a or within(found.inflow.amps, rated.device_a):
        return
    feeders, words = _words(view, look, rated, found)
    if within(found.taken_a, rated.device_a):
        words["taken"] = f"{found.taken_a:.4g}"
        yield Clear((rated.part,), BOUNDED, words, view.clause({"NA": "705.12(B)"}), quiet=True)
    elif not rated.given:
        yield NotChecked(ASSUMED, words, (rated.part,), look.state)
    else:
        yield _hit(look, rated, found, words, feeders)


def by_one(view: View, look: Look, rated: Rated) -> Iterator[Hit | NotChecked]:
    """A bar or board that a source feeds past all devices with more than it is made for, where the
    devices behind it let more on than that."""
    found = None if look.meeting else unguarded_bar(look.studies.situation, rated)
    if found is None or within(found.taken_a, rated.device_a):
        return
    feeders, words = _words(view, look, rated, found)
    if not rated.given:
        yield NotChecked(ASSUMED_ONE, words, (rated.part,), look.state)
        return
    words["taken"] = f"{found.taken_a:.4g}"
    yield _hit(look, rated, found, words, feeders, UNGUARDED)


def _words(
    view: View, look: Look, rated: Rated, found: Together
) -> tuple[list[str], dict[str, str]]:
    """What lets the current in, and the words for it."""
    feeders = found.inflow.owners(look.studies.situation)
    return feeders, {
        "where": view.name(rated.part),
        "rated": f"{rated.amps:g}",
        "amps": f"{found.inflow.amps:.4g}",
        "feeders": view.names(feeders),
    }


def _hit(
    look: Look,
    rated: Rated,
    found: Together,
    words: dict[str, str],
    feeders: list[str],
    message: str = MESSAGE,
) -> Hit:
    return look.hit(
        Level.DANGER,
        (rated.part,),
        message,
        words,
        (
            Evidence(N_("comes together"), found.inflow.amps, "current"),
            Evidence(N_("made for"), rated.amps, "current"),
        ),
        touches=frozenset(feeders),
        clause="408.36" if rated.kind.board else "110.3(B)",
    )
