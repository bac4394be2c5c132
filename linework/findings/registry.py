"""Every rule, one file each, in folders by family of the catalogue; found by looking into them."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

import linework.findings as home
from linework.findings.rule import Rule

FOLDERS = ("sources", "grounding", "overcurrent", "operation", "building", "inputs")


@cache
def rules() -> dict[str, Rule]:
    """All rules by id, in the order of the folders and then of their ids."""
    found: list[Rule] = []
    for folder in FOLDERS:
        package = importlib.import_module(f"{home.__name__}.{folder}")
        for module in sorted(m.name for m in pkgutil.iter_modules(package.__path__)):
            loaded = importlib.import_module(f"{package.__name__}.{module}")
            rule = getattr(loaded, "RULE", None)
            if isinstance(rule, Rule):
                found.append(rule)
    return {rule.id: rule for rule in found}
