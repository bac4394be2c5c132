"""Collects every text that a person reads into a template for translators.

Run ``python packaging/collect_words.py > linework.pot``; a translator's copy of it lies at
resources/words/<language>/LC_MESSAGES/linework.po. The tests use the same reader to check that
every text is a literal and gets all the words it asks for.
"""

from __future__ import annotations

import ast
import csv
import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
TEXTS_OF = {"say": 1, "say_within": 1, "N_": 1, "say_count": 2}
HEADER = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n'


@dataclass(frozen=True)
class Use:
    """One call that says or marks a text. ``bound``: by a ``say`` that knows its family."""

    place: str
    function: str
    arguments: tuple[ast.expr, ...]
    passed: frozenset[str]
    unpacks: bool
    bound: bool

    @property
    def texts(self) -> tuple[str, ...]:
        """The literal texts of the call, as many as are literal."""
        return tuple(text for argument in self.arguments for text in literals(argument))


def literals(node: ast.expr) -> list[str]:
    """The text, or each text of a choice between literals."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return [node.value]
    if isinstance(node, ast.IfExp):
        return literals(node.body) + literals(node.orelse)
    return []


def uses(source: str, file: str) -> Iterator[Use]:
    """Each call of ``say``, ``N_`` and ``say_count`` in a module's source."""
    tree = ast.parse(source)
    renamed = _below_a_bound_say(tree)
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        if name in TEXTS_OF:
            yield Use(
                f"{file}:{node.lineno}",
                name,
                tuple(node.args[: TEXTS_OF[name]]),
                frozenset(keyword.arg for keyword in node.keywords if keyword.arg),
                any(keyword.arg is None for keyword in node.keywords),
                node in renamed or _is_method(node.func),
            )


def _is_method(called: ast.expr) -> bool:
    """Whether a ``say`` belongs to something; ``words.say`` is the plain one."""
    return isinstance(called, ast.Attribute) and getattr(called.value, "id", "") != "words"


def _below_a_bound_say(tree: ast.Module) -> set[ast.AST]:
    """All that stands in functions that begin with ``say = content.say``."""
    return {
        inner
        for function in ast.walk(tree)
        if isinstance(function, ast.FunctionDef)
        and any(isinstance(line, ast.Assign) and _names_say(line) for line in function.body)
        for inner in ast.walk(function)
    }


def _names_say(line: ast.Assign) -> bool:
    named = [getattr(target, "id", "") for target in line.targets]
    return named == ["say"] and _is_method(line.value)


def all_uses(root: Path = ROOT) -> list[Use]:
    """Those of the whole program, in the order of its files."""
    files = sorted((root / "linework").rglob("*.py"))
    return [
        use
        for file in files
        for use in uses(file.read_text(encoding="utf-8"), file.relative_to(root).as_posix())
    ]


def template(found: list[Use], glossary: Path) -> str:
    """The .pot text: each text once, with the places that say it, then the glossary's words."""
    places: dict[tuple[str, ...], list[str]] = {}
    for use in found:
        keys = [use.texts] if use.function == "say_count" else [(text,) for text in use.texts]
        for key in keys:
            places.setdefault(key, []).append(use.place)
    entries = [_entry(key, where) for key, where in places.items()]
    return "\n".join([HEADER, *entries, *_glossary_entries(glossary)])


def _entry(texts: tuple[str, ...], places: list[str]) -> str:
    lines = [f"#: {' '.join(places)}", f"msgid {_quoted(texts[0])}"]
    if len(texts) == 1:
        return "\n".join([*lines, 'msgstr ""', ""])
    return "\n".join(
        [*lines, f"msgid_plural {_quoted(texts[1])}", 'msgstr[0] ""', 'msgstr[1] ""', ""]
    )


def _glossary_entries(glossary: Path) -> list[str]:
    with glossary.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    words = {
        (family, row[family].removeprefix("an ").removeprefix("a "))
        for row in rows
        for family in ("NA", "INT")
    }
    return [
        f'msgctxt "glossary {family}"\nmsgid {_quoted(word)}\nmsgstr ""\n'
        for family, word in sorted(words)
    ]


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


if __name__ == "__main__":
    sys.stdout.write(template(all_uses(), ROOT / "resources" / "words" / "glossary.csv"))
