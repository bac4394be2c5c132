"""What breakers, fuses, ground-fault devices, switches and boxes do with each conductor."""

from __future__ import annotations

from itertools import product

import pytest

from linework.codes import CodesError, configuration, configurations
from linework.codes.catalogue import made_ratings
from linework.codes.interrupting import interrupting_rating
from linework.kinds import Choice, Kind, Values, kinds
from linework.kinds.fuse import CLASSES, DC_MARKS
from linework.kinds.outlet import UNGROUNDED
from linework.wiring import (
    Contact,
    Draw,
    GroundFault,
    Join,
    Link,
    Metal,
    Overcurrent,
    Pins,
    Pole,
    Three,
)
from tests.kinds.cases import SETTING, rated

BREAKER, FUSE, GFCI, PANEL = (kinds()[key] for key in ("breaker", "fuse", "gfci", "panel"))
CIRCUITS = {
    "ac": ("L", "N", "PE"),
    "split": ("L1", "L2", "N", "PE"),
    "ac240": ("L1", "L2", "PE"),
    "dc": ("+", "-"),
}


def sorts(kind: Kind, values: Values, sort: type) -> list:
    return [e for e in kind.inside(values).elements if isinstance(e, sort)]


def passes(kind: Kind, values: Values, one: str, other: str) -> dict[str, bool]:
    """Pole -> whether a contact lies in its way from one terminal to the other, for each pole
    that has a way of its own kind and no other."""
    found: dict[str, bool] = {}
    for element in kind.inside(values).elements:
        if isinstance(element, Join | Contact) and {element.a[0], element.b[0]} == {one, other}:
            assert element.a[1] == element.b[1]
            assert element.a[1] not in found
            found[element.a[1]] = isinstance(element, Contact)
    return found


@pytest.mark.parametrize(
    ("circuit", "poles", "opened"),
    [
        ("ac", "lines", {"L"}),
        ("ac", "all", {"L", "N"}),
        ("ac", "neutral", {"N"}),
        ("split", "lines", {"L1", "L2"}),
        ("ac240", "all", {"L1", "L2"}),
        ("dc", "lines", {"+"}),
        ("dc", "all", {"+", "-"}),
    ],
)
def test_a_breaker_opens_what_it_says(circuit: str, poles: str, opened: set[str]) -> None:
    values = rated(BREAKER, circuit=circuit, poles=poles, rating="20 A")
    ways = passes(BREAKER, values, "line", "load")
    assert set(ways) == set(CIRCUITS[circuit])
    assert {pole for pole, contact in ways.items() if contact} == opened
    (device,) = sorts(BREAKER, values, Overcurrent)
    assert set(device.contacts) == opened
    assert all(c.when for c in sorts(BREAKER, values, Contact))


def test_a_breaker_that_opens_nothing_is_no_device() -> None:
    values = rated(BREAKER, circuit="ac240", poles="neutral", rating="20 A")
    assert sorts(BREAKER, values, Overcurrent) == sorts(BREAKER, values, Contact) == []


def test_a_breaker_of_unknown_rating_is_no_device() -> None:
    assert sorts(BREAKER, rated(BREAKER), Overcurrent) == []


def test_what_a_breaker_says_of_itself() -> None:
    (bare,) = sorts(BREAKER, rated(BREAKER, rating="20 A"), Overcurrent)
    # UL 489: 5 kA where nothing is marked (NFPA 70 240.83(C)).
    assert (bare.interrupting_a, bare.interrupting_given) == (5000.0, False)
    assert (bare.dc, bare.magnetic_a) == (None, None)
    values = rated(BREAKER, rating="20 A", interrupting="10 kA", direct="yes", magnetic="200 A")
    (marked,) = sorts(BREAKER, values, Overcurrent)
    assert (marked.interrupting_a, marked.interrupting_given) == (10000.0, True)
    assert (marked.dc, marked.magnetic_a) == (True, Three.exactly(200.0))


@pytest.mark.parametrize(("kind", "circuit"), list(product((BREAKER, GFCI), CIRCUITS)))
def test_a_ground_fault_device_looks_at_all_but_the_ground_wire(kind: Kind, circuit: str) -> None:
    values = rated(kind, circuit=circuit, ground_fault="class_a", rating="20 A")
    (device,) = sorts(kind, values, GroundFault)
    around = set(CIRCUITS[circuit]) - {"PE"}
    assert set(device.senses) == around
    ways = passes(kind, values, "line", "load")
    assert {pole for pole, contact in ways.items() if contact} == around
    # UL 943 class A: no trip below 4 mA, trip from 6 mA; it also finds a link on its load side.
    assert (device.trip_ma.low, device.trip_ma.high, device.senses_link) == (4.0, 6.0, True)


@pytest.mark.parametrize(("style", "rated_ma"), [("rcd_30", 30.0), ("rcd_100", 100.0)])
def test_a_residual_current_device(style: str, rated_ma: float) -> None:
    """IEC 61008-1: it must trip at its rated residual current and must not at half of it."""
    (device,) = sorts(GFCI, rated(GFCI, ground_fault=style), GroundFault)
    assert (device.trip_ma.low, device.trip_ma.high) == (rated_ma / 2, rated_ma)
    assert not device.senses_link


@pytest.mark.parametrize("circuit", CIRCUITS)
def test_an_outlet_behind_its_own_ground_fault_device(circuit: str) -> None:
    outlet = kinds()["outlet"]
    values = rated(outlet, circuit=circuit, ground_fault="class_a")
    plain = rated(outlet, circuit=circuit)
    assert set(passes(outlet, plain, "feed", "face")) == set(CIRCUITS[circuit])
    assert passes(outlet, values, "feed", "face") == {}  # only through the device
    assert set(passes(outlet, values, "feed", "line")) == set(CIRCUITS[circuit])
    assert set(passes(outlet, values, "load", "face")) == set(CIRCUITS[circuit])
    ways = passes(outlet, values, "line", "load")
    assert {p for p, contact in ways.items() if contact} == set(CIRCUITS[circuit]) - {"PE"}
    assert set(passes(outlet, values, "face", "onward")) == set(CIRCUITS[circuit])


@pytest.mark.parametrize(("tabs", "joined"), [("hot", {"N", "PE"}), ("both", {"PE"})])
def test_what_the_tabs_of_a_strap_join(tabs: str, joined: set[str]) -> None:
    outlet = kinds()["split_outlet"]
    values = rated(outlet, tabs=tabs)
    between = passes(outlet, values, "feed", "feed_2")
    assert between == dict.fromkeys(joined, False)
    for feed, face in (("feed", "face"), ("feed_2", "face_2")):
        assert passes(outlet, values, feed, face) == dict.fromkeys(CIRCUITS["ac"], False)


# fuses


@pytest.mark.parametrize("circuit", CIRCUITS)
def test_a_fuse_lies_in_the_lines_only(circuit: str) -> None:
    values = rated(FUSE, circuit=circuit, rating="30 A")
    ways = passes(FUSE, values, "line", "load")
    assert set(ways) == set(CIRCUITS[circuit])
    lines = {p for p in CIRCUITS[circuit] if p not in ("N", "-", "PE")}
    assert {p for p, contact in ways.items() if contact} == lines
    (device,) = sorts(FUSE, values, Overcurrent)
    assert set(device.contacts) == lines


@pytest.mark.parametrize(
    ("circuit", "choice"),
    list(product(("dc", "ac"), CLASSES)),
    ids=lambda x: getattr(x, "value", x),
)
def test_what_an_unmarked_fuse_breaks_is_what_the_tables_count_on(circuit: str, choice) -> None:
    values = rated(FUSE, circuit=circuit, type=choice.value, rating="30 A")
    (device,) = sorts(FUSE, values, Overcurrent)
    assert not device.interrupting_given
    sort = "dc" if circuit == "dc" else "ac"
    if device.interrupting_a:
        found = interrupting_rating(choice.value, sort, device.volts)
        assert device.interrupting_a == found.value
    else:
        with pytest.raises(CodesError):
            interrupting_rating(choice.value, sort, 1.0)


@pytest.mark.parametrize(
    ("style", "rating", "watts"),
    # blade fuses lose 0.1 to 0.15 V at their rating, bolted ones 0.05 to 0.1 V (from memory)
    [("ato", 5.0, (0.5, 0.75)), ("ato", 30.0, (3.0, 4.5)), ("class_t", 200.0, (10.0, 20.0))],
)
def test_what_a_fuse_loses_at_its_rating(
    style: str, rating: float, watts: tuple[float, float]
) -> None:
    values = rated(FUSE, type=style, rating=f"{rating:g} A", circuit="dc")
    (contact,) = sorts(FUSE, values, Contact)
    least, most = watts
    assert contact.ohm is not None
    assert least <= contact.ohm.usual * rating**2 <= most
    # what it must break is told as though a link were in its place
    assert contact.ohm.low * rating < 0.01


@pytest.mark.parametrize(("volts", "amps"), [("14 V", 10e3), ("32 V", 5e3), ("58 V", 2e3)])
def test_a_terminal_fuse_breaks_less_at_a_higher_voltage(volts: str, amps: float) -> None:
    values = rated(FUSE, type="mrbf", rating="100 A", voltage=volts)
    (device,) = sorts(FUSE, values, Overcurrent)
    assert device.interrupting_a == amps
    assert interrupting_rating("mrbf", "dc", device.volts).value == amps


def test_a_marked_fuse_is_taken_at_its_word() -> None:
    values = rated(FUSE, type="class_j", rating="30 A", voltage="300 V", interrupting="50 kA")
    (device,) = sorts(FUSE, values, Overcurrent)
    assert (device.volts, device.interrupting_a) == (300.0, 50e3)
    assert device.interrupting_given
    assert device.dc is None  # not every maker marks this class for direct current


# switching and distribution


@pytest.mark.parametrize(("circuit", "poles"), list(product(CIRCUITS, ("lines", "all"))))
def test_a_transfer_switch_joins_one_input(circuit: str, poles: str) -> None:
    kind = kinds()["transfer_switch"]
    values = rated(kind, circuit=circuit, poles=poles)
    for terminal, position in (("in1", "1"), ("in2", "2")):
        ways = passes(kind, values, terminal, "load")
        assert set(ways) == set(CIRCUITS[circuit])
        moved = {p for p in CIRCUITS[circuit] if p != "PE" and (poles == "all" or p not in "N-")}
        assert {p for p, contact in ways.items() if contact} == moved
        for contact in sorts(kind, values, Contact):
            if contact.a[0] == terminal:
                assert contact.when == (("lever", frozenset({position})),)
    (selector,) = kind.inside(values).selectors
    assert selector.positions == ("1", "off", "2")


@pytest.mark.parametrize("number", range(1, 13))
def test_places_of_a_panel_alternate_row_by_row(number: int) -> None:
    """Odd places left, even ones right; a row, so 1 and 2, is on one leg (common practice)."""
    values = rated(PANEL, circuit="split", places="12")
    offers = {p.name: dict(p.offers) for p in PANEL.places(values)}[str(number)]
    row = (number - 1) // 2
    assert offers[Pole.L] == ("bus", "L1" if row % 2 == 0 else "L2")
    assert offers[Pole.L1] == ("bus", "L1")
    assert offers[Pole.L2] == ("bus", "L2")


def test_outlets_of_a_two_legged_set_are_on_either_leg() -> None:
    kind = kinds()["generator"]
    places = kind.places(rated(kind, circuit="split", outlets="4"))
    assert [dict(p.offers)[Pole.L][1] for p in places] == ["L1", "L2", "L1", "L2"]


@pytest.mark.parametrize("circuit", CIRCUITS)
@pytest.mark.parametrize("main", [None, "30 A"])
def test_a_panel_joins_its_feed_to_its_bus(circuit: str, main: str | None) -> None:
    answers = {"circuit": circuit, "bond": "fitted", **({"main": main} if main else {})}
    values = rated(PANEL, **answers)
    ways = passes(PANEL, values, "feed", "bus")
    assert set(ways) == set(CIRCUITS[circuit])
    lines = {p for p in CIRCUITS[circuit] if p not in ("N", "-", "PE")}
    assert {p for p, contact in ways.items() if contact} == (lines if main else set())
    bonds = [link for link in sorts(PANEL, values, Link) if link.bond]
    assert len(bonds) == ("N" in CIRCUITS[circuit])


@pytest.mark.parametrize("circuit", CIRCUITS)
def test_the_main_of_a_panel_opens_all_and_looks_at_all(circuit: str) -> None:
    answers = {"main": "30 A", "main_poles": "all", "ground_fault": "rcd_30"}
    values = rated(PANEL, circuit=circuit, main_interrupting="10 kA", **answers)
    ways = passes(PANEL, values, "feed", "bus")
    around = set(CIRCUITS[circuit]) - {"PE"}
    assert {p for p, contact in ways.items() if contact} == around
    (main,), (sensor,) = sorts(PANEL, values, Overcurrent), sorts(PANEL, values, GroundFault)
    assert set(main.contacts) == set(sensor.senses) == {f"main {p}" for p in around}
    assert (main.interrupting_a, main.interrupting_given) == (10e3, True)


def test_a_ground_fault_main_leaves_the_neutral_closed_unless_it_is_told_to_open_it() -> None:
    values = rated(PANEL, main="30 A", ground_fault="rcd_30")
    (main,), (sensor,) = sorts(PANEL, values, Overcurrent), sorts(PANEL, values, GroundFault)
    assert (main.contacts, sensor.opens) == (("main L",), ("main L",))
    assert sensor.senses == ("main L", "main N")
    assert {c.name: bool(c.when) for c in sorts(PANEL, values, Contact)} == {
        "main L": True,
        "main N": False,
    }


def test_a_main_that_is_a_ground_fault_switch_is_no_overcurrent_device() -> None:
    values = rated(PANEL, ground_fault="rcd_30", main_poles="all")
    assert sorts(PANEL, values, Overcurrent) == []
    assert len(sorts(PANEL, values, GroundFault)) == 1
    assert [s.name for s in PANEL.inside(values).selectors] == ["main"]


@pytest.mark.parametrize("circuit", CIRCUITS)
def test_a_junction_box_joins_like_to_like(circuit: str) -> None:
    kind = kinds()["junction_box"]
    values = rated(kind, circuit=circuit)
    for side in "bcd":
        ways = passes(kind, values, "a", side)
        assert ways == dict.fromkeys(CIRCUITS[circuit], False)


def test_a_plug_is_joined_to_its_cord_whether_plugged_or_not() -> None:
    kind = kinds()["plug"]
    contacts = sorts(kind, rated(kind), Contact)
    assert [c.when for c in contacts] == [()] * 3
    (pins,) = sorts(kind, rated(kind), Pins)
    assert pins.when == (("plug", frozenset({"unplugged"})),)
    assert {pole for _, pole in pins.points} == {"L", "N"}


def test_an_inlet_is_bare_while_no_cord_is_drawn_to_it() -> None:
    kind = kinds()["inlet"]
    (pins,) = sorts(kind, rated(kind), Pins)
    assert (pins.when, pins.free_terminal) == ((), "outside")


# loads


@pytest.mark.parametrize(
    ("circuit", "ends"),
    [("ac", ("L", "N")), ("split", ("L1", "L2")), ("ac240", ("L1", "L2")), ("dc", ("+", "-"))],
)
def test_where_a_load_lies(circuit: str, ends: tuple[str, str]) -> None:
    kind = kinds()["load"]
    (draw,) = sorts(kind, rated(kind, circuit=circuit, power="100 W"), Draw)
    assert (draw.a[1], draw.b[1]) == ends
    assert draw.hertz == (0.0 if circuit == "dc" else 60.0)


def test_the_band_in_which_a_load_works() -> None:
    """ANSI C84.1 range B, utilisation: 104 to 127 V for 120 V (from memory)."""
    kind = kinds()["load"]
    (draw,) = sorts(kind, rated(kind, power="100 W"), Draw)
    assert draw.works_v == pytest.approx((104.0, 127.0), abs=0.5)
    plate = {"least_voltage": "95 V", "most_voltage": "264 V"}
    (marked,) = sorts(kind, rated(kind, power="100 W", **plate), Draw)
    assert marked.works_v == (95.0, 264.0)


def test_a_case_of_metal_can_be_touched() -> None:
    kind = kinds()["load"]
    assert len(sorts(kind, rated(kind), Metal)) == 1
    assert sorts(kind, rated(kind, case="insulated"), Metal) == []
    assert sorts(kind, rated(kind, circuit="dc"), Metal) == []


def test_a_motor_starts_at_six_times_its_current_unless_marked() -> None:
    """By hand: 1 kW / (120 V * 0.8) = 10.42 A; six times that, 62.5 A (practice, no source)."""
    kind = kinds()["motor"]
    (draw,) = sorts(kind, rated(kind, power="1 kW", power_factor="0.8"), Draw)
    assert draw.start_a == pytest.approx(62.5)
    (marked,) = sorts(kind, rated(kind, power="1 kW", start_current="40 A"), Draw)
    assert marked.start_a == 40.0


@pytest.mark.parametrize(
    ("name", "point"),
    [("trailer", ("@", "body:trailer")), ("", ("@", "body:chassis"))],
)
def test_bodies_of_one_name_are_one_metal(name: str, point: tuple[str, str]) -> None:
    kind = kinds()["body"]
    (join,) = sorts(kind, rated(kind, name=name), Join)
    assert join.b == point


def test_settings_are_what_a_design_tells() -> None:
    from linework.design import Design

    assert Design().setting_answers() == SETTING


def test_which_old_outlets_and_plugs_have_no_ground_contact() -> None:
    """ANSI/NEMA WD 6, as the table of configurations has it."""
    names = {n for n in configurations() if configuration(n).standard.startswith("NEMA")}
    assert {n for n in names if not configuration(n).grounding} == set(UNGROUNDED)
    for kind in (kinds()["outlet"], kinds()["plug"]):
        for name in UNGROUNDED:
            circuit = "ac" if name == "1-15" else "split"
            ends = kind.terminals(rated(kind, circuit=circuit, configuration=name))
            assert all(Pole.PE not in end.poles for end in ends)
        ends = kind.terminals(rated(kind, circuit="ac", configuration="5-15"))
        assert all(Pole.PE in end.poles for end in ends)


@pytest.mark.parametrize(
    ("ground_fault", "arc_fault", "opened"),
    [
        ("none", "none", set()),
        ("none", "outlet", {"L"}),
        ("class_a", "none", {"L", "N"}),
        ("class_a", "outlet", {"L", "N"}),
    ],
)
def test_an_outlet_opens_what_its_device_watches(
    ground_fault: str, arc_fault: str, opened: set[str]
) -> None:
    outlet = kinds()["outlet"]
    values = rated(outlet, ground_fault=ground_fault, arc_fault=arc_fault)
    ways = passes(outlet, values, "line", "load") if opened else {}
    assert {pole for pole, contact in ways.items() if contact} == opened
    assert len(sorts(outlet, values, GroundFault)) == (ground_fault != "none")


def test_no_outlet_of_direct_current_guards_against_arcs() -> None:
    outlet = kinds()["outlet"]
    values = rated(outlet, circuit="dc", configuration="12V socket", arc_fault="outlet")
    assert sorts(outlet, values, Contact) == []


SCOPES = {
    # Voltage, breaking capacity and largest rating from the scopes of ISO 8820-3:2015 (32 or 58 V,
    # at most 100 A, 1000 A), ISO 8820-5:2015 (32 V, at most 500 A, 2000 A) and ISO 8820-6:2019
    # (58 V, at most 300 A, 2000 A), as catalogues of standards print them.
    "ISO 8820-3": (58.0, 1000.0, 100.0),
    "ISO 8820-5": (32.0, 2000.0, 500.0),
    "ISO 8820-6": (58.0, 2000.0, 300.0),
}
NAMED = [choice for choice in CLASSES if choice.standard in SCOPES]


@pytest.mark.parametrize("choice", NAMED, ids=lambda choice: choice.value)
def test_a_fuse_is_within_the_scope_of_the_standard_that_names_it(choice: Choice) -> None:
    volts, breaks, largest = SCOPES[choice.standard]
    assert max(made_ratings(choice.value)) <= largest
    marks = DC_MARKS[choice.value]
    assert all(most <= volts for most, _ in marks)
    # At the highest voltage no more is counted on than the standard asks for.
    assert marks[-1][1] <= breaks


def test_every_blade_and_strip_is_named_by_its_standard() -> None:
    named = {choice.value: choice.standard for choice in NAMED}
    assert named == {
        **dict.fromkeys(("ato", "mini", "maxi"), "ISO 8820-3"),
        **dict.fromkeys(("midi", "mega"), "ISO 8820-5"),
        "mrbf": "ISO 8820-6",
    }
