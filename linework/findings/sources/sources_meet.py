"""Two sources on one conductor.

What is checked
    In every permitted position of levers, plugs and sources, and while
    followers change over: whether two AC sources of different parts, or AC
    and DC, energise one conductor; and whether an output of direct current that is
    made to give alone lies on a battery.
Why it matters
    Out of step they short each other: fire, wrecked machines, and a supply
    that is live for the people who work on it.
How to cure it
    A transfer switch, an interlock, or one plug that can be in one outlet only.
Limits
    Sets that are said to run in parallel by their maker's kit are believed: that
    both are of the makes that it is for is not seen. Batteries and chargers on
    one DC circuit are meant to be together.
Sources
    NFPA 70 (2023) 702.5, 705; IEC 60364-5-551.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.energised import Meeting
from linework.study.ways.paths import way
from linework.words import N_

MESSAGE = N_("{one} and {other} can be on the same conductors at once, out of step.")
AT = N_(
    "{one} and {other} can be on the same conductors at once, out of step: both reach {where}, and"
    " nothing there keeps them apart."
)
MIXED = N_("{one} and {other} meet on one conductor, one of them alternating, the other direct.")
FED_BACK = N_(
    "{one} lies on the conductors of {other}: its output is made to give, and the battery drives"
    " current back into it or takes all that it has. Use one of the two at a time, or a charger"
    " that is made for the battery."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each pair of sources that meet."""
    for look in view.looks:
        for meeting in look.studies.energised.meetings:
            yield _hit(view, look, meeting)
    for look in view.settled_looks:
        yield from _on_batteries(view, look)


def _on_batteries(view: View, look: Look) -> Iterator[Hit]:
    """Outputs of direct current that hold a voltage of their own, on the posts of a battery."""
    situation = look.studies.situation
    label, active = situation.conductive, [s for _, s in situation.active if s.data.hertz == 0.0]
    for source in active:
        group = source.data.group
        if group.stores or group.sealed or group.limits_itself:
            continue
        ends = label[source.plus], label[source.minus]
        cells = {
            s.owner
            for s in active
            if s.data.group.stores and (label[s.plus], label[s.minus]) == ends
        }
        if cells:
            yield look.hit(
                Level.WARNING,
                (source.owner,),
                FED_BACK,
                {"one": view.name(source.owner), "other": view.names(cells)},
                (Evidence(N_("voltage of the output"), source.data.volts, "voltage"),),
                touches=frozenset(cells),
            )


def _hit(view: View, look: Look, meeting: Meeting) -> Hit:
    owners = tuple(sorted((meeting.one.owner, meeting.other.owner)))
    sources = look.studies.circuit.sources
    apart = abs(sources[meeting.one.source].data.volts) + abs(
        sources[meeting.other.source].data.volts
    )
    mixed = meeting.one.is_ac != meeting.other.is_ac
    where = _board(view, look, meeting)
    return look.hit(
        Level.DANGER,
        owners,
        MIXED if mixed else AT if where else MESSAGE,
        {"one": view.name(owners[0]), "other": view.name(owners[1]), "where": where},
        (Evidence(N_("voltage between them at the worst angle"), apart, "voltage"),),
    )


def _board(view: View, look: Look, meeting: Meeting) -> str:
    """The board or switch nearest to both on the conductors on which they meet, "" for none."""
    situation = look.studies.situation
    starts = [situation.circuit.sources[s.source].plus for s in (meeting.one, meeting.other)]
    steps: dict[str, int] = {}
    for (part, _), nodes in situation.circuit.terminals.items():
        for node in nodes.values():
            if situation.clusters[node] == meeting.label and _is_board(view, part):
                ways = [way(situation, start, node) or [] for start in starts]
                steps[part] = min(sum(map(len, ways)), steps.get(part, sum(map(len, ways))))
    nearest = min(steps, key=lambda part: (steps[part], view.name(part)), default="")
    return view.name(nearest) if nearest else ""


def _is_board(view: View, part: str) -> bool:
    return view.part(part) is not None and (view.kind(part).board or view.kind(part).transfers)


RULE = Rule(
    "sources-meet",
    N_("Two sources can meet"),
    check,
    {"NA": "702.5, 705", "INT": "5-551"},
)
