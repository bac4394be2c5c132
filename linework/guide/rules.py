"""A page for each rule: the text that stands over it, and what asks for it."""

from __future__ import annotations

from collections.abc import Iterator

from linework.guide.model import Block, Page, Prose, See, Title
from linework.guide.reasons import reason_of
from linework.words import N_, say

FOLDER = "rule/"
GROUPS = {
    "sources": N_("Rules: sources and polarity"),
    "grounding": N_("Rules: {grounding} and bonding"),
    "overcurrent": N_("Rules: overcurrent protection"),
    "operation": N_("Rules: operation"),
    "building": N_("Rules: how it is built"),
    "inputs": N_("Rules: what was given"),
}
"""By the folder in which a rule lies."""

_TITLES = {
    "What is checked": N_("What is checked"),
    "Why it matters": N_("Why it matters"),
    "How to cure it": N_("How to cure it"),
    "Limits": N_("Limits"),
    "Sources": N_("Sources"),
}


def rule_page(rule_id: str, family: str) -> Page:
    """What it looks for, why, how to cure it, where it ends; the clauses; what explains it."""
    # Late: rules bring the solver's libraries along, for which the window must not wait.
    from linework.findings.registry import rules

    rule = rules()[rule_id]
    reason = reason_of(rule_id)
    blocks: list[Block] = [Prose(reason.opening)]
    for heading in reason.headings:
        blocks.append(Title(say(_TITLES[heading.title])))
        blocks += [Prose(text) for text in heading.text.split("\n\n")]
    blocks += _clauses(rule.clauses.get(family, ""))
    above = [each for each in dict.fromkeys((*rule.causes, *rule.hangs_on)) if each in rules()]
    if above:
        blocks.append(Title(say("What may be the cause of it")))
        blocks.append(See(tuple((FOLDER + r, say(rules()[r].title, family=family)) for r in above)))
    return Page(FOLDER + rule_id, say(rule.title, family=family), tuple(blocks))


def _clauses(text: str) -> Iterator[Block]:
    plain = {
        "practice": N_("Common practice; no clause asks for it."),
        "maker": N_("What the maker states."),
    }
    if text:
        yield Title(say("What asks for it"))
        yield Prose(say(plain[text]) if text in plain else text)


def grouped() -> dict[str, list[str]]:
    """The ids of all rules by the folder in which they lie."""
    from linework.findings.registry import rules

    found: dict[str, list[str]] = {folder: [] for folder in GROUPS}
    for rule in rules().values():
        found[rule.check.__module__.split(".")[2]].append(rule.id)
    return found
