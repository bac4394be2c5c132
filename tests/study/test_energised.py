"""What is live, from what; what meets; what is bare; what is fed from behind."""

from __future__ import annotations

import pytest

from linework.circuit import expand
from linework.circuit.lasting import Lasting
from linework.circuit.network import STRONGEST
from linework.circuit.search import parted
from linework.design import Draft
from linework.study.energised import Energised, energised, in_use, reached_by_others
from linework.study.situation import Situation
from linework.study.ways.paths import volts_between
from tests.designs import situation_of
from tests.enumeration import all_states
from tests.findings.banks import van, with_inverter

RUN = {"size": "12 AWG", "length": "10 ft"}


def two_sources(poles: str = "all") -> Draft:
    """A supply and a set on one transfer switch, a load behind it."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="yes")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("transfer_switch", "QT1", poles=poles)
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "QT1.in1", **RUN)
    d.run("G1.out", "QT1.in2", **RUN)
    d.run("QT1.load", "EA1.in", **RUN)
    return d


@pytest.mark.parametrize(
    ("lever", "running", "fed"),
    [
        ("1", "running", {0: ("GS1",)}),
        ("2", "running", {0: ("G1",)}),
        ("2", "stopped", {}),
        ("off", "running", {}),
    ],
)
def test_which_source_feeds_a_load(
    lever: str, running: str, fed: dict[int, tuple[str, ...]]
) -> None:
    found = energised(situation_of(two_sources(), GS1="live", G1=running, QT1=lever))
    assert found.fed == fed
    assert found.meetings == ()
    assert found.backfed == ()


def test_a_transfer_switch_lets_nothing_meet_in_any_state() -> None:
    circuit = expand(two_sources("lines").design)
    for state in all_states(circuit).states:
        found = energised(Situation(circuit, state))
        assert (found.meetings, found.backfed) == ((), ())


def bypassed() -> Draft:
    """The same with a cable round the switch."""
    d = two_sources()
    d.run("G1.out", "EA1.in", **RUN)
    return d


def test_sources_meet_round_the_switch() -> None:
    found = energised(situation_of(bypassed(), GS1="live", G1="running", QT1="1"))
    assert [{m.one.owner, m.other.owner} for m in found.meetings] == [{"GS1", "G1"}]
    assert found.backfed == (("GS1", "G1"),)


def test_a_dead_supply_is_fed_from_behind() -> None:
    found = energised(situation_of(bypassed(), GS1="dead", G1="running", QT1="1"))
    assert found.meetings == ()
    assert found.backfed == (("GS1", "G1"),)


def test_an_open_switch_between_them_keeps_them_apart() -> None:
    found = energised(situation_of(bypassed(), GS1="live", G1="running", QT1="off"))
    assert found.meetings == ()
    assert found.backfed == ()


def test_batteries_side_by_side_do_not_meet() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1")
    d.part("battery", "GB2")
    d.part("lamp", "EL1", power="60 W", circuit="dc")
    d.run("GB1.dc", "EL1.in", **RUN)
    d.run("GB2.dc", "EL1.in", **RUN)
    found = energised(situation_of(d))
    assert found.meetings == ()
    assert found.fed == {0: ("GB1", "GB2")}


def crossing(poles: str) -> Energised:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", poles=poles, **RUN)
    return energised(situation_of(d))


def test_a_load_with_line_and_neutral_exchanged_is_crossed() -> None:
    assert crossing("L>L N>N PE>PE").crossed == ()
    found = crossing("L>N N>L PE>PE")
    assert found.crossed == (0,)
    assert found.fed == {0: ("GS1",)}


def test_a_load_whose_neutral_is_cut_is_dead() -> None:
    assert crossing("L>L PE>PE").fed == {}


def test_a_load_that_returns_through_the_ground_wire_is_fed() -> None:
    found = crossing("L>L PE>N")
    assert found.fed == {0: ("GS1",)}
    assert found.crossed == ()


def test_a_load_across_two_systems_is_crossed() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("load", "EA1", power="100 W")
    d.part("load", "EA2", power="100 W")
    d.run("GS1.out", "EA1.in", poles="L>L PE>PE", **RUN)
    d.run("G1.out", "EA1.in", poles="N>N PE>PE", **RUN)
    d.run("GS1.out", "EA2.in", **RUN)
    found = energised(situation_of(d, G1="running"))
    assert set(found.fed) == {0, 1}
    assert found.crossed == (0,)


def test_a_load_between_two_legs_is_fed() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", outage="no")
    d.part("load", "EA1", circuit="ac240", voltage="240 V", power="1 kW")
    d.run("GS1.out", "EA1.in", poles="L1>L1 L2>L2 PE>PE", **RUN)
    found = energised(situation_of(d))
    assert found.fed == {0: ("GS1",)}
    assert found.crossed == ()


def cord() -> Draft:
    """A set whose cord goes by a plug to an inlet; shore by another cord to another inlet."""
    d = Draft(place="vehicle")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("outlet", "XD1", configuration="L5-30")
    d.part("plug", "XP1", configuration="L5-30")
    d.part("inlet", "XI1", configuration="L5-30")
    d.part("inlet", "XI2", configuration="TT-30")
    d.part("load", "EA1", power="100 W")
    d.seat("XD1", "G1", "1")
    d.seat("XP1", "XD1", "face")
    d.run("XP1.cord", "XI1.outside", size="10 AWG", length="25 ft", installation="cord")
    d.run("XI1.inside", "EA1.in", **RUN)
    d.run("XI2.inside", "EA1.in", **RUN)
    return d


def test_pins_of_an_inlet_without_a_cord_are_live_from_behind() -> None:
    found = energised(situation_of(cord(), G1="running", XP1="XD1"))
    (pins,) = found.live_pins
    assert (pins.owner, pins.sources) == ("XI2", ("G1",))


def test_pins_of_a_plug_are_live_from_behind_once_it_is_out() -> None:
    d = cord()
    d.part("supply", "GS1", outage="no")
    d.run("GS1.out", "XI2.outside", **RUN)
    out = energised(situation_of(d, G1="stopped", XP1="unplugged"))
    assert [(p.owner, p.sources) for p in out.live_pins] == [("XP1", ("GS1",))]
    plugged = energised(situation_of(d, G1="stopped", XP1="XD1"))
    assert plugged.live_pins == ()


def test_nothing_is_live_without_a_source() -> None:
    found = energised(situation_of(cord(), G1="stopped", XP1="XD1"))
    assert found == Energised({}, (), (), (), ())


def string(*missing: str) -> Draft:
    """Two batteries in series, an inverter and a load across both, a load across the lower one."""
    d = Draft(place="building")
    for name in ("GB1", "GB2"):
        d.part("battery", name)
    d.part("inverter_charger", "TB1", power="1 kVA", dc_voltage="24 V", neutral="relay")
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="50 W")
    d.part("load", "EA2", circuit="dc", power="50 W")
    for name, a, b, poles in (
        ("link", "GB1.dc", "GB2.dc", "->+"),
        ("plus", "GB1.dc", "TB1.dc", "+"),
        ("minus", "GB2.dc", "TB1.dc", "-"),
        ("whole", "TB1.dc", "EA1.in", ""),
        ("half", "GB2.dc", "EA2.in", ""),
    ):
        if name not in missing:
            d.run(a, b, name, poles=poles, **RUN)
    return d


def test_batteries_in_series_feed_what_lies_across_them() -> None:
    situation = situation_of(string(), TB1="inverting")
    named = {situation.circuit.loads[i].data.name: i for i in range(3)}
    found = energised(situation)
    assert found.fed[named["battery side"]] == ("GB1", "GB2")
    loads = [found.fed[i] for i, x in enumerate(situation.circuit.loads) if x.data.name == "load"]
    assert loads == [("GB1", "GB2"), ("GB2",)]
    assert found.crossed == ()
    # what the inverter takes decides what each battery gives: they are judged together
    (found,) = parted(Lasting(situation.circuit), dict(situation.state.free))
    assert found.parts == {"GB1", "GB2", "TB1"}


def test_a_string_with_its_link_missing_feeds_only_its_lower_half() -> None:
    circuit = expand(string("link").design)
    (on,) = [s for s in all_states(circuit).states if ("TB1", "mode") in dict(s.free)][:1]
    found = energised(Situation(circuit, on))
    assert [circuit.loads[i].owner for i in found.fed] == ["EA2"]
    assert on.positions["TB1", "relay"] == "off"


def test_volts_of_a_string_add_up() -> None:
    situation = situation_of(string(), TB1="inverting")
    plus, middle = (situation.circuit.terminals["GB1", "dc"][pole] for pole in "+-")
    minus = situation.circuit.terminals["GB2", "dc"]["-"]
    assert volts_between(situation, plus, minus) == pytest.approx(24.0)
    assert volts_between(situation, plus, middle) == pytest.approx(12.0)
    assert volts_between(situation, middle, minus) == pytest.approx(12.0)


def test_a_charger_on_a_string_gives_its_current_and_the_string_holds_the_voltage() -> None:
    d = string("half")
    d.part("supply", "GS1", outage="no")
    d.rate("TB1", charge="20 A")
    d.run("GS1.out", "TB1.ac_in", **RUN)
    situation = situation_of(d, TB1="passing")
    held = situation.network(0.0, STRONGEST).held
    assert [situation.circuit.sources[i].data.name for i in held] == ["charger"]


def test_a_battery_in_use_and_one_that_is_not() -> None:
    def used(draft: Draft) -> dict[str, bool]:
        situation = situation_of(draft, GP1="night")
        return {s.owner: in_use(situation, s) for s in situation.systems}

    assert used(van()) == {"GB1": True}
    for broken in ("L", "N"):
        draft = van()
        draft.rate_run("W3", broken=broken)
        assert used(draft) == {"GB1": False}


def test_what_another_part_brings_to_a_converter() -> None:
    draft = with_inverter(van())

    def reached(draft: Draft) -> bool:
        situation = situation_of(draft, GP1="night", TB1="on")
        (load,) = (x for x in situation.circuit.loads if x.data.name == "battery side")
        return reached_by_others(situation, "TB1", load.a, load.b)

    assert reached(draft)
    draft.rate_run("W20", broken="N")
    assert not reached(draft)
