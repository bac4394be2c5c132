"""No rule, study or page knows a kind by its name: what they ask of it the kind declares."""

from __future__ import annotations

import ast
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

import linework
from linework.analysis import Analysis, analyse
from linework.design import Design, Draft, EditError
from linework.findings.model import Finding, Mend
from linework.kinds import Kind, kinds, registry
from linework.storage import dumps, loads
from linework.wiring import SourceGroup
from tests.findings.camps import camp, caravan, changeover, house

PACKAGE = Path(linework.__file__).parent
SAMPLES = Path(__file__).resolve().parent.parent / "samples"
KINDS = dict(kinds())

# The text of the program


DECLARE = ("kinds", "wiring")
"""Rooms whose business it is to name kinds and groups."""

TABLES = "codes"
"""Imports no kind: its words are those of the tables."""

OTHER_MEANINGS = {
    ("__main__.py", "supply"): "a command",
    ("supply/ledger.py", "set"): "a sum of the books",
    ("circuit/choices.py", "plug"): "a selector",
    ("circuit/expand.py", "plug"): "a selector",
    ("circuit/knowledge.py", "plug"): "a selector",
    ("bench/paper/targets.py", "plug"): "what a place accepts",
    ("bench/states/elements.py", "body"): "a pole",
    ("sheet/signs/extras.py", "plug"): "a selector",
    ("sheet/parts/shapes.py", "panel"): "a symbol",
    ("picture/symbols.py", "panel"): "a symbol",
    ("study/wires/markings.py", "breaker"): "a rating",
    ("findings/overcurrent/_motors.py", "breaker"): "a sort of device",
    ("findings/overcurrent/_secondary.py", "breaker"): "a rating, and a sort of device",
    ("findings/overcurrent/interrupting_too_low.py", "breaker"): "a time-current curve",
    ("findings/deciding.py", "electrode"): "a rating",
    ("handover/commissioning.py", "outlet"): "a key of the test sheet",
    ("study/shorts/faults.py", "body"): "a terminal of a fault",
    ("study/shorts/heat.py", "breaker"): "a time-current curve",
    ("study/loads/loaded.py", "lamp"): "a model of a load",
    ("study/ways/openings.py", "breaker"): "a time-current curve",
    ("study/wires/ratings.py", "breaker"): "a time-current curve",
    ("study/reporting.py", "body"): "a pole",
    ("storage/__init__.py", "load"): "a function",
    ("handover/threeline/blocks.py", "breaker"): "a time-current curve",
}
"""Module and word: what it means there, if not a kind or a group."""

WORDS = {*KINDS, *map(str, SourceGroup)} - {""}
TAKES_KIND = {"add_part", "put_into", "insert_on_run", "kind_of", "part", "Part"}


def words_in(node: ast.AST) -> Iterator[str]:
    """What a judgement by name is made of: words compared, listed, looked up, or put in."""
    match node:
        case ast.Compare():
            parts: list[ast.expr] = [node.left, *node.comparators]
        case ast.Tuple() | ast.List() | ast.Set():
            parts = node.elts
        case ast.Dict():
            pairs = zip(node.keys, node.values, strict=True)
            parts = [key for key, value in pairs if key is not None and is_fixed(value)]
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)) if name in TAKES_KIND | {
            "startswith",
            "endswith",
        }:
            parts = node.args
        case _:
            parts = []
    for part in parts:
        if isinstance(part, ast.Constant) and isinstance(part.value, str):
            yield part.value


def is_fixed(value: ast.expr) -> bool:
    """Whether it stands in the text: a table's entry, not a word filled into a message."""
    if isinstance(value, ast.Name):
        return value.id.isupper()
    return isinstance(value, ast.Constant | ast.Tuple | ast.List | ast.Set)


def without_subscripts(tree: ast.AST) -> Iterator[ast.AST]:
    """All nodes but those in ``Literal[...]`` and ``terminals[part, "load"]``."""
    waiting = [tree]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.Subscript):
            waiting.append(node.value)
            continue
        yield node
        waiting += ast.iter_child_nodes(node)


def named(path: Path) -> set[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {word for node in without_subscripts(tree) for word in words_in(node)} & WORDS


def modules() -> Iterator[tuple[str, Path]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        name = path.relative_to(PACKAGE).as_posix()
        if name.split("/")[0] not in (*DECLARE, TABLES):
            yield name, path


def test_nothing_outside_names_a_kind_or_a_group() -> None:
    found = {(name, word) for name, path in modules() for word in named(path)}
    assert found - OTHER_MEANINGS.keys() == set()
    assert OTHER_MEANINGS.keys() - found == set(), "no longer needed here"


def test_the_tables_know_no_kind() -> None:
    for path in sorted((PACKAGE / TABLES).rglob("*.py")):
        assert "linework.kinds" not in path.read_text(encoding="utf-8"), path.name


@pytest.mark.parametrize(
    "code",
    [
        'part.kind == "fuse"',
        'part.kind in ("panel", "busbar")',
        '_FIXED = {"lamp", "motor"}',
        '_RATED = {"gfci": ("rating", "load")}',
        'part.kind.startswith("generator")',
        'source.data.group != "cells"',
        'put_into(design, run, "isolator", {})',
        'USUAL = {("battery", "capacity"): (2.0, 5.0)}',
    ],
)
def test_a_judgement_by_name_is_found(code: str, tmp_path: Path) -> None:
    file = tmp_path / "rule.py"
    file.write_text(code, encoding="utf-8")
    assert named(file)


@pytest.mark.parametrize("code", ['{"battery": view.name(part)}', 'kind: Literal["breaker"]'])
def test_words_for_people_and_types_are_none(code: str, tmp_path: Path) -> None:
    file = tmp_path / "rule.py"
    file.write_text(code, encoding="utf-8")
    assert not named(file)


# The program at work


@pytest.fixture
def known(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[dict[str, Kind]], None]]:
    """Makes the program know these kinds and no others."""

    def use(found: dict[str, Kind]) -> None:
        monkeypatch.setattr(registry, "kinds", lambda: found)
        registry.kind_of.cache_clear()

    yield use
    monkeypatch.undo()
    registry.kind_of.cache_clear()


def under_other_names(names: dict[str, str], data: bytes) -> Design:
    """The design in a file, its parts of kinds that are called otherwise."""
    document = json.loads(data)
    for part in document["parts"]:
        part["kind"] = names.get(part["kind"], part["kind"])
    return loads(json.dumps(document).encode(), "renamed")


@dataclass(frozen=True)
class Told:
    """All of an analysis that can be compared, each mend tried."""

    findings: list[tuple[object, ...]]
    rest: tuple[object, ...]


def judged(design: Design) -> Told:
    found = analyse(design)
    rest = (found.gaps, found.praise, found.assumed, found.unconfirmed)
    # a figure that is not known (NaN) equals no other, not even itself
    return Told([told(design, finding) for finding in found.findings], (*rest, repr(found.reports)))


def told(design: Design, finding: Finding) -> tuple[object, ...]:
    consequences = [told(design, each) for each in finding.consequences]
    mended = None if finding.mend is None else tried(design, finding.mend)
    return replace(finding, mend=None, consequences=()), mended, consequences


def tried(design: Design, mend: Mend) -> tuple[str, int | str]:
    """What a mend is called and how many elements it changes, or why it cannot."""
    try:
        return mend.title, len(mend.edit(design.snapshot()).pairs)
    except EditError as refusal:
        return mend.title, str(refusal)


def drawn(draft: Draft) -> bytes:
    return dumps(draft.design)


FILES = [
    pytest.param((SAMPLES / f"{name}.linework").read_bytes(), id=name)
    for name in ("vaccination-trailer-as-sketched", "mountain-hut-as-sketched", "weather-station")
]
DRAFTS = [
    pytest.param(drawn(camp("building", neutral="floating")), id="camp"),
    pytest.param(drawn(caravan(neutral="floating")), id="caravan"),
    pytest.param(drawn(house()), id="house"),
    pytest.param(drawn(changeover(switch="transfer_automatic")), id="changeover"),
]


@pytest.mark.parametrize("data", [*FILES, *DRAFTS])
def test_kinds_under_other_names_are_judged_the_same(
    data: bytes, known: Callable[[dict[str, Kind]], None]
) -> None:
    before = judged(loads(data, "as drawn"))
    names = {key: f"made-up-{key[::-1]}" for key in KINDS}
    known({names[key]: replace(kind, key=names[key]) for key, kind in KINDS.items()})
    design = under_other_names(names, data)
    assert {part.kind for part in design.parts}.isdisjoint(KINDS)
    assert judged(design) == before


@pytest.mark.parametrize("key", ["generator", "supply", "panel", "outlet", "inlet", "load"])
def test_a_new_kind_is_judged_by_the_facts_that_it_declares(
    key: str, known: Callable[[dict[str, Kind]], None]
) -> None:
    data = drawn(caravan(neutral="floating") if key != "supply" else house())
    before = judged(loads(data, "as drawn"))
    known(KINDS | {"made-up": replace(KINDS[key], key="made-up")})
    design = under_other_names({key: "made-up"}, data)
    assert any(part.kind == "made-up" for part in design.parts) or key == "load"
    assert judged(design) == before


def rules(analysis: Analysis) -> set[str]:
    return {finding.rule for finding in analysis.findings}


def test_what_a_kind_declares_decides(known: Callable[[dict[str, Kind]], None]) -> None:
    """The same set, once as an engine and once as if it came from another's network."""
    data = drawn(caravan(neutral="floating"))
    ours = analyse(loads(data, "as drawn"))
    network = replace(KINDS["generator"], key="made-up", source=SourceGroup.SUPPLY)
    known(KINDS | {"made-up": network})
    others = analyse(under_other_names({"generator": "made-up"}, data))
    assert "engine-fumes-and-heat" in rules(ours)
    assert "engine-fumes-and-heat" not in rules(others)
