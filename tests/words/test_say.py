"""Texts: the glossary's words by family, values, and errors that name the text."""

from __future__ import annotations

import csv
import re

import pytest

from linework import data, words
from linework.words import N_, WordingError, glossary, say, say_count


def test_each_family_reads_its_own_words() -> None:
    text = "The {ground_wire} of the {panel} and the {hot}"
    assert say(text, family="NA") == "The ground wire of the panel and the hot"
    assert (
        say(text, family="INT") == "The earth wire of the distribution board and the line conductor"
    )


def test_values_are_put_in_with_their_format() -> None:
    assert (
        say("{part} carries {current_a:.1f} A", part="W3", current_a=14.96) == "W3 carries 15.0 A"
    )


def test_a_value_goes_before_a_word_of_the_glossary() -> None:
    assert say("{panel}", panel="A1") == "A1"


def test_braces_in_a_value_are_left_alone() -> None:
    assert say("{part} is dead", part="{hot} {0} {") == "{hot} {0} { is dead"


def test_a_large_letter_begins_a_sentence() -> None:
    assert say("{Ground_wire}: {a_gfci}.", family="INT") == "Earth wire: an RCD."
    assert say("{Gfci}", family="NA") == "GFCI"
    assert say("{Place} is dark.", place="the outlet") == "The outlet is dark."


def test_the_article_follows_the_word() -> None:
    assert say("{A_outlet}, {a_gfci}", family="NA") == "An outlet, a GFCI"
    assert say("{A_outlet}, {a_gfci}", family="INT") == "A socket-outlet, an RCD"


@pytest.mark.parametrize("text", ["{unheard_of}", "{Unheard_of}", "{0}", "{}"])
def test_an_unknown_token_names_text_and_token(text: str) -> None:
    with pytest.raises(WordingError, match=re.escape(f"The text {text!r} asks for")):
        say(text, part="W3")


def test_words_of_no_family_are_refused() -> None:
    with pytest.raises(WordingError, match="of the family that was named"):
        say("{hot}")
    with pytest.raises(WordingError, match="of the family that was named"):
        say_count("{count} {outlet}", "{count} {outlets}", 2)


def test_an_unknown_family_is_refused() -> None:
    with pytest.raises(WordingError, match="no glossary for the family 'EU'; there are NA and INT"):
        say("{hot}", family="EU")


def test_counting_chooses_the_wording() -> None:
    said = [say_count("{count} {outlet}", "{count} {outlets}", n, family="INT") for n in (0, 1, 2)]
    assert said == ["0 socket-outlets", "1 socket-outlet", "2 socket-outlets"]


def test_a_marked_message_is_said_later() -> None:
    assert say(N_("{Neutral} and {part}"), family="NA", part="W3") == "Neutral and W3"


def test_every_family_fills_every_row_and_keeps_to_a_source() -> None:
    rows = data.read_csv("words/glossary.csv")
    assert len({row["token"] for row in rows}) == len(rows) > 30
    for row in rows:
        assert re.fullmatch(r"[a-z]+(_[a-z]+)*", row["token"]), row
        assert not row["token"].startswith("a_"), row
        assert all(value == value.strip() and value for value in row.values()), row


def test_the_english_article_fits_its_word() -> None:
    for family in words.FAMILIES:
        for token, phrase in glossary(family).items():
            if not token.startswith("a_"):
                continue
            article, noun = phrase.split(" ", 1)
            spelled = noun.split()[0].isupper()
            vowel = noun[0] in ("AEFHILMNORSX" if spelled else "aeio") or noun.startswith("un")
            assert article == ("an" if vowel else "a"), phrase


def test_both_families_know_the_same_tokens() -> None:
    first, second = (glossary(family).keys() for family in words.FAMILIES)
    assert first == second


def test_the_glossary_cannot_be_changed_by_a_reader() -> None:
    with pytest.raises(TypeError):
        glossary("NA")["hot"] = "live"  # type: ignore[index]


def test_the_glossary_is_a_plain_table() -> None:
    with data.path("words/glossary.csv").open(encoding="utf-8", newline="") as file:
        assert next(csv.reader(file)) == ["token", *words.FAMILIES, "source"]
