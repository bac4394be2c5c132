"""The guide: what a person reads who wants to know how to work, what a word means, why a rule is.

Pages are plain values, made from the declarations of kinds and rules where there are such, and
written as HTML for the window and for the folder of pages.
"""

from linework.guide.chapters import FIRST, Chapter, Entry, chapters, page
from linework.guide.html import html_of
from linework.guide.model import Page, Shown
from linework.guide.reasons import Heading, Reason, parsed, reason_of
from linework.guide.symbols import symbol_picture
from linework.guide.term import Term
from linework.guide.terms import terms, terms_in

__all__ = [
    "FIRST",
    "Chapter",
    "Entry",
    "Heading",
    "Page",
    "Reason",
    "Shown",
    "Term",
    "chapters",
    "html_of",
    "page",
    "parsed",
    "reason_of",
    "symbol_picture",
    "terms",
    "terms_in",
]
