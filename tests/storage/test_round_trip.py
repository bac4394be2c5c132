from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.design import Design, Draft, changed
from linework.design.integrity import flaws_of
from linework.kinds import Band, OneOf, kinds
from linework.storage import dumps, load, loads, loads_with_warnings, save
from tests.storage.designs import designs

FILES = Path(__file__).parent / "files"


@given(designs())
def test_what_is_written_is_read_again(design: Design) -> None:
    again = loads(dumps(design), "x")
    assert again.same_as(design)
    assert dumps(again) == dumps(design)
    assert again.revision == 0


@given(designs())
def test_what_edits_make_has_no_flaw(design: Design) -> None:
    assert flaws_of(design) == []


@given(designs(), st.randoms(use_true_random=False))
def test_the_order_of_entry_does_not_show(design: Design, shuffle: random.Random) -> None:
    elements = [item for item in design.elements.values() if item.id != "settings"]
    shuffle.shuffle(elements)
    other = Design(design.settings)
    other.apply(changed("", [(None, element) for element in elements]))
    assert dumps(other) == dumps(design)


@given(designs(unknown=False))
def test_nothing_known_gives_a_warning(design: Design) -> None:
    assert loads_with_warnings(dumps(design), "x").warnings == ()


@given(designs())
def test_each_element_has_a_line(design: Design) -> None:
    text = dumps(design).decode()
    raw = json.loads(text)
    assert next(iter(raw)) == "format"
    assert text.startswith('{\n"format": 1,\n"settings": {')
    lines = text.split("\n")
    for section in ("parts", "runs", "seats", "interlocks", "notes", "accepted"):
        for row in raw[section]:
            assert (
                sum(line.rstrip(",") == json.dumps(row, ensure_ascii=False) for line in lines) == 1
            )


def test_one_change_changes_one_line() -> None:
    draft = sketch()
    before = dumps(draft.design).decode().split("\n")
    draft.rate("G1", power="6 kVA")
    after = dumps(draft.design).decode().split("\n")
    assert len(before) == len(after)
    assert sum(a != b for a, b in zip(before, after, strict=True)) == 1


def sketch() -> Draft:
    draft = Draft(place="field", job="Pump house", voltage="120 V")
    draft.part("generator", "G1", power="5 kVA", neutral=OneOf(("bonded", "floating")),
               reactance=Band("0.07", "0,12", "0.24"))  # fmt: skip
    draft.part("outlet", "XD1", "pump", configuration="5-20")
    draft.part("plug", "XP1", configuration="5-20")
    draft.part("plug_load", "EP1", power="750 W")
    draft.run("G1.out", "XD1.feed", size="12 AWG", length="6 ft 3 in")
    draft.run("XP1.cord", "EP1.in", poles="L>N N>L PE>PE", size="2,5 mm²")
    draft.seat("XP1", "XD1", "face")
    return draft


def test_user_text_is_not_touched() -> None:
    ratings = loads(dumps(sketch().design), "x").part("G1").ratings
    assert ratings["power"] == "5 kVA"
    assert ratings["reactance"] == Band("0.07", "0,12", "0.24")
    raw = json.loads(dumps(sketch().design))
    assert raw["runs"][0]["ratings"] == {"length": "6 ft 3 in", "size": "12 AWG"}
    assert raw["runs"][1]["poles"] == [["L", "N"], ["N", "L"], ["PE", "PE"]]
    assert "poles" not in raw["runs"][0]
    assert raw["seats"] == [
        {"id": raw["seats"][0]["id"], "part": "XP1", "in": "XD1", "place": "face"}
    ]


def test_no_default_is_written() -> None:
    draft = Draft()
    for number, kind in enumerate(kinds()):
        draft.part(kind, f"K{number}")
    raw = json.loads(dumps(draft.design))
    assert [row["ratings"] for row in raw["parts"]] == [{}] * len(kinds())


def test_unknown_fields_are_kept_wherever_they_stand(tmp_path: Path) -> None:
    raw = json.loads(dumps(sketch().design))
    raw["layers"] = [{"name": "new"}]
    raw["settings"]["paper_colour"] = {"z": 1, "a": [1.5, None]}
    raw["parts"][0]["photograph"] = "a.jpg"
    raw["parts"][0]["ratings"]["hum"] = {"level": 3}
    raw["runs"][0]["glow"] = True
    raw["seats"][0]["turned"] = 90
    path = tmp_path / "a.linework"
    path.write_text(json.dumps(raw), encoding="utf-8")
    loaded = loads_with_warnings(path.read_bytes(), "a")
    assert [fault.path for fault in loaded.warnings] == [
        "settings.paper_colour",
        "parts[0] EP1 ratings.hum",
        "parts[0] EP1 photograph",
        "runs[0] W1 glow",
        "seats[0].turned",
        "layers",
    ]
    save(load(path), path)
    assert json.loads(path.read_bytes()) == raw
    # What an element's removal takes with it goes; the rest stays.
    draft = Draft()
    draft.design = load(path)
    draft.remove("XP1")
    left = json.loads(dumps(draft.design))
    assert left["seats"] == []
    assert left["layers"] == raw["layers"]
    assert b"turned" not in dumps(draft.design)


def test_the_order_within_what_is_unknown_does_not_show() -> None:
    raw = json.loads(dumps(sketch().design))
    files = []
    for value in ({"a": 1, "b": {"c": 2, "d": 3}}, {"b": {"d": 3, "c": 2}, "a": 1}):
        raw["parts"][0]["new"] = value
        files.append(dumps(loads(json.dumps(raw).encode(), "x")))
    assert files[0] == files[1]


def test_every_element_can_still_be_hashed() -> None:
    raw = json.loads(dumps(sketch().design))
    raw["parts"][0]["photograph"] = {"a": [1]}
    design = loads(json.dumps(raw).encode(), "x")
    assert len({hash(element) for element in design.elements.values()}) == len(design.elements)


def test_the_name_of_a_kind_or_field_is_guessed() -> None:
    raw = json.loads(dumps(sketch().design))
    raw["parts"][1]["kind"] = "generater"
    raw["parts"][0]["titel"] = "pump"
    raw["parts"][0]["ratings"]["powr"] = "1 W"
    loaded = loads_with_warnings(json.dumps(raw).encode(), "x")
    messages = {fault.path: fault.message for fault in loaded.warnings}
    assert "did you mean 'title'?" in messages["parts[0] EP1 titel"]
    assert "did you mean 'power'?" in messages["parts[0] EP1 ratings.powr"]
    assert "did you mean 'generator'?" in messages["parts[1] G1 kind"]
    assert json.loads(dumps(loaded.design)) == raw


def test_half_characters_do_not_stop_a_save() -> None:
    draft = Draft(job="a\ud800b")
    assert loads(dumps(draft.design), "x").settings.job == "a\ufffdb"


def test_format_1_is_read_for_good() -> None:
    """The file was written by the first version; never write it anew."""
    data = (FILES / "format1.linework").read_bytes()
    loaded = loads_with_warnings(data, "format1.linework")
    design = loaded.design
    assert loaded.warnings == ()
    assert loads(dumps(design), "x").same_as(design)
    assert (len(design.parts), len(design.runs), len(design.seats)) == (10, 5, 5)
    assert (len(design.interlocks), len(design.notes), len(design.accepted)) == (1, 1, 1)
    assert design.by_designation("G1").ratings["neutral"] == OneOf(("bonded", "floating"))
    assert design.by_designation("G1").ratings["reactance"] == Band("0.07", "0.12", "0.24")
    assert design.settings.place == "field"


@pytest.mark.parametrize("sample", sorted((FILES.parents[2] / "samples").glob("*.linework")))
def test_samples_are_read_without_a_warning(sample: Path) -> None:
    loaded = loads_with_warnings(sample.read_bytes(), sample.name)
    assert loaded.warnings == ()
    assert loaded.design.parts
    assert loads(dumps(loaded.design), "x").same_as(loaded.design)
