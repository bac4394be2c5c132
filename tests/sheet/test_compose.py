"""The whole sheet: what is on it, what a state shows, what goes on on other sheets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linework.analysis import Analysis, analyse
from linework.design import Design, Draft, Interlock, Note, changed
from linework.picture.inks import FINE, HEAVY, Dash, Ink
from linework.picture.model import Group, Link, Polyline, Target, flatten
from linework.sheet.compose import Composition, compose, compose_all
from linework.sheet.energised import source_marks
from linework.sheet.laid import Options
from linework.sheet.parts import sheet_numbers
from linework.sheet.targets import part_targets
from linework.study.report import BondReport
from tests.sheet.samples import trailer

RUNNING = "G1=running GS1=dead QT1=1 TB1=off XP1=XD11"
UNPLUGGED = "G1=stopped GS1=live QT1=1 TB1=off XP1=unplugged"


@pytest.fixture(scope="module")
def judged() -> tuple[Design, Analysis]:
    design = trailer()
    return design, analyse(design)


Judged = tuple[Design, Analysis]


def _pens(sheet: Composition, tag: str) -> set[tuple[Ink, int]]:
    return {
        (flat.item.pen.ink, flat.item.pen.width)
        for flat in flatten(sheet.picture.items)
        if flat.tag == tag and isinstance(flat.item, Polyline) and flat.item.pen
    }


def _words(sheet: Composition) -> set[str]:
    return {text.text for text in sheet.texts}


def test_every_part_and_run_is_on_the_sheet() -> None:
    design = trailer()
    sheet = compose(design)
    assert {part.id for part in design.parts} <= set(sheet.items)
    assert {run.id for run in design.runs} <= set(sheet.items)
    assert {part.designation for part in design.parts} <= _words(sheet)
    assert sheet.outside == ()


def test_without_a_state_no_run_is_drawn_as_live_or_dead() -> None:
    design = trailer()
    sheet = compose(design)
    widths = {width for run in design.runs for _, width in _pens(sheet, run.id)}
    assert FINE not in widths
    assert HEAVY not in widths


def test_fed_runs_carry_their_sources_hue_and_letter(judged: Judged) -> None:
    design, analysis = judged
    sheet = compose(design, analysis, RUNNING)
    mark = source_marks(design)["G1"]
    assert (mark.ink, HEAVY) in _pens(sheet, "W2")
    letters = {
        flat.item.text
        for flat in flatten(sheet.picture.items)
        if flat.tag == "W2" and hasattr(flat.item, "text")
    }
    assert mark.letter in letters


def test_dead_runs_are_thin_and_quiet(judged: Judged) -> None:
    design, _ = judged
    sheet = compose(design, analyse(design, shown=UNPLUGGED), UNPLUGGED)
    assert (Ink.QUIET, FINE) in _pens(sheet, "W2")


def test_every_source_has_a_letter_of_its_own_in_all_states() -> None:
    marks = source_marks(trailer())
    letters = [mark.letter for mark in marks.values()]
    assert set(marks) == {"G1", "GS1", "GB1", "TB1"}
    assert len(set(letters)) == len(letters)


def test_a_plug_is_led_in_full_where_it_is_put_in_and_dashed_where_it_may_go(
    judged: Judged,
) -> None:
    design, analysis = judged
    sheet = compose(design, analysis, RUNNING)
    dashes = {}
    for seat in design.seats_of("XP1"):
        (line,) = [f.item for f in flatten(sheet.picture.items) if f.tag == seat.id]
        assert isinstance(line, Polyline)
        assert line.pen is not None
        dashes[seat.host] = line.pen.dash
    assert dashes == {"XD1": Dash.DASHED, "XD11": Dash.SOLID}


def test_a_state_names_itself_and_its_sources(judged: Judged) -> None:
    design, analysis = judged
    sheet = compose(design, analysis, RUNNING)
    written = " ".join(text.text for text in sheet.texts)
    assert "State shown:" in written
    assert "fed by G1 generator" in written


def test_writing_stays_where_it_is_from_state_to_state(judged: Judged) -> None:
    design, analysis = judged
    one = compose(design, analysis, RUNNING)
    other = compose(design, analyse(design, shown=UNPLUGGED), UNPLUGGED)

    def steady(sheet: Composition) -> dict[str, object]:
        parts = {part.id for part in design.parts}
        return {label.key: label.hung for label in sheet.placed if label.key in parts}

    assert steady(one) == steady(other)


def test_every_finding_has_its_flag_or_is_told_as_lost(judged: Judged) -> None:
    design, analysis = judged
    sheet = compose(design, analysis)
    flagged = [finding for finding in analysis.findings if finding.rule != "value-assumed"]
    for finding in flagged:
        key = f"flag-{finding.number}"
        on_sheet = any(subject in sheet.items for subject in finding.subjects)
        assert (key in sheet.items) == (on_sheet and key not in sheet.lost)
    assert flagged


def test_assumed_values_stand_in_brackets_and_have_no_flag(judged: Judged) -> None:
    design, analysis = judged
    sheet = compose(design, analysis)
    assumed = [finding for finding in analysis.findings if finding.rule == "value-assumed"]
    assert assumed
    assert not {f"flag-{finding.number}" for finding in assumed} & {*sheet.items, *sheet.lost}
    assert any(text.text.startswith("[") for text in sheet.texts)


def test_flags_cover_no_writing(judged: Judged) -> None:
    design, analysis = judged
    sheet = compose(design, analysis)
    flags = [box for key, found in sheet.items.items() if key.startswith("flag-") for box in found]
    labels = [box for label in sheet.placed for box in label.boxes]
    assert flags
    assert not any(flag.overlaps(label) for flag in flags for label in labels)


def test_a_state_of_another_name_is_shown_as_none(judged: Judged) -> None:
    design, analysis = judged
    assert compose(design, analysis, "no such state").picture == compose(design, analysis).picture


def _on_two_sheets() -> Design:
    design = trailer()
    board = design.by_designation("QP1")
    design.apply(changed("", [(board, replace(board, sheet=2))]))
    return design


def test_a_run_to_another_sheet_has_a_sign_at_both_ends() -> None:
    design = _on_two_sheets()
    first, second = compose_all(design)
    board = second.drawings["QP1"]
    zone = second.frame.zone_at(board.x, board.y)
    assert any(word.endswith(f"sheet 2 {zone}: QP1") for word in _words(first))
    switch = first.drawings["QT1"]
    told = f"sheet 1 {first.frame.zone_at(switch.x, switch.y)}: QT1"
    assert any(word.endswith(told) for word in _words(second))


def test_what_sits_in_a_part_is_on_its_sheet() -> None:
    first, second = compose_all(_on_two_sheets())
    assert "QF1" in second.drawings
    assert "QF1" not in first.drawings


def test_the_title_block_counts_the_sheets() -> None:
    first, second = compose_all(_on_two_sheets())
    assert "1 of 2" in _words(first)
    assert "2 of 2" in _words(second)


def test_a_plug_tells_of_outlets_on_other_sheets() -> None:
    design = trailer()
    outlet = design.by_designation("XD1")
    design.apply(changed("", [(outlet, replace(outlet, sheet=2))]))
    assert "or to XD1, sheet 2" in _words(compose(design))


def test_notes_stand_where_the_user_put_them_and_nothing_lies_on_them() -> None:
    design = trailer()
    note = Note("n1", "cord is kept in the locker", 1000, 300)
    design.apply(changed("", [(None, note)]))
    sheet = compose(design)
    (box,) = sheet.items["n1"]
    assert box.left - note.x in range(4)
    assert not any(box.overlaps(other) for label in sheet.placed for other in label.boxes)
    assert sheet_numbers(design) == (1,)


def test_an_interlock_is_a_dashed_line_with_its_title() -> None:
    design = trailer()
    lock = Interlock("i1", (("QF1", "breaker", "closed"), ("QF11", "breaker", "closed")), "one key")
    design.apply(changed("", [(None, lock)]))
    sheet = compose(design)
    (line,) = [
        flat.item
        for flat in flatten(sheet.picture.items)
        if flat.tag == "i1" and isinstance(flat.item, Polyline)
    ]
    assert line.pen is not None
    assert line.pen.dash is Dash.DASHED
    assert "one key" in _words(sheet)


def test_a_run_with_a_cut_conductor_shows_it() -> None:
    design = trailer()
    run = next(run for run in design.runs if run.id == "W2")
    cut = replace(run, ratings=run.ratings.with_answer("broken", "PE"))
    design.apply(changed("", [(run, cut)]))
    sheet = compose(design)
    assert "PE cut" in _words(sheet)
    inks = {
        flat.item.pen.ink
        for flat in flatten(sheet.picture.items)
        if flat.tag == "W2" and getattr(flat.item, "pen", None)
    }
    assert Ink.DANGER in inks


def test_more_lines_are_written_at_the_part_they_are_for() -> None:
    more = {"QP1": ("fault level 1.2 kA to 2.1 kA",)}
    sheet = compose(trailer(), options=Options(more=more))
    assert "fault level 1.2 kA to 2.1 kA" in _words(sheet)


def test_links_and_targets_only_where_they_are_wanted(judged: Judged) -> None:
    design, analysis = judged

    def guides(sheet: Composition) -> list[object]:
        flats = flatten(sheet.picture.items)
        return [flat.item for flat in flats if isinstance(flat.item, Target | Link)]

    assert guides(compose(design, analysis)) == []
    names = [
        g.name
        for g in guides(compose(design, analysis, options=Options(links=True)))
        if isinstance(g, Target)
    ]
    assert len(names) == len(set(names))
    assert part_targets(design)["G1"] in names
    assert "flag-1" in names


def test_a_sheet_without_frame_has_no_title_block() -> None:
    assert "One-line diagram" not in _words(compose(trailer(), options=Options(frame=False)))


def test_an_empty_design_is_an_empty_sheet() -> None:
    sheet = compose(Draft(job="nothing yet").design)
    assert "nothing yet" in _words(sheet)
    assert sheet.items == {}


def test_a_part_outside_the_frame_is_told() -> None:
    draft = Draft()
    draft.part("lamp", "EL1", at=(6000, 500))
    sheet = compose(draft.design)
    assert sheet.outside == ("EL1",)


def test_groups_are_tagged_with_what_they_stand_for() -> None:
    design = trailer()
    tags = {item.tag for item in compose(design).picture.items if isinstance(item, Group)}
    assert {part.id for part in design.parts} <= tags
    assert {run.id for run in design.runs} <= tags


def test_a_bond_of_direct_current_is_not_called_one_of_the_neutral() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", at=(500, 800), voltage="12 V", capacity="100 Ah")
    draft.part("lamp", "EL1", at=(1500, 800), power="20 W", circuit="dc", voltage="12 V")
    draft.part("generator", "G1", at=(500, 1600), power="5 kVA", neutral="bonded")
    draft.run("GB1.dc", "EL1.in", size="12 AWG", length="5 ft")
    analysis = analyse(draft.design)
    report = analysis.reports[0]

    def told(is_ac: bool) -> str:
        bond = BondReport(("GB1",), is_ac, ("GB1",), ring=False)
        shown = replace(analysis, reports=(replace(report, bonds=(bond,)),))
        return repr(compose(draft.design, shown, report.key).picture)

    assert "Neutral-ground link here" in told(True)
    assert "Minus grounded here" in told(False)
    assert "Neutral-ground link here" not in told(False)
