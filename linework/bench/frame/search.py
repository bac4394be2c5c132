"""What is on the sheets by any words of it: parts, runs, notes, findings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.words import say

if TYPE_CHECKING:
    from linework.analysis import Analysis


@dataclass(frozen=True)
class Match:
    """``ids``: the elements that it is; ``number``: of a finding, 0 for an element; ``text``: as a
    person reads it."""

    ids: tuple[str, ...]
    text: str
    number: int = 0


def matches(design: Design, analysis: Analysis | None, wanted: str) -> list[Match]:
    """All that has every word of ``wanted`` in it, what is called so first; none for no words."""
    words = wanted.casefold().split()
    if not words:
        return []
    found = [
        (not _called(name, words), number, match)
        for number, (name, said, match) in enumerate(_everything(design, analysis))
        if all(word in f"{name} {said} {match.text}".casefold() for word in words)
    ]
    return [match for _, _, match in sorted(found, key=lambda each: each[:2])]


def _called(name: str, words: list[str]) -> bool:
    return bool(name) and name.casefold() == " ".join(words)


def _everything(design: Design, analysis: Analysis | None) -> Iterator[tuple[str, str, Match]]:
    """Name, what else it is found by, and the match, of parts, runs, notes and findings."""
    family = design.settings.family
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        kind = design.kind(part)
        shown = f"{part.designation} {part.title or say(kind.name, family=family)}"
        said = f"{say(kind.name, family=family)} {say(kind.search, family=family)}"
        yield part.designation, f"{said} {_answers(part)}", Match((part.id,), shown)
    for run in sorted(design.runs, key=lambda r: natural(r.designation)):
        ends = [design.part(end.part).designation for end in (run.a, run.b)]
        shown = say("{run} from {a} to {b}", run=run.designation, a=ends[0], b=ends[1])
        yield run.designation, _answers(run), Match((run.id,), shown)
    for note in design.notes:
        yield "", "", Match((note.id,), " ".join(note.text.split()))
    for finding in analysis.findings if analysis is not None else ():
        if finding.number:
            shown = say("finding {number}: {title}", number=finding.number, title=finding.title)
            yield (
                str(finding.number),
                finding.message,
                Match(finding.subjects, shown, finding.number),
            )


def _answers(element: Part | Run) -> str:
    """What was typed on its card."""
    return " ".join(str(answer) for _, answer in element.ratings.answers)
