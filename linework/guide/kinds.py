"""A page for each kind of part, made from what the kind declares."""

from __future__ import annotations

import inspect
from collections.abc import Iterator

from linework.design import Design, Part, Settings
from linework.guide.model import Block, Page, Prose, Rows, Shown, Title
from linework.guide.reasons import parsed
from linework.kinds import RUN_RATINGS, Band, Kind, OneOf, Rating, Values, kind_of
from linework.kinds.terminal_words import TERMINAL_WORDS
from linework.wiring import Terminal
from linework.words import N_, say

FOLDER = "part/"
RUN = "run"
RUN_TITLE = N_("Run: a wire, cable or cord")

_RUN_TEXT = N_(
    "A run is drawn from terminal to terminal as one line and stands for all its conductors. Its"
    " size, length and how it is laid decide what it may carry, what device belongs before it and"
    " what is lost along it."
)
_ROLES = {
    "in": N_("takes power"),
    "out": N_("gives power"),
    "both": N_("either way"),
    "tie": N_("{grounding}, bonding"),
}


def kind_page(key: str, family: str) -> Page:
    """What a kind is, where wires end at it, and what its card asks."""
    kind = kind_of(key)
    values = _values(kind, family)
    name = say(kind.name, family=family)
    blocks: list[Block] = [
        Prose(_about(kind)),
        Shown(f"{key}.{family}", name, symbol=True),
    ]
    terminals = kind.terminals(values)
    if terminals:
        heads = (say("Terminal"), say("Conductors"), say("What it does"))
        rows = tuple(
            (_called(t, family), ", ".join(t.poles), say(_ROLES[t.role], family=family))
            for t in terminals
        )
        blocks += [Title(say("Where wires end")), Rows(heads, rows)]
    blocks += _asked(kind.ratings, family)
    if kind.search:
        blocks += [Title(say("Other words for it")), Prose(say(kind.search, family=family))]
    return Page(FOLDER + key, name[:1].upper() + name[1:], tuple(blocks))


def _called(terminal: Terminal, family: str) -> str:
    word = TERMINAL_WORDS.get(terminal.name)
    return terminal.name if word is None else say(word, family=family)


def run_page(family: str) -> Page:
    """What is asked of a wire, cable or cord."""
    ratings = tuple(RUN_RATINGS.values())
    blocks = (Prose(say(_RUN_TEXT)), *_asked(ratings, family))
    return Page(FOLDER + RUN, say(RUN_TITLE), blocks)


def _values(kind: Kind, family: str) -> Values:
    """Of a part of this kind of which nothing is given."""
    design = Design(Settings(family=family))
    return design.values(Part(kind.key, kind.key, "X1"))


def _about(kind: Kind) -> str:
    """The first sentence of the file that declares it."""
    module = inspect.getmodule(kind.terminals)
    doc = (module and inspect.getdoc(module)) or ""
    return parsed(doc).opening or say(kind.name)


def _asked(ratings: tuple[Rating, ...], family: str) -> Iterator[Block]:
    """What its card asks: first what is always shown, then what is seldom asked."""
    heads = (say("Asked"), say("Where it stands"), say("Taken if nothing is given"))
    for title, quiet in ((say("What the card asks"), False), (say("Seldom asked"), True)):
        rows = tuple(_row(rating, family) for rating in ratings if rating.quiet is quiet)
        if rows:
            yield Title(title)
            yield Rows(heads, rows)


def _row(rating: Rating, family: str) -> tuple[str, str, str]:
    help_ = say(rating.help, family=family) if rating.help else ""
    return say(rating.label, family=family), help_, _taken(rating, family)


def _taken(rating: Rating, family: str) -> str:
    """What stands in, and where that is from."""
    words = {c.value: say(c.label, family=family) for c in rating.choices}
    default = rating.default
    if rating.needed:
        return say("nothing: without it the part cannot be judged")
    if rating.derive is not None:
        text = say("worked out from the others")
    elif isinstance(default, Band):
        text = f"{default.low} / {default.usual} / {default.high}"
    elif isinstance(default, OneOf):
        text = " / ".join(words.get(option, option) for option in default.options)
    elif default is None or default == "":
        return ""
    elif default.startswith("$"):
        text = say("that of the whole drawing")
    else:
        text = words.get(default, default)
    if rating.quiet:
        return text
    return f"{text} ({say(rating.source.text, family=family)})"
