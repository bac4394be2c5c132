"""The vocabulary of the situations against the rules that there are."""

from __future__ import annotations

from linework.findings.registry import rules
from tests.cases.keys import KEYS, NO_RULE


def test_every_key_is_said_by_rules_that_exist_or_openly_by_none() -> None:
    assert {name for ids in KEYS.values() for name in ids} <= set(rules())
    assert KEYS.keys().isdisjoint(NO_RULE)


def test_what_a_reason_names_as_missing_is_missing() -> None:
    named = {word.strip("(),;") for reason in NO_RULE.values() for word in reason.split()}
    missing = {
        "ground-undersized",
        "rod-as-return",
        "electrode-missing",
        "electrode-not-tied",
        "neutral-overloaded",
        "run-overloaded",
        "motor-will-not-start",
        "rating-exceeded",
        "gfci-missing",
    }
    assert missing <= named
    assert missing.isdisjoint(rules())
