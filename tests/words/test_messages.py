"""Every text in the program is a literal, so that a translator gets it, and every word it asks for
is there."""

from __future__ import annotations

import ast
import importlib.util
import re
import sys
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path
from string import Formatter
from types import ModuleType
from typing import Any

import pytest

from linework import data, words
from linework.words.po import compile_po

ROOT = Path(__file__).resolve().parents[2]
PLAIN_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
# Something already marked with N_ where it was written: kind.name, LABELS[key], message.
REFERENCES = (ast.Name, ast.Attribute, ast.Subscript)


def load_collector() -> ModuleType:
    spec = importlib.util.spec_from_file_location(
        "collect_words", ROOT / "packaging" / "collect_words.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


collector = load_collector()


def tokens(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name is not None}


def known(token: str, passed: frozenset[str]) -> bool:
    small = token[:1].lower() + token[1:]
    return not {token, small}.isdisjoint(passed | words.glossary("NA").keys())


def complaints(source: str, file: str = "module.py") -> list[str]:
    """What is wrong with the texts of one module, each with its place."""
    bare = bare_names(source)
    found: list[str] = []
    for use in collector.uses(source, file):
        found += [
            f"{use.place}: {use.function}() {complaint}"
            for complaint in [*wrong_form(use, bare), *wrong_tokens(use)]
        ]
    return found


def bare_names(source: str) -> set[str]:
    """Names given a text that is not marked with N_."""
    return {
        target.id
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name) and collector.literals(node.value)
    }


def wrong_form(use: Any, bare: set[str]) -> list[str]:
    found = []
    for argument in use.arguments:
        shown = ast.unparse(argument)
        if collector.literals(argument):
            continue
        if use.function == "N_" or not isinstance(argument, REFERENCES):
            found.append(f"needs a literal text, not {shown}")
        elif isinstance(argument, ast.Name) and argument.id in bare:
            found.append(f"needs {shown} marked with N_ where it is written")
    return found


def wrong_tokens(use: Any) -> list[str]:
    asked = {token for text in use.texts for token in tokens(text)}
    odd = sorted(token for token in asked if not PLAIN_NAME.fullmatch(token))
    found = [f"has the token {{{token}}}: a plain name is needed" for token in odd]
    if use.function == "N_" or use.unpacks:  # the values come where the text is said
        return found
    passed = use.passed | ({"count"} if use.function == "say_count" else set())
    lacking = sorted(token for token in asked - set(odd) if not known(token, passed))
    found += [f"asks for {{{token}}}, which nobody supplies" for token in lacking]
    if use.texts:
        idle = sorted(use.passed - {"family"} - asked - {token.lower() for token in asked})
        found += [f"is given {name}, which the text does not use" for name in idle]
    return found


@pytest.mark.parametrize(
    "file", sorted((ROOT / "linework").rglob("*.py")), ids=lambda file: str(file.relative_to(ROOT))
)
def test_texts_of(file: Path) -> None:
    source = file.read_text(encoding="utf-8")
    assert complaints(source, file.relative_to(ROOT).as_posix()) == []


@pytest.mark.parametrize(
    ("source", "complaint"),
    [
        ("say(f'{x} is dead')", "needs a literal text, not f'{x} is dead'"),
        ("say('a' + x)", "needs a literal text, not 'a' + x"),
        ("say('%s' % x)", "needs a literal text, not '%s' % x"),
        ("say('{}'.format(x))", "needs a literal text, not '{}'.format(x)"),
        ("N_(x)", "needs a literal text, not x"),
        ("x = 'dead'\nsay(x)", "needs x marked with N_ where it is written"),
        ("say('{part} is dead')", "asks for {part}, which nobody supplies"),
        ("words.say('{part} is dead')", "asks for {part}, which nobody supplies"),
        ("say('{a}' if x else '{b}', a=1)", "asks for {b}, which nobody supplies"),
        ("say_count('{n} run', '{count} runs', 2)", "asks for {n}, which nobody supplies"),
        ("say('dead', part=x)", "is given part, which the text does not use"),
        ("say('{part.name}', part=x)", "has the token {part.name}: a plain name is needed"),
        ("N_('{}')", "has the token {}: a plain name is needed"),
    ],
)
def test_a_faulty_use_is_found(source: str, complaint: str) -> None:
    assert complaint in complaints(source)[0]


@pytest.mark.parametrize(
    "source",
    [
        "say('{part} in the {panel}', part=x, family=f)",
        "say('{Part}: {Hot}', part=x)",
        "x = N_('{part} is dead')\nsay(x, part=y)",
        "say(kind.name)",
        "say(LABELS[key], family=f)",
        "say('{part} is dead', **values)",
        "say_count('{count} run', '{count} runs', n)",
        "say('{a}' if x else '{a} dead', a=1)",
        "N_('{part} is dead')",
    ],
)
def test_a_proper_use_is_silent(source: str) -> None:
    assert complaints(source) == []


def test_the_template_is_a_catalogue_with_every_text() -> None:
    found = collector.all_uses()
    template = collector.template(found, data.path("words/glossary.csv"))
    assert all(collector._quoted(text) in template for use in found for text in use.texts)
    assert 'msgctxt "glossary INT"\nmsgid "socket-outlet"\n' in template
    translated = template.replace('msgstr ""', 'msgstr "x"').replace('"x"', '""', 1)
    read = GNUTranslations(BytesIO(compile_po(translated, "template")))
    texts = {text for use in found if use.function != "say_count" for text in use.texts}
    assert texts
    assert {read.gettext(text) for text in texts} == {"x"}
