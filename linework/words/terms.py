"""The trade's words, as each family's people say them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from linework import data
from linework.words.catalogues import catalogue
from linework.words.errors import WordingError

FAMILIES = ("NA", "INT")
_ARTICLE = re.compile(r"an? ")


@cache
def glossary(family: str) -> Mapping[str, str]:
    """Each token's word in the family ("NA": North America, "INT": elsewhere).

    A countable word comes twice: ``outlet`` is "outlet", ``a_outlet`` is "an outlet". The article
    is English; a translated text uses the bare token. WordingError if there is no such family.
    """
    if family not in FAMILIES:
        known = " and ".join(FAMILIES)
        raise WordingError(f"There is no glossary for the family {family!r}; there are {known}.")
    words: dict[str, str] = {}
    for row in data.read_csv("words/glossary.csv"):
        token, phrase = row["token"], row[family]
        bare = _ARTICLE.sub("", phrase, count=1) if _ARTICLE.match(phrase) else phrase
        words[token] = catalogue().pgettext(f"glossary {family}", bare)
        if bare != phrase:
            words[f"a_{token}"] = phrase
    return MappingProxyType(words)
