"""How a rating is asked on the card: what may be chosen, what stands in, what was typed."""

from __future__ import annotations

from dataclasses import dataclass

from linework.kinds import Answer, Band, OneOf, Rating, Values
from linework.quantity import KINDS
from linework.words import N_, say

_EXAMPLES = {
    "size": "12 AWG",
    "configuration": "5-15",
    "text": "",
}
_GIVEN = N_("[not given]")


@dataclass(frozen=True)
class Option:
    """One line of a list: what a person reads and what it answers (None: nothing given)."""

    label: str
    answer: Answer | None
    assumed: bool = False


def options(rating: Rating, values: Values, family: str) -> list[Option]:
    """Everything a choice can be set to. What stands in where nothing is given comes first."""
    default = _stand_in(rating, values)
    found: list[Option] = []
    if not (rating.quiet and isinstance(default, str)):
        found.append(Option(_bracketed(rating, default, family), None, assumed=True))
    for choice in rating.choices:
        quiet_default = rating.quiet and choice.value == default
        answer = None if quiet_default else choice.value
        found.append(Option(say(choice.label, family=family), answer))
    now = values.ratings.get(rating.key)
    if isinstance(now, OneOf):
        found.append(Option(shown(rating, now, family), now))
    return found


def chosen(rating: Rating, values: Values, found: list[Option]) -> int:
    """Which of the options holds now."""
    now = values.ratings.get(rating.key)
    answers = [option.answer for option in found]
    if now in answers:
        return answers.index(now)
    # Given in so many words although it is what an absent answer means.
    labels = [i for i, o in enumerate(found) if o.answer is None and not o.assumed]
    return labels[0] if labels else 0


def _stand_in(rating: Rating, values: Values) -> Answer | None:
    """What is taken where the user gives nothing."""
    bare = Values(values.declared, values.ratings.with_answer(rating.key, None), {}, values.setting)
    return bare.answer(rating.key)


def _bracketed(rating: Rating, answer: Answer | None, family: str) -> str:
    return say(_GIVEN) if answer is None else f"[{shown(rating, answer, family)}]"


def shown(rating: Rating, answer: Answer, family: str) -> str:
    """An answer as a person reads it: a text, three figures, or possibilities."""
    words = {c.value: say(c.label, family=family) for c in rating.choices}
    if isinstance(answer, Band):
        return f"{answer.low} / {answer.usual} / {answer.high}"
    if isinstance(answer, OneOf):
        options_text = " / ".join(words.get(option, option) for option in answer.options)
        return say("not known: {options}", options=options_text)
    return words.get(answer, answer)


@dataclass(frozen=True)
class Hint:
    """What stands in an empty field; ``assumed``: a value that is taken, not an example."""

    text: str
    assumed: bool


def hint(rating: Rating, values: Values, family: str) -> Hint:
    """What an empty field shows: the value that stands in, else an example."""
    default = _stand_in(rating, values)
    if default is not None:
        text = shown(rating, default, family)
        return Hint(text if rating.quiet else f"[{text}]", assumed=not rating.quiet)
    example = example_of(rating)
    if rating.needed:
        return Hint(say("needed, as {example}", example=example), assumed=True)
    return Hint(say("as {example}", example=example) if example else "", assumed=False)


def hints_of_three(rating: Rating, values: Values) -> tuple[str, str, str]:
    """What three empty fields show: low, usual, high, where a band stands in."""
    default = _stand_in(rating, values)
    if isinstance(default, Band):
        return f"[{default.low}]", f"[{default.usual}]", f"[{default.high}]"
    return say("low"), say("usual"), say("high")


def example_of(rating: Rating) -> str:
    """What to write, for example."""
    if rating.quantity in KINDS:
        return KINDS[rating.quantity].example
    return _EXAMPLES.get(rating.quantity, "")


def takes_three(rating: Rating) -> bool:
    """Whether low, usual and high figure can be told apart."""
    return rating.quantity in KINDS and rating.quantity != "count"


def typed(rating: Rating, text: str) -> Answer | None:
    """The answer that a typed text is: nothing, a value, or three with strokes between them.

    It is not checked here; the edit does that and says why it refuses.
    """
    clean = " ".join(text.split())
    if not clean:
        return None
    pieces = [piece.strip() for piece in clean.split("/")]
    if takes_three(rating) and len(pieces) == 3 and all(pieces):
        return Band(*(_pointed(rating, piece) for piece in pieces))
    return _pointed(rating, clean)


def _pointed(rating: Rating, text: str) -> str:
    """With a decimal point, as files have it; the grammar knows no grouping."""
    return text.replace(",", ".") if rating.quantity in KINDS or rating.quantity == "size" else text
