"""What stands in for answers that were not given, as the sheets show it in brackets."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Part
from linework.design.names import natural
from linework.findings.assumptions import Assumed, answer_text
from linework.handover.content import Content
from linework.kinds import Values

_ALSO = frozenset({"charged_voltage", "main_interrupting"})
"""Ratings that ask nothing of a person who draws, but of which the sheets show a figure of ours."""


def stands_in(values: Values, key: str) -> bool:
    """Whether a figure of ours is shown: that of the design's settings is none."""
    return values.assumes(key) or (key in _ALSO and not values.given(key) and values.applies(key))


def assumed_of(content: Content) -> list[Assumed]:
    """All values assumed: those of the analysis, then what else the sheets show in brackets."""
    return [*content.analysis.assumed, *_also(content)]


def _also(content: Content) -> Iterator[Assumed]:
    for part in sorted(content.design.parts, key=lambda p: natural(p.designation)):
        values = content.design.values(part)
        for key in sorted(_ALSO & values.declared.keys()):
            if stands_in(values, key) and values.has(key) and _shown(content, part, key):
                rating = values.declared[key]
                yield Assumed(
                    part.designation,
                    (part.id,),
                    content.say(rating.label),
                    answer_text(rating.choices, values.answer(key), content.family),
                    content.say(rating.source.text),
                    rating.source.confidence,
                )


def _shown(content: Content, part: Part, key: str) -> bool:
    """That of a built-in breaker only where there is one."""
    circuit = content.circuit
    return key != "main_interrupting" or any(
        device.owner == part.id and not device.data.interrupting_given for device in circuit.devices
    )
