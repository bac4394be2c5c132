"""Why a rule exists, for the reader: the headings of the text that stands over it in its file."""

from __future__ import annotations

import inspect
import sys
import textwrap
from dataclasses import dataclass

from linework.words import say


@dataclass(frozen=True)
class Heading:
    """One heading and what stands under it."""

    title: str
    text: str


@dataclass(frozen=True)
class Reason:
    """All of it: the rule's first sentence, and its headings in their order."""

    opening: str
    headings: tuple[Heading, ...]


def reason_of(rule_id: str) -> Reason:
    """The text of a rule. A rule that is not known has none, and it is said."""
    # Late: the rules bring the solver's libraries along, for which the window must not wait.
    from linework.findings.registry import rules

    rule = rules().get(rule_id)
    if rule is None:
        return Reason(say("There is no text for the rule '{rule}'.", rule=rule_id), ())
    module = sys.modules[rule.check.__module__]
    return parsed(inspect.getdoc(module) or rule.check.__doc__ or "")


def parsed(doc: str) -> Reason:
    """A text whose headings stand at the left edge and whose paragraphs are indented."""
    opening: list[str] = []
    headings: list[Heading] = []
    lines = doc.expandtabs().splitlines()
    number = 0
    while number < len(lines):
        line = lines[number]
        under = _indented(lines, number + 1)
        if line.strip() and not line[0].isspace() and under:
            headings.append(Heading(line.strip(), _joined(under)))
            number += len(under)
        elif line.strip():
            opening.append(line.strip())
        number += 1
    return Reason(" ".join(opening), tuple(headings))


def _indented(lines: list[str], start: int) -> list[str]:
    """The block of indented lines from here on, blank ones within it included."""
    end = start
    while end < len(lines) and (lines[end].startswith(" ") or _goes_on(lines, end, start)):
        end += 1
    return lines[start:end]


def _goes_on(lines: list[str], at: int, start: int) -> bool:
    """Whether a blank line lies inside the block."""
    return (
        at > start
        and not lines[at].strip()
        and at + 1 < len(lines)
        and lines[at + 1].startswith(" ")
    )


def _joined(lines: list[str]) -> str:
    paragraphs = textwrap.dedent("\n".join(lines)).split("\n\n")
    return "\n\n".join(" ".join(paragraph.split()) for paragraph in paragraphs)
