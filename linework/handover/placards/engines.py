"""Placards of sets: what is on the plate, how it is stopped and parted, what its exhaust does."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import circuits_of, order_of
from linework.handover.placards.asked import asked_at
from linework.handover.placards.boards import parts
from linework.handover.placards.sign import Placard
from linework.handover.rating_words import value_text as rating_words
from linework.kinds import OneOf
from linework.study.lockout import Sort
from linework.study.stands import place_of
from linework.study.walks import hanging_together
from linework.words import N_

PLATE = {"NA": "445.11", "INT": "514"}
STOP = {"NA": "445.18, 445.19", "INT": "537"}
FUMES = {"NA": "NFPA 1192, NFPA 72"}
"""What asks for them; from memory."""

_NEUTRALS = {
    "bonded": N_("Its {neutral} is joined to its {frame}."),
    "relay": N_("Its {neutral} is joined to its {frame} while it runs."),
    "floating": N_("Its {neutral} floats: it has no link of its own."),
}
_UNKNOWN = N_(
    "Whether its {neutral} is joined to its {frame} is not known: measure, write it here."
)


def plates(content: Content) -> Iterator[Placard]:
    """For each set what a person must know before plugging it in."""
    say = content.say
    design = content.design
    for part in _engines(content):
        values, kind = design.values(part), design.kind(part)
        power = rating_words(kind.declared["power"], values, content.family)
        lines = []
        if "neutral" in values.declared and values.applies("neutral"):
            known = not isinstance(values.answer("neutral"), OneOf)
            told = _NEUTRALS[values.pick("neutral")] if known else _UNKNOWN
            lines.append(say(told))
        gap = _gap(content, part)
        if gap:
            lines.append(
                say("Stop it here, take its key, then open {gap} and lock it.", gap=gap.designation)
            )
        else:
            lines.append(say("Stop it here, take its key: it may start again."))
        yield Placard(
            f"{part.title or say(kind.name)} {part.designation}",
            " · ".join(filter(None, (power, *_winding_words(content, part)))),
            tuple(lines),
            part.designation,
            False,
            asked_at(content, part, PLATE),
        )


def gaps(content: Content) -> Iterator[Placard]:
    """At the switch that parts a set which is wired in."""
    say = content.say
    for part in _engines(content):
        gap = _gap(content, part)
        if gap is not None:
            lines = (
                say(
                    "Its side stays live while {part} runs: stop that first.", part=part.designation
                ),
                say("Lock it open for work behind it."),
            )
            head = say("{Disconnect} of {part}", part=part.title or part.designation)
            clause = asked_at(content, part, STOP)
            yield Placard(head, gap.designation, lines, gap.designation, True, clause)


def _engines(content: Content) -> list[Part]:
    return [p for p in parts(content) if content.design.kind(p).source.driven]


def _winding_words(content: Content, part: Part) -> Iterator[str]:
    """Voltage, of two legs both, and frequency."""
    circuit = circuits_of(content.design, content.design.revision)[0]
    mine = [s.data for s in circuit.sources if s.owner == part.id]
    if mine:
        volts = round(mine[0].volts)
        opposed = len({data.phase_deg for data in mine}) > 1
        yield f"{volts}/{2 * volts} V" if opposed else f"{volts} V"
        yield f"{mine[0].hertz:g} Hz"


def _gap(content: Content, part: Part) -> Part | None:
    """The step of the lock-out that opens what a set is wired to; None for one that is plugged
    in: pulling its plug parts it."""
    design = content.design
    ways = {Sort.MAINS, Sort.TRANSFER}
    steps = [s.means.part for s in order_of(content).steps if s.means.sort in ways]
    live = {o for r in content.reports for (p, _), by in r.live.items() if p in steps for o in by}
    if part.id not in live:
        return None
    for each in hanging_together([part.id], lambda place: _fixed(content, place)):
        if each in steps:
            return design.part(each)
        if design.kind(design.part(each)).plugs:
            return None
    return None


def _fixed(content: Content, place: str) -> list[str]:
    """What is wired to a part or sits in it, but nothing past a board or a changeover."""
    design = content.design
    kind = design.kind(design.part(place))
    if kind.board or kind.transfers:
        return []
    ends = {end.part for run in design.runs_at(place) for end in (run.a, run.b)}
    ends |= {seat.host for seat in design.seats_of(place)}
    ends |= {seat.part for seat in design.seated_in(place)}
    return sorted(ends - {place}, key=lambda p: natural(content.name(p)))


# exhaust


def fumes(content: Content) -> Iterator[Placard]:
    """One for all engines: outside what is closed in, or, where one is built in, what to shut."""
    say = content.say
    design = content.design
    engines = _engines(content)
    if not engines:
        return
    built_in = [p for p in engines if _built_in(content, p)]
    slept = any(place_of(design, p.id).slept_in for p in engines)
    if built_in:
        big = say("Exhaust kills")
        lines = [say("Never run it in a closed place. Shut what opens beside its exhaust.")]
    else:
        big = say("Outdoors only")
        lines = [say("Away from doors, windows and vents. It has no smell.")]
    lines.append(
        say("Alarm tested before it runs; none, then nobody sleeps near it.")
        if slept
        else say("Fit an alarm where people sleep.")
    )
    where = say("{parts}, and where people are", parts=", ".join(p.designation for p in engines))
    clause = asked_at(content, engines[0], FUMES, like="alarms")
    yield Placard(say("Carbon monoxide"), big, tuple(lines), where, True, clause)


def _built_in(content: Content, part: Part) -> bool:
    """In a compartment, or afloat, where nobody carries it outdoors."""
    values = content.design.values(part)
    compartment = "indoors" in values.declared and values.pick("indoors") == "compartment"
    return compartment or place_of(content.design, part.id).afloat
