"""Every text a person reads: gettext catalogues, and the glossary by family.

A text is written once, in English, where it is needed::

    say("{designation} feeds the {panel} without a {ground_wire}.", designation="W3", family="INT")

The text itself is the gettext message id, so it must be a literal. What stands in braces is
either a value of the call or a word of the glossary, which each family's people say their way.
"""

from linework.words.catalogues import language
from linework.words.errors import WordingError
from linework.words.speech import N_, begun_small, say, say_count, say_within
from linework.words.terms import FAMILIES, glossary

__all__ = [
    "FAMILIES",
    "N_",
    "WordingError",
    "begun_small",
    "glossary",
    "language",
    "say",
    "say_count",
    "say_within",
]
