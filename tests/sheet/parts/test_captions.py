"""What is written at a part and at a run."""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Band, OneOf
from linework.picture.inks import Ink
from linework.sheet.lettering.texts import Block
from linework.sheet.parts.captions import captions_in_words, captions_of, head_of


def _lines(block: Block) -> list[str]:
    return [" ".join(span.text for span in row) for row in block]


def _captions(kind: str, **ratings: object) -> Block:
    draft = Draft()
    part = draft.part(kind, "P1", **ratings)  # type: ignore[arg-type]
    return captions_of(draft.design, part)


def test_designation_is_bold_and_the_title_is_not() -> None:
    draft = Draft()
    part = draft.part("generator", "G1", title="spare set")
    ((first, second, system),) = head_of(draft.design, part)
    assert system.ink is Ink.QUIET
    assert (first.text, first.bold) == ("G1", True)
    assert (second.text, second.bold) == ("spare set", False)


def test_a_long_title_goes_below() -> None:
    draft = Draft()
    part = draft.part("generator", "G1", title="the old yellow generator behind the barn door")
    head = head_of(draft.design, part)
    assert len(head) > 1
    assert " ".join(_lines(head[:-1])).endswith("behind the barn door")


def test_given_values_stand_plain_and_assumed_ones_in_brackets() -> None:
    given = _captions("outlet", configuration="L5-30")
    assert _lines(given) == ["L5-30"]
    assumed = _captions("outlet")
    assert _lines(assumed) == ["[5-15]"]
    assert assumed[0][0].ink is Ink.ASSUMED


def test_an_unknown_choice_is_said_to_be_unknown() -> None:
    poles = OneOf(("lines", "all"))
    lines = _lines(_captions("transfer_switch", rating="30 A", poles=poles))
    assert lines == ["30 A", "Poles switched: [not known]"]


def test_what_the_mark_of_the_neutral_shows_is_not_written_too() -> None:
    assert _lines(_captions("generator", power="5 kVA")) == ["5 kVA"]


def test_what_is_needed_and_not_given_is_never_left_out() -> None:
    lines = _lines(_captions("generator"))
    assert lines[0] == "[Rating not given]"


def test_a_band_is_written_with_its_three_figures() -> None:
    lines = _lines(_captions("electrode", resistance=Band("5 ohm", "8 ohm", "20 ohm")))
    assert " ".join(lines) == "5 ohm / 8 ohm / 20 ohm"


def test_what_is_not_fitted_is_not_written() -> None:
    assert _lines(_captions("breaker", rating="20 A")) == ["20 A"]


def test_a_body_whose_title_is_its_name_is_named_once() -> None:
    draft = Draft()
    draft.part("body", "XB1", title="trailer frame", name="trailer frame")
    draft.part("body", "XB2", title="left rail", name="trailer frame")
    design = draft.design
    told = [
        [span.text for row in captions_of(design, part) for span in row] for part in design.parts
    ]
    assert told == [[], ["trailer frame"]]


def test_captions_in_one_line_say_what_their_figures_are() -> None:
    draft = Draft()
    draft.part("solar_array", "GP1", power="200 W", series="2", strings="1")
    draft.part("panel", "QP1", main="30 A", bus="60 A")
    told = [captions_in_words(draft.design, part) for part in draft.design.parts]
    assert told == [
        "200 W, Modules in series: 2, Strings in parallel: 1",
        "bus 60 A, Main breaker: 30 A",
    ]
