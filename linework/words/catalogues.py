"""Which language the reader wants, and its catalogue."""

from __future__ import annotations

import gettext
import os
from collections.abc import Mapping
from functools import cache
from io import BytesIO

from linework import data
from linework.words.po import compile_po

_VARIABLES = ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


def wanted_languages(environment: Mapping[str, str]) -> list[str]:
    """Language codes in the order of preference, ``de_AT`` followed by ``de``, as gettext asks.

    The first variable that is set decides; LANGUAGE may list several, and counts for nothing
    where the locale is the plain "C". English is what the texts are written in, so whatever is
    wished for after it is never reached.
    """
    locale = next((environment[name] for name in _VARIABLES[1:] if environment.get(name)), "C")
    plain = _without_encoding(locale) in {"C", "POSIX"}
    wishes = environment.get("LANGUAGE") if not plain else None
    codes: list[str] = []
    for wish in (wishes or locale).split(":"):
        code = _without_encoding(wish)
        short = code.split("_")[0]
        if short in {"C", "POSIX", "en"}:
            break
        codes += [code, short] if short != code else [code]
    return [code for code in codes if code]


def _without_encoding(locale: str) -> str:
    return locale.split(".")[0].split("@")[0]


@cache
def language() -> str:
    """The code of the language in use: the first wanted one that has a catalogue, else "en"."""
    wanted = wanted_languages(os.environ)
    return next((code for code in wanted if data.exists(_catalogue_name(code))), "en")


@cache
def catalogue() -> gettext.NullTranslations:
    """The catalogue of that language. WordingError if its file cannot be read as one."""
    code = language()
    if code == "en":
        return gettext.NullTranslations()
    name = _catalogue_name(code)
    return gettext.GNUTranslations(BytesIO(compile_po(data.read_text(name), name)))


def _catalogue_name(code: str) -> str:
    return f"words/{code}/LC_MESSAGES/linework.po"
