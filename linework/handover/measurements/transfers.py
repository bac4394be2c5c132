"""What must never meet: interlocks, levers, bare pins; and what changes over by itself."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import circuits_of
from linework.handover.measurements.line import Block, Measurement, basis, chosen, names
from linework.study.report import position_word

INTERLOCK = {"NA": "702.5", "INT": "551.6"}
PINS = {"NA": "406.7", "INT": "551.6"}
"""What asks for them; from memory."""

_BETWEEN_S = 1.0
"""What a changeover by itself takes at the most where a part between its positions is longer: it
looks at its source first."""


def transfers(content: Content) -> Iterator[Measurement]:
    """What bars two positions at once, tried; and no position of a transfer switch lets one source
    reach another."""
    say = content.say
    design = content.design
    for lock in design.interlocks:
        held = [f"{content.name(p)} {position_word(design, p, at)}" for p, _, at in lock.excludes]
        yield Measurement(
            f"interlock:{lock.id}",
            Block.LIVE,
            say(
                "Try for both, first dead: {positions}",
                positions=", ".join(sorted(held, key=natural)),
            ),
            "",
            say("cannot be"),
            basis=basis(content, INTERLOCK),
        )
    for part in chosen(content, lambda part: bool(design.kind(part).inputs)):
        yield Measurement(
            f"transfer:{part.id}",
            Block.LIVE,
            say(
                "{part}: at the input that is not chosen, in every position",
                part=part.designation,
            ),
            say("the source of that input off and its plug out"),
            say("0 V"),
            "",
            "V",
            ((None, 1.0),),
            basis(content, INTERLOCK),
        )


def pins(content: Content) -> Iterator[Measurement]:
    """At the pins of each inlet while everything else runs."""
    circuit = circuits_of(content.design, content.design.revision)[0]
    bare = {each.owner for each in circuit.pins}
    inlets = chosen(content, lambda part: content.design.kind(part).lets_in and part.id in bare)
    if inlets:
        yield Measurement(
            "pins",
            Block.LIVE,
            content.say(
                "Pins of {parts}, pulled out, all other sources on",
                parts=names(content, (part.id for part in inlets)),
            ),
            "",
            content.say("0 V"),
            "",
            "V",
            ((None, 1.0),),
            basis(content, PINS),
        )


def under_load(content: Content) -> Iterator[Measurement]:
    """What moves by itself: how long what it feeds is without."""
    say = content.say
    circuit = circuits_of(content.design, content.design.revision)[0]
    gaps: dict[str, list[float]] = {}
    for (owner, _), selector in circuit.selectors.items():
        gaps.setdefault(owner, []).extend(
            each.longest_s for each, _ in selector.passing if each.longest_s <= _BETWEEN_S
        )
    for part in chosen(content, lambda part: bool(gaps.get(part.id))):
        longest = max(gaps[part.id])
        yield Measurement(
            f"under-load:{part.id}",
            Block.LIVE,
            say("{part} changes over, drawn loads on, both ways", part=part.designation),
            say("the link of {neutral} moves once; nothing starts that was off"),
            say("{ms} ms at the most", ms=round(1000.0 * longest)),
            say("its data sheet counts"),
            "ms",
            ((None, 1000.0 * longest),),
        )
