"""What an outlet tester shows, in a sentence, with the causes that give the same picture."""

from __future__ import annotations

from linework.study.tester import Reading
from linework.words import N_, say

_PICTURES = {
    "dead": N_("nothing lit: no voltage"),
    "correct": N_("line-neutral and line-{ground} lit: reads correct"),
    "open_ground": N_("line-neutral lit, the other two dark or dim: reads open {ground}"),
    "open_neutral": N_("only line-{ground} lit: reads open {neutral}"),
    "open_line": N_("nothing lit: reads open {hot}"),
    "reversed": N_("line-neutral and {neutral}-{ground} lit: reads {hot} and {neutral} exchanged"),
    "ground_reversed": N_(
        "line-{ground} and {neutral}-{ground} lit: reads {hot} and {ground} exchanged (an open"
        " {neutral} with a load switched on looks the same)"
    ),
    "too_high": N_("far above 120 V: take the tester out"),
    "unclear": N_("no picture that testers know"),
}

_WHOLE_UNBONDED = N_(
    "The {ground_wire} is continuous to the source; its {neutral} is joined to {ground} nowhere."
)
_CUT = N_("The {ground_wire} does not reach the source: a continuity test shows it open.")
_LIKE_CORRECT = N_(
    "A {neutral} used as {ground}, the two exchanged, or a second link read the same."
)


def sentence_of_tester(reading: Reading, family: str) -> str:
    """The lamps in words, the volts, and why."""
    picture = say(_PICTURES[reading.picture], family=family)
    volts = " / ".join(f"{v:.0f}" for v in reading.volts)
    parts = [f"{picture} ({volts} V)."]
    if reading.picture != "dead":
        parts += _reasons(reading, family)
    return " ".join(parts)


def _reasons(reading: Reading, family: str) -> list[str]:
    if reading.ground_whole is False:
        return [say(_CUT, family=family)]
    if reading.ground_whole and reading.bonded is False:
        return [say(_WHOLE_UNBONDED, family=family)]
    if reading.picture == "correct":
        return [say(_LIKE_CORRECT, family=family)]
    return []


_WORDS = {
    "dead": N_("dead"),
    "correct": N_("correct"),
    "open_ground": N_("open {ground}"),
    "open_neutral": N_("open {neutral}"),
    "open_line": N_("open {hot}"),
    "reversed": N_("{hot} and {neutral} exchanged"),
    "ground_reversed": N_("{hot} and {ground} exchanged"),
    "too_high": N_("far above 120 V"),
    "unclear": N_("no known picture"),
}


def picture_word(reading: Reading, family: str) -> str:
    """What the lamps say, in a word or two; an unbroken ground wire without a link is named."""
    word = say(_WORDS[reading.picture], family=family)
    if reading.picture == "open_ground" and reading.ground_whole and reading.bonded is False:
        return say("{word}, wire whole, no link", word=word)
    return word
