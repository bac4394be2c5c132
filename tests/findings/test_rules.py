"""The catalogue: every rule in its file, said in full, at the levels that were agreed."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
from graphlib import TopologicalSorter
from pathlib import Path
from string import Formatter
from types import ModuleType

import pytest

import linework.findings as home
from linework.findings.registry import FOLDERS, rules
from linework.findings.rule import Rule
from linework.kinds import RUN_RATINGS, kinds
from linework.words import glossary, say

NOTE, WARNING, DANGER = "NOTE", "WARNING", "DANGER"

AGREED: dict[str, set[str]] = {
    # a direct-current output on a battery: a warning
    "sources-meet": {DANGER, WARNING},
    "conductors-shorted": {DANGER},
    "supply-backfed": {DANGER},
    # direct current that may be touched: a note
    "pins-live": {DANGER, NOTE},
    # a cord of unlike ends: a note
    "plug-does-not-mate": {WARNING, NOTE},
    "voltage-wrong": {DANGER},
    "same-outlet-two-systems": {DANGER},
    "load-never-fed": {WARNING},
    "load-refuses-source": {WARNING},
    # a source of one leg cannot feed a load on two hots: a note
    "dead-on-source": {WARNING, NOTE},
    "transfer-poles-wrong": {WARNING},
    # a note on what may not be added behind a source whose maker forbids a link
    "bond-not-accepted": {DANGER, NOTE},
    "bond-missing": {DANGER, WARNING, NOTE},
    "bond-doubled": {DANGER},
    "bond-at-wrong-place": {DANGER},
    "neutral-missing": {DANGER},
    # any feeder of two legs would do so: only one spliced through an outlet is a warning
    "neutral-lost-danger": {WARNING, NOTE},
    "neutral-used-as-ground": {DANGER},
    # by the chassis alone it still clears: a warning; marked outlets behind a device: a note
    "ground-open": {DANGER, WARNING, NOTE},
    # a note where it hangs on the load whether the conductors have grown
    "ground-undersized": {WARNING, NOTE},
    "rod-as-return": {DANGER},
    # silent where a missing bond would be a note: the same levels are looked at
    "electrode-missing": {DANGER, WARNING, NOTE},
    "electrode-not-tied": {DANGER, WARNING},
    "chassis-unbonded": {DANGER},
    "dc-ac-tie-missing": {DANGER},
    # by the current through a person: a danger from 10 mA on, what is only felt a note
    "metal-live": {DANGER, WARNING, NOTE},
    "polarity-reversed": {WARNING, DANGER},
    "fault-not-cleared": {DANGER, WARNING, NOTE},
    "fault-slow": {WARNING, NOTE},
    "gfci-trips-in-use": {WARNING},
    "ground-fault-device-cannot-act": {DANGER, NOTE},
    "ground-carries-load": {WARNING, DANGER},
    "run-unprotected": {DANGER},
    # a single 15 A outlet on 20 A, an outlet too large among several, or with the load bounded
    # an adapter that a coach's main bounds: a note
    "rating-exceeded": {DANGER, WARNING, NOTE},
    "ground-switched": {DANGER},
    # a note on what the maker of a portable set must fit; silent where a missing bond would be a
    # note: the same levels are looked at
    "gfci-missing": {DANGER, WARNING, NOTE},
    "inlet-leakage-missing": {WARNING},
    "inlet-devices-far": {WARNING},
    # what may stay as existing work is a note
    "link-on-feeder": {WARNING, NOTE},
    "device-in-grounded-conductor": {DANGER, WARNING},
    "handle-not-common": {WARNING},
    # a cord that the device at its end bounds: a note
    "device-above-ampacity": {DANGER, WARNING, NOTE},
    "transformer-unprotected": {WARNING},
    # what opens for certain is a warning
    "transformer-inrush": {NOTE, WARNING},
    "alternator-at-risk": {NOTE, WARNING},
    "isolator-bypassed": {WARNING},
    "isolator-may-open": {WARNING},
    "device-below-load": {WARNING},
    # what runs for minutes may take a little more: a note
    "run-overloaded": {WARNING, NOTE},
    "long-load-above-supply": {WARNING, NOTE},
    "neutral-overloaded": {DANGER},
    "interrupting-too-low": {DANGER},
    # good for the current, not for the factor that the code adds: a note
    "inverter-input-small": {WARNING, NOTE},
    "string-unfused": {WARNING},
    # what stands the nominal voltage of a bank, not that at the end of charging: a warning
    "device-wrong-voltage": {DANGER, WARNING},
    "negative-bond-wrong": {WARNING},
    "chassis-as-return": {WARNING},
    "hull-as-return": {WARNING},
    "charger-turned": {WARNING},
    "charger-loop": {WARNING},
    "battery-turned": {DANGER},
    # of another voltage a danger, of another chemistry or capacity a warning
    "batteries-unlike": {DANGER, WARNING},
    "bank-tapped": {WARNING},
    "string-voltage-high": {DANGER},
    "controller-overcurrent": {WARNING},
    "array-too-low": {WARNING},
    "controller-without-battery": {WARNING},
    "array-shared": {WARNING},
    "arrays-unlike": {WARNING},
    "array-turned": {WARNING},
    # what a full battery bears by its size: a note
    "array-uncontrolled": {DANGER, NOTE},
    # one pole opened, up to 60 V: a note
    "solar-disconnect-missing": {WARNING, NOTE},
    # in vehicles and boats, and for small batteries, practice: a note
    "disconnect-missing": {WARNING, NOTE},
    # an inverter whose rating, not its drawn loads, is more than a battery gives: a note
    "battery-cuts-out": {WARNING, NOTE},
    "metal-unbushed": {WARNING},
    "conduit-overfilled": {WARNING},
    "wire-not-for-boats": {WARNING},
    "fixed-wire-as-cord": {WARNING},
    # thick runs whose marks are not told: a note
    "aluminium-terminals": {DANGER, NOTE},
    "box-overfilled": {WARNING},
    # whether people live there is not known
    # a warning where people are said to live there
    "arc-fault-missing": {NOTE, WARNING},
    "voltage-drop-high": {NOTE, WARNING},
    "source-overloaded": {NOTE, WARNING},
    "motor-will-not-start": {WARNING},
    "engine-fumes-and-heat": {NOTE},
    "alarms": {NOTE},
    "cord-use": {NOTE},
    "surge-and-lightning": {NOTE},
    # long leads take from its use: a note
    "surge-device-wrong": {DANGER, NOTE},
    "working-space": {NOTE},
    "label-missing": {NOTE},
    "outlets-share-source": {NOTE},
    "sources-share-box": {WARNING},
    "cord-concealed": {WARNING},
    "value-assumed": {NOTE},
    "units-suspicious": {NOTE},
    "value-missing": set(),
    "not-analysed": set(),
}
"""The ids, and the levels that each may give (none: it says only what was not checked)."""

HEADINGS = ("What is checked", "Why it matters", "How to cure it", "Limits", "Sources")


def modules() -> dict[str, ModuleType]:
    """Rule id as its file says it -> its module, by looking into the folders."""
    found: dict[str, ModuleType] = {}
    root = Path(inspect.getfile(home)).parent
    for folder in sorted(p for p in root.iterdir() if (p / "__init__.py").exists()):
        for item in pkgutil.iter_modules([str(folder)]):
            if not item.name.startswith("_"):
                name = f"{home.__name__}.{folder.name}.{item.name}"
                found[item.name.replace("_", "-")] = importlib.import_module(name)
    return found


MODULES = modules()


def test_the_folders_are_those_of_the_registry() -> None:
    root = Path(inspect.getfile(home)).parent
    assert {p.name for p in root.iterdir() if (p / "__init__.py").exists()} == set(FOLDERS)


def test_every_file_is_a_rule_and_every_rule_a_file_of_its_name() -> None:
    assert {name: module.RULE.id for name, module in MODULES.items()} == {
        name: name for name in rules()
    }


def test_the_ids_are_those_agreed() -> None:
    assert set(rules()) == set(AGREED)


@pytest.mark.parametrize("name", sorted(MODULES))
def test_a_rule_says_all_there_is_to_say(name: str) -> None:
    doc = inspect.getdoc(MODULES[name]) or ""
    lines = doc.splitlines()
    assert [line for line in lines if line in HEADINGS] == list(HEADINGS)
    for heading in HEADINGS:
        text = lines[lines.index(heading) + 1]
        assert re.match(r" {4}\S", text), heading


def syntax(module: ModuleType) -> ast.Module:
    return ast.parse(inspect.getsource(module))


def given_levels(module: ModuleType) -> set[str]:
    """The levels that a rule hands to a hit, its private helpers' included.

    What is compared with a level is not given.
    """
    tree = syntax(module)
    compared = {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.Compare)
        for part in ast.walk(node)
    }
    found = {
        node.attr
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute)
        and isinstance(node.value, ast.Name)
        and node.value.id == "Level"
        and id(node) not in compared
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[-1][:1] == "_":
            found |= given_levels(importlib.import_module(str(node.module)))
    return found


@pytest.mark.parametrize("name", sorted(MODULES))
def test_a_rule_gives_the_levels_agreed(name: str) -> None:
    assert given_levels(MODULES[name]) == AGREED[name]


def messages(module: ModuleType) -> list[str]:
    """The texts marked for translation in a module."""
    return [
        node.args[0].value
        for node in ast.walk(syntax(module))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "N_"
        and isinstance(node.args[0], ast.Constant)
    ]


def value_names(module: ModuleType) -> set[str]:
    """Every name under which a module hands a value to a text."""
    found: set[str] = set()
    for node in ast.walk(syntax(module)):
        if isinstance(node, ast.Dict):
            found |= {k.value for k in node.keys if isinstance(k, ast.Constant)}
        elif isinstance(node, ast.Subscript) and isinstance(node.slice, ast.Constant):
            found.add(str(node.slice.value))
        elif isinstance(node, ast.Call):
            found |= {k.arg for k in node.keywords if k.arg}
    return found


@pytest.mark.parametrize("name", sorted(MODULES))
def test_every_text_of_a_rule_finds_its_values_in_both_families(name: str) -> None:
    texts, given = messages(MODULES[name]), value_names(MODULES[name])
    assert texts
    for family in ("NA", "INT"):
        words = glossary(family)
        for text in texts:
            said = say(text, family=family, **dict.fromkeys(given - words.keys() - {"family"}, "x"))
            assert "{" not in said


def own_modules(module: ModuleType) -> list[ModuleType]:
    """A rule's module with its private helpers."""
    found = [module]
    for node in ast.walk(syntax(module)):
        home = str(node.module) if isinstance(node, ast.ImportFrom) else ""
        if home.split(".")[-1][:1] == "_" and home != "__future__":
            found += own_modules(importlib.import_module(home))
    return found


def placeholders(text: str) -> set[str]:
    """The names in braces of a text, words of the glossary among them."""
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def said_outright(module: ModuleType) -> list[tuple[str, set[str]]]:
    """Each literal text that a module says on the spot, with the names of the values it hands."""
    return [
        (str(node.args[0].value), {k.arg for k in node.keywords if k.arg} - {"family"})
        for node in ast.walk(syntax(module))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id == "say"
        and isinstance(node.args[0], ast.Constant)
    ]


RATINGS = set(RUN_RATINGS).union(*(kind.declared for kind in kinds().values()))


def handed_together(module: ModuleType) -> list[set[str]]:
    """The names of the values in each dictionary of a module, but for those of ratings."""
    found = [
        {str(key.value) for key in node.keys if isinstance(key, ast.Constant)}
        for node in ast.walk(syntax(module))
        if isinstance(node, ast.Dict)
    ]
    return [names for names in found if not names <= RATINGS]


@pytest.mark.parametrize("name", sorted(MODULES))
def test_every_value_that_a_rule_hands_to_its_texts_stands_in_one(name: str) -> None:
    """A value that no text shows is a text that says something else instead."""
    own = own_modules(MODULES[name])
    spoken = [said for module in own for said in said_outright(module)]
    texts = [*(text for module in own for text in messages(module)), *(text for text, _ in spoken)]
    shown = set[str]().union(*map(placeholders, texts))
    for module in own:
        for names in handed_together(module):
            assert names.isdisjoint(shown) or names <= shown, names - shown
    for text, names in spoken:
        assert names <= placeholders(text), text


@pytest.mark.parametrize("rule", rules().values(), ids=lambda rule: str(rule.id))
def test_a_rule_has_a_clause_for_both_families_and_causes_that_may_be(rule: Rule) -> None:
    assert set(rule.clauses) == {"NA", "INT"}
    assert all(rule.clauses.values()) is (rule.id != "value-assumed")  # an assumption cites nothing
    assert {*rule.causes, *rule.hangs_on} <= set(AGREED)


def test_no_rule_is_by_any_way_its_own_cause() -> None:
    """Or each of two findings would stand under the other, and nobody would see either."""
    order = TopologicalSorter({rule.id: set(rule.causes) for rule in rules().values()})
    order.prepare()  # CycleError
