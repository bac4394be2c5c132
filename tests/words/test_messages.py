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
    return not forms(token).isdisjoint(passed | words.glossary("NA").keys())


def forms(token: str) -> set[str]:
    return {token, token[:1].lower() + token[1:]}


def complaints(source: str, file: str = "module.py") -> list[str]:
    """What is wrong with the texts of one module, each with its place."""
    bare = bare_names(source)
    found: list[str] = []
    for use in collector.uses(source, file):
        found += [
            f"{use.place}: {use.function}() {complaint}"
            for complaint in [
                *wrong_form(use, bare),
                *wrong_tokens(use),
                *wrong_family(use, texts_by_name(source)),
            ]
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


def wrong_family(use: Any, named: dict[str, list[str]]) -> list[str]:
    """Words of the glossary are said in those of a family, which somebody must name."""
    if use.function == "N_" or use.bound or "family" in use.passed:
        return []
    given = {
        text
        for argument in use.arguments
        for text in collector.literals(argument) or named.get(first_name(argument), [])
    }
    asked = {token for text in given for token in tokens(text) if not (forms(token) & use.passed)}
    own = sorted(token for token in asked if forms(token) & words.glossary("NA").keys())
    # What is unpacked may hold the word; then an error while it runs tells where it does not.
    return [f"says {{{token}}} without a family" for token in own if not use.unpacks]


def first_name(argument: ast.expr) -> str:
    while isinstance(argument, ast.Subscript):
        argument = argument.value
    return getattr(argument, "id", "")


def texts_by_name(source: str) -> dict[str, list[str]]:
    """The texts marked with N_ in what each name of the module stands for."""
    return {
        target.id: [
            text
            for call in ast.walk(node.value)
            if isinstance(call, ast.Call) and getattr(call.func, "id", "") == "N_"
            for text in collector.literals(call.args[0])
        ]
        for node in ast.parse(source).body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name)
    }


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
        ("say('the {panel}')", "says {panel} without a family"),
        ("words.say('the {Panel}')", "says {Panel} without a family"),
        ("X = N_('the {panel}')\nsay(X)", "says {panel} without a family"),
        ("X = {1: N_('the {panel}')}\nsay(X[n])", "says {panel} without a family"),
        ("def f(c):\n  say('the {panel}')\ndef g(c):\n  say = c.say", "without a family"),
    ],
)
def test_a_faulty_use_is_found(source: str, complaint: str) -> None:
    assert complaint in complaints(source)[0]


@pytest.mark.parametrize(
    "source",
    [
        "say('{part} in the {panel}', part=x, family=f)",
        "say('{Part}: {Hot}', part=x, family=f)",
        "say('{Part}: {Hot}', part=x, hot=y)",
        "content.say('{Part}: {Hot}', part=x)",
        "def f(c):\n  say = c.say\n  say('the {panel}')",
        "X = N_('the {panel}')\nsay(X, family=f)",
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
