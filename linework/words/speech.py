"""From a message to the sentence that a person reads."""

from __future__ import annotations

from collections.abc import Mapping
from string import Formatter
from typing import Any

from linework.words.catalogues import catalogue, language
from linework.words.errors import WordingError
from linework.words.terms import glossary


def N_(message: str) -> str:
    """Mark a literal for translation now and ``say`` it later. Returns it unchanged."""
    return message


def say(message: str, *, family: str | None = None, **values: object) -> str:
    """The sentence in the reader's language and the family's words.

    ``{name}`` is the value passed under that name, else the glossary's word, else an error:
    WordingError names the text and the token. A text with words of the glossary needs its
    ``family``: without one it has none. ``{Name}`` begins a sentence: the same with its first
    letter made large. Values are put in as they are and are not read for braces.
    """
    return _fill(catalogue().gettext(message), family, values)


def say_within(message: str, *, family: str | None = None, **values: object) -> str:
    """Like ``say``, for a label that stands within a sentence.

    English begins it small there, but for an abbreviation ("AC side"). Other languages have their
    own ways (German nouns stay large), so a translated label stays as its translator wrote it.
    """
    return begun_small(say(message, family=family, **values))


def begun_small(text: str) -> str:
    """A text that was said already, as it stands within a sentence; see ``say_within``."""
    if language() != "en" or text[1:2].isupper():
        return text
    return text[:1].lower() + text[1:]


def say_count(
    one: str, many: str, count: int, *, family: str | None = None, **values: object
) -> str:
    """Like ``say``, choosing the wording for that count, which both may use as ``{count}``."""
    message = catalogue().ngettext(one, many, count)
    return _fill(message, family, {"count": count, **values})


def _fill(message: str, family: str | None, values: Mapping[str, object]) -> str:
    words = {} if family is None else glossary(family)
    return _Filler(message, words, values).vformat(message, (), {})


class _Filler(Formatter):
    """str.format whose names are looked up among values and words."""

    def __init__(
        self, message: str, words: Mapping[str, str], values: Mapping[str, object]
    ) -> None:
        self._message = message
        self._words = words
        self._values = values

    def get_value(self, key: int | str, args: Any, kwargs: Any) -> object:
        name = str(key)
        if name in self._values:
            return self._values[name]
        if name in self._words:
            return self._words[name]
        small = name[:1].lower() + name[1:]
        if small != name and (small in self._values or small in self._words):
            text = str(self._values.get(small, self._words.get(small)))
            return text[:1].upper() + text[1:]
        raise WordingError(
            f"The text {self._message!r} asks for {{{name}}}, which is neither a value that was "
            "passed nor a word of the glossary of the family that was named."
        )
