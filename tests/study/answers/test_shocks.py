"""What faults to metal do, and what of the circuit reaches the soil."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.answers.scorched import scorched
from linework.study.answers.services import unlinked_services
from linework.study.answers.shocks import Shock, shocks, untouchable
from linework.study.answers.trust import known_faults
from linework.study.neutral.earth import earthed
from linework.study.studies import Studies
from tests.designs import situation_of
from tests.findings.camps import camp, house


def studied(draft: Draft, **positions: str) -> Studies:
    situation = situation_of(draft, **positions)
    return Studies(situation.circuit, situation.state)


def at(draft: Draft, part: str, **positions: str) -> list[Shock]:
    found = shocks(studied(draft, **positions), draft.design)
    return [shock for shock in found if shock.fault.point.part == part]


def test_where_metal_leads_back_a_breaker_ends_it() -> None:
    for shock in at(house(), "EA1"):
        assert (shock.returns, shock.by_soil, shock.owners) == (True, False, ("GS1",))
        assert shock.weak.by == shock.strong.by == "device"
        assert not shock.dangerous
        assert shock.system_v == pytest.approx(120.0)
    assert at(house(), "EA1")


def test_where_nothing_leads_back_the_fault_stays() -> None:
    draft = camp(neutral="floating")
    (shock,) = at(draft, "EA1", G1="running")
    assert not shock.returns
    assert shock.worst.by == "nothing"


def rod(resistance: str) -> Draft:
    """A load without a ground wire on an electrode, its source on another."""
    draft = house()
    draft.run_poles("W2", "L N")
    draft.part("electrode", "XE1", resistance=resistance)
    draft.run("EA1.in", "XE1.ground", "W9", poles="PE", size="6 AWG", length="3 ft")
    return draft


def test_soil_alone_leads_back_and_ends_nothing() -> None:
    """By hand: 25 ohm and the site's own electrode let less than 4.8 A flow, a fifth of 20 A."""
    (shock,) = at(rod("25 ohm"), "EA1")
    assert shock.returns
    assert shock.by_soil
    assert shock.fault.weak.current_a < 4.8
    assert shock.dangerous


def test_electrodes_on_one_metal_are_in_parallel() -> None:
    draft = rod("30 ohm")
    before = sorted(earthed(studied(draft).situation).values())
    draft.part("electrode", "XE2", resistance="60 ohm")
    draft.run("XE1.ground", "XE2.ground", "W8", size="6 AWG", length="10 ft")
    after = sorted(earthed(studied(draft).situation).values())
    assert 30.0 in [pytest.approx(ohm) for ohm in before]
    assert 20.0 in [pytest.approx(ohm) for ohm in after]
    assert len(before) == len(after)


def test_a_double_insulated_load_cannot_be_touched() -> None:
    draft = house()
    assert at(draft, "EA1")
    draft.rate("EA1", case="insulated")
    studies = studied(draft)
    assert [s for s in shocks(studies, draft.design) if s.fault.point.part == "EA1"] == []
    faults = [f for f in known_faults(studies) if f.point.part == "EA1" and f.point.kind == "metal"]
    assert faults
    assert all(untouchable(draft.design, studies.situation, f) for f in faults)


def test_they_are_worked_out_once_for_a_state() -> None:
    draft = house()
    studies = studied(draft)
    assert shocks(studies, draft.design) is shocks(studies, draft.design)
    assert scorched(studies, draft.design) is scorched(studies, draft.design)


def test_a_thin_ground_wire_burns_and_a_full_one_does_not() -> None:
    def burnt(**run: str) -> set[tuple[str, bool]]:
        draft = house(prospective="10 kA", breaker="100 A")
        draft.rate_run("W1", **run)
        found = scorched(studied(draft), draft.design)
        return {(item.run, item.protective) for item in found}

    assert ("W1", True) not in burnt(ground_size="6 AWG", length="5 ft")
    assert ("W1", True) in burnt(ground_size="18 AWG", length="5 ft")


def test_a_first_board_without_a_ground_wire_must_carry_the_link() -> None:
    draft = house()
    assert unlinked_services(studied(draft), draft.design) == []
    draft.run_poles("W1", "L N")
    studies = studied(draft)
    (found,) = unlinked_services(studies, draft.design)
    assert (found.board, found.supply) == ("QP1", "GS1")
    draft.rate("QP1", bond="fitted")
    assert unlinked_services(studied(draft), draft.design) == []
