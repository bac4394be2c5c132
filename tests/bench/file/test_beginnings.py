"""The beginnings of a new sheet: sound wherever they are offered, and drawn on their paper."""

from __future__ import annotations

from itertools import product

import pytest
from pytestqt.qtbot import QtBot

from linework.analysis import analyse
from linework.bench.file.beginnings import EMPTY, beginnings, begun
from linework.bench.file.jobform import PLACES, JobForm
from linework.design import Design, Settings
from linework.sheet.compose import compose_all

OFFERED = [
    (name, place) for place, _ in PLACES for name, _ in beginnings("NA", place) if name != EMPTY
]


def test_there_is_one_for_each_place_but_one() -> None:
    assert {place for _, place in OFFERED} == {place for place, _ in PLACES}
    assert len(OFFERED) >= 8
    assert [name for name, _ in beginnings("INT", "boat")] == [EMPTY]


@pytest.mark.parametrize(("name", "place"), OFFERED)
def test_it_is_sound_where_it_is_offered(name: str, place: str) -> None:
    design = begun(name, Settings(place=place, job="X"))
    assert (design.settings.place, design.settings.job) == (place, "X")
    analysis = analyse(design)
    assert [(f.rule, f.where) for f in analysis.open_findings] == []
    assert [(gap.rule, gap.where) for gap in analysis.gaps] == []
    loads = {part.id for part in design.parts if design.kind(part).consumes}
    fed = {load.part for report in analysis.reports for load in report.loads if load.volts > 1.0}
    assert loads <= fed


@pytest.mark.parametrize("name", sorted({name for name, _ in OFFERED}))
def test_it_lies_on_its_paper_with_nothing_lost(name: str) -> None:
    for sheet in compose_all(begun(name, Settings())):
        assert not sheet.lost
        assert not sheet.outside


def test_two_new_sheets_have_nothing_in_common() -> None:
    one, other = (begun("portable", Settings()) for _ in range(2))
    assert one is not other
    assert one.parts == other.parts


def test_the_form_offers_what_suits_the_place(qtbot: QtBot) -> None:
    form = JobForm(Design(), whole=False)
    qtbot.addWidget(form)
    for family, (place, _) in product(("NA", "INT"), PLACES):
        form.family.setCurrentIndex(form.family.findData(family))
        form.place.setCurrentIndex(form.place.findData(place))
        form.family.activated.emit(form.family.currentIndex())
        names = [form.beginning.itemData(n) for n in range(form.beginning.count())]
        assert names == [name for name, _ in beginnings(family, place)]
        assert form.beginning.currentData() == EMPTY
