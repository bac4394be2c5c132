"""The vocabulary of the situations against the rules that there are."""

from __future__ import annotations

from linework.findings.registry import rules
from tests.cases.keys import KEYS, NO_RULE, SCOPES, why_unsaid


def test_every_key_is_said_by_some_rule_or_openly_by_none() -> None:
    assert {name for ids in KEYS.values() for name in ids} <= set(rules())
    assert KEYS.keys().isdisjoint(NO_RULE)
    assert not why_unsaid("NG_BOND_MISSING")
    assert why_unsaid("LOAD_LEAKAGE")


def test_every_scope_names_rules_of_some_key() -> None:
    named = {name for ids in KEYS.values() for name in ids} | set(rules())
    assert all(scope <= named for scope in SCOPES.values())
