"""Another language: which one is wanted, and that its catalogue is what a person reads."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable, Iterator
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path

import pytest

from linework import data
from linework.data import files
from linework.words import WordingError, glossary, language, say, say_count, say_within
from linework.words.catalogues import catalogue, wanted_languages
from linework.words.po import compile_po

GERMAN = r"""
# A translator's remark.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"

#: somewhere.py:1
msgid "{part} feeds the {panel}"
msgstr ""
"{panel} hängt "
"an {part}"

msgctxt "glossary INT"
msgid "distribution board"
msgstr "Verteiler"

#, fuzzy
msgid "guessed"
msgstr "geraten"

msgid "Wire size"
msgstr "Leiterquerschnitt"

msgid "not yet"
msgstr ""

msgid "{count} run"
msgid_plural "{count} runs"
msgstr[0] "{count} \"Leitung\""
msgstr[1] "{count} Leitungen"
"""


@pytest.fixture
def in_german(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A German reader, and a German catalogue beside the real glossary."""
    folder = tmp_path / "words" / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "linework.po").write_text(GERMAN, encoding="utf-8")
    shutil.copy(data.path("words/glossary.csv"), tmp_path / "words")
    monkeypatch.setattr(files, "_root", lambda: tmp_path)
    monkeypatch.delenv("LANGUAGE", raising=False)
    monkeypatch.setenv("LC_ALL", "de_AT.UTF-8")
    caches: list[Callable[[], object]] = [
        language.cache_clear,
        catalogue.cache_clear,
        glossary.cache_clear,
    ]
    for clear in caches:
        clear()
    yield
    for clear in caches:
        clear()


@pytest.mark.usefixtures("in_german")
def test_a_translated_text_is_said_with_translated_words() -> None:
    assert language() == "de"
    assert say("{part} feeds the {panel}", part="W3", family="INT") == "Verteiler hängt an W3"


@pytest.mark.usefixtures("in_german")
def test_what_is_not_translated_stays_english() -> None:
    assert [say(text) for text in ("guessed", "not yet", "new")] == ["guessed", "not yet", "new"]
    assert glossary("NA")["panel"] == "panel"


@pytest.mark.usefixtures("in_german")
def test_a_label_within_a_sentence_keeps_its_translators_capitals() -> None:
    assert say("Wire size") == "Leiterquerschnitt"
    assert say_within("Wire size") == "Leiterquerschnitt"


def test_a_label_begins_small_within_an_english_sentence() -> None:
    assert say_within("Wire size of {part}", part="W3") == "wire size of W3"
    assert say_within("AC side, Idle") == "AC side, Idle"


@pytest.mark.usefixtures("in_german")
def test_plural_forms_are_the_catalogues_own() -> None:
    said = [say_count("{count} run", "{count} runs", count) for count in (1, 3)]
    assert said == ['1 "Leitung"', "3 Leitungen"]


@pytest.mark.parametrize(
    ("environment", "wanted"),
    [
        ({}, []),
        ({"LANG": "C.UTF-8"}, []),
        ({"LANG": "en_GB.UTF-8"}, []),
        ({"LANG": "de_AT.UTF-8@euro"}, ["de_AT", "de"]),
        ({"LANG": "de_DE.UTF-8", "LC_MESSAGES": "fr"}, ["fr"]),
        ({"LANG": "de", "LC_MESSAGES": "fr", "LC_ALL": "nl_BE"}, ["nl_BE", "nl"]),
        ({"LANG": "de", "LANGUAGE": "pt_BR:es:en:fr"}, ["pt_BR", "pt", "es"]),
        ({"LANG": "C", "LANGUAGE": "fr"}, []),
        ({"LANG": "", "LC_ALL": "", "LANGUAGE": ""}, []),
    ],
)
def test_the_environment_says_which_language(
    environment: dict[str, str], wanted: list[str]
) -> None:
    assert wanted_languages(environment) == wanted


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("msgid one\n", "line 1 is not understood"),
        ('"loose"\n', "line 1 is not understood"),
        ('msgid "a"\nmsgid "b"\n', "line 2 is not understood"),
        ('msgid "a\\"\n', "line 1 has a faulty quotation"),
    ],
)
def test_a_damaged_catalogue_is_refused(text: str, complaint: str) -> None:
    with pytest.raises(WordingError, match=f"de, {complaint}"):
        compile_po(text, "de")


@pytest.mark.skipif(not shutil.which("msgfmt"), reason="compares with GNU msgfmt, not installed")
def test_our_reading_equals_gnu_msgfmt(tmp_path: Path) -> None:
    source, target = tmp_path / "de.po", tmp_path / "de.mo"
    source.write_text(GERMAN, encoding="utf-8")
    subprocess.run(["msgfmt", "-o", target, source], check=True)
    theirs = GNUTranslations(BytesIO(target.read_bytes()))
    ours = GNUTranslations(BytesIO(compile_po(GERMAN, "de")))
    assert ours._catalog == theirs._catalog  # type: ignore[attr-defined]
