"""A link on a source whose maker forbids one."""

from __future__ import annotations

import pytest

from linework.findings.model import Level
from tests.findings.camps import camp, caravan, levels
from tests.findings.told import found, number

RULE = "bond-not-accepted"


@pytest.mark.parametrize("answer", ["yes", "unknown"])
def test_a_link_in_the_board_is_silent_where_the_maker_does_not_forbid_it(answer: str) -> None:
    draft = camp(neutral="floating", bond_allowed=answer)
    draft.rate("QP1", bond="fitted")
    assert found(draft, RULE) == []


def test_where_the_maker_forbids_it_it_is_a_danger() -> None:
    # NFPA 70 110.3(B): listed equipment is used as its instructions say
    draft = camp(neutral="floating", bond_allowed="no")
    draft.rate("QP1", bond="fitted")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}
    assert number(found(draft, RULE)[0], "{neutral_ground_link}s in circuit") == 1.0


def test_without_the_link_it_is_silent() -> None:
    assert found(camp(neutral="floating", bond_allowed="no"), RULE) == []


def test_a_bonding_plug_is_such_a_link() -> None:
    draft = caravan(neutral="floating", bond_allowed="no")
    draft.part("bond_plug", "XQ1", configuration="5-20")
    draft.seat("XQ1", "XD2", "face")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("G1",)
    assert "XQ1" in hit.message
