"""What must hold for every kind, however it is rated."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

import pytest

from linework.data import Confidence
from linework.kinds import (
    RUN_RATINGS,
    STRIP,
    Kind,
    OneOf,
    Rating,
    Remedy,
    is_known,
    kind_of,
    kinds,
    remedy,
)
from linework.picture.symbols import symbol, symbol_names
from linework.quantity import KINDS
from linework.wiring import (
    Contact,
    Convert,
    Draw,
    Element,
    Face,
    GroundFault,
    Join,
    Leak,
    Link,
    Metal,
    Overcurrent,
    Pins,
    Point,
    Pole,
    Source,
    SourceGroup,
)
from linework.words import FAMILIES, say
from tests.kinds.cases import Rated, every_case

every_kind = pytest.mark.parametrize("kind", list(kinds().values()), ids=lambda kind: kind.key)
ALL_RATINGS = [
    *(pytest.param(r, id=f"{k.key}.{r.key}") for k in kinds().values() for r in k.ratings),
    *(pytest.param(r, id=f"run.{r.key}") for r in RUN_RATINGS.values()),
]
every_rating = pytest.mark.parametrize("rating", ALL_RATINGS)


def points(element: Element) -> tuple[Point, ...]:
    """Every point that an element names."""
    match element:
        case Join() | Link() | Contact() | Draw() | Leak():
            return (element.a, element.b)
        case Source():
            return (element.plus, element.minus)
        case Metal():
            return (element.at,)
        case Pins():
            return element.points
        case Face():
            return tuple(point for _, point in element.points)
        case GroundFault():
            return element.load_side
        case Overcurrent() | Convert():
            return ()


def of_sort(case: Rated, *sorts: type) -> list[str]:
    return [e.name for e in case.kind.inside(case.values).elements if isinstance(e, sorts)]


def conditions(case: Rated) -> Iterator[tuple[str, frozenset[str]]]:
    for element in case.kind.inside(case.values).elements:
        yield from getattr(element, "when", ())


def once(names: Iterable[str]) -> bool:
    return all(number == 1 for number in Counter(names).values())


@every_kind
def test_points_of_a_terminal_are_poles_that_it_has(kind: Kind) -> None:
    for case in every_case(kind):
        poles = {t.name: set(t.poles) for t in kind.terminals(case.values)}
        for element in kind.inside(case.values).elements:
            for terminal, pole in points(element):
                if terminal in poles:
                    assert pole in poles[terminal], (case.name, element)
                elif terminal == "@":
                    assert pole == "earth" or pole.startswith("body:"), (case.name, element)


@every_kind
def test_every_pole_of_every_terminal_leads_somewhere(kind: Kind) -> None:
    """But a neutral and a ground wire that a load does not use."""
    idle = {Pole.N, Pole.PE} if kind.strip == "loads" else set()
    for case in every_case(kind):
        inside = kind.inside(case.values)
        used = {point for element in inside.elements for point in points(element)}
        for terminal in kind.terminals(case.values):
            for pole in terminal.poles:
                has_power = "power" not in kind.declared or case.values.has("power")
                if has_power and pole not in idle:
                    assert (terminal.name, pole) in used, (case.name, terminal.name, pole)


@every_kind
def test_names_are_given_once(kind: Kind) -> None:
    for case in every_case(kind):
        assert once(of_sort(case, Link, Contact)), case.name
        assert once(of_sort(case, Source)), case.name
        assert once(of_sort(case, Draw)), case.name
        assert once(of_sort(case, Overcurrent, GroundFault)), case.name
        assert once(t.name for t in kind.terminals(case.values)), case.name
        assert once(p.name for p in kind.places(case.values)), case.name
        assert once(s.name for s in kind.inside(case.values).selectors), case.name
        for terminal in kind.terminals(case.values):
            assert once(terminal.poles), case.name


@every_kind
def test_devices_and_conversions_refer_to_what_is_there(kind: Kind) -> None:
    for case in every_case(kind):
        contacts = set(of_sort(case, Contact))
        terminals = {t.name for t in kind.terminals(case.values)}
        for element in kind.inside(case.values).elements:
            match element:
                case Overcurrent():
                    assert element.contacts, case.name
                    assert set(element.contacts) <= contacts, case.name
                case GroundFault():
                    assert len(element.senses) > 1, case.name
                    assert set(element.opens) <= set(element.senses) <= contacts, case.name
                    assert element.opens, case.name
                case Convert():
                    assert element.gives in of_sort(case, Source), case.name
                    assert element.takes in of_sort(case, Draw), case.name
                case Pins() if element.free_terminal:
                    assert element.free_terminal in terminals, case.name


@every_kind
def test_conditions_name_selectors_and_positions_that_exist(kind: Kind) -> None:
    for case in every_case(kind):
        selectors = {s.name: s for s in kind.inside(case.values).selectors}
        for name, positions in conditions(case):
            selector = selectors[name]
            known = {*selector.positions, *(p.position for p in selector.passing)}
            assert positions, case.name
            assert positions <= known, (case.name, positions)


@every_kind
def test_selectors_hold_together(kind: Kind) -> None:
    for case in every_case(kind):
        selectors = {s.name: s for s in kind.inside(case.values).selectors}
        for selector in selectors.values():
            assert selector.rest in selector.positions
            assert once(selector.positions)
            assert bool(selector.rule) == (selector.moves == "follows")
            for line in selector.rule:
                assert line.position in selector.positions
                for other, position in line.stands:
                    assert position in selectors[other].positions
            for passage in selector.passing:
                assert {passage.before, passage.after} <= set(selector.positions)
                assert passage.longest_s > 0.0


@every_kind
def test_a_followers_rule_has_a_last_word(kind: Kind) -> None:
    """Its last line holds without conditions, so that it always finds a position."""
    for case in every_case(kind):
        for selector in kind.inside(case.values).selectors:
            if selector.rule:
                last = selector.rule[-1]
                assert (last.live, last.dead, last.stands) == ((), (), ())


@every_kind
def test_figures_of_elements_make_sense(kind: Kind) -> None:
    for case in every_case(kind):
        for element in kind.inside(case.values).elements:
            match element:
                case Link() if element.bond:
                    assert element.a != element.b
                    assert element.ohm.low > 0.0
                case Contact() if element.ohm is not None:
                    assert element.ohm.low > 0.0
                case Source():
                    assert element.group is not SourceGroup.NONE, case.name
                    assert element.volts > 0.0, case.name
                    assert element.hertz >= 0.0
                    assert element.ohm_r.low + element.ohm_x.low > 0.0, case.name
                case Draw():
                    low, high = element.works_v
                    answered = {"least_voltage", "most_voltage"} & case.values.ratings.keys()
                    assert low < element.volts < high or answered
                    assert 0.0 < element.power_factor <= 1.0
                case Overcurrent():
                    assert element.rating_a > 0.0
                case GroundFault():
                    assert 0.0 < element.trip_ma.low < element.trip_ma.high


@every_kind
def test_a_draw_is_its_own_unless_something_converts_what_it_takes(kind: Kind) -> None:
    for case in every_case(kind):
        elements = kind.inside(case.values).elements
        taken = {element.takes for element in elements if isinstance(element, Convert)}
        for element in elements:
            if isinstance(element, Draw):
                assert element.own is (element.name not in taken), case.name


@every_kind
def test_a_kind_says_what_its_power_comes_from(kind: Kind) -> None:
    for case in every_case(kind):
        elements = kind.inside(case.values).elements
        groups = {element.group for element in elements if isinstance(element, Source)}
        if groups:
            assert kind.source in groups, case.name
        else:
            assert kind.source is SourceGroup.NONE or "power" in kind.declared, case.name


@every_kind
def test_facts_of_a_kind_fit_what_it_declares(kind: Kind) -> None:
    for case in every_case(kind):
        terminals = {terminal.name for terminal in kind.terminals(case.values)}
        for limit in kind.carries:
            assert limit.rating in kind.declared
        assert kind.pulled <= terminals
        if kind.board:
            assert "feed" in terminals
        for each in kind.inputs:
            assert {each.terminal, "load"} <= terminals
            assert {each.name, "poles"} <= kind.declared.keys()
            (selector,) = kind.inside(case.values).selectors
            assert each.position in selector.positions
        assert not kind.melts or "type" in kind.declared
        assert not kind.body or "name" in kind.declared
        assert not kind.turns or "start_current" in kind.declared
        links = [e for e in kind.inside(case.values).elements if isinstance(e, Link)]
        assert kind.cord or not any(link.cord for link in links), case.name


@every_kind
def test_what_consumes_draws_for_itself(kind: Kind) -> None:
    cases = list(every_case(kind))
    inner = [element for case in cases for element in kind.inside(case.values).elements]
    assert kind.consumes is any(isinstance(e, Draw) and e.own for e in inner)
    for case in cases:
        names = {terminal.name for terminal in kind.terminals(case.values)}
        assert not kind.consumes or "in" in names, case.name


@every_kind
def test_the_voltage_of_what_opens_or_switches_is_a_marking(kind: Kind) -> None:
    """Of all else it is what the part lies on; a device left out here would not be judged."""
    if "voltage" in kind.declared:
        opens = kind.strip in ("protection", "switching")
        assert kind.declared["voltage"].marking is opens


@pytest.mark.parametrize("what", Remedy)
def test_one_kind_is_put_in_for_each_mend(what: Remedy) -> None:
    assert [kind for kind in kinds().values() if what in kind.remedies] == [remedy(what)]


@every_kind
def test_places_offer_points_that_the_part_has(kind: Kind) -> None:
    for case in every_case(kind):
        inside = kind.inside(case.values)
        known = {point for element in inside.elements for point in points(element)}
        known |= {(t.name, p) for t in kind.terminals(case.values) for p in t.poles}
        for place in kind.places(case.values):
            assert place.accepts, case.name
            assert once(pole for pole, _ in place.offers)
            assert {point for _, point in place.offers} <= known, (case.name, place)


@every_kind
def test_a_seat_is_a_terminal(kind: Kind) -> None:
    assert bool(kind.seat) == bool(kind.roles)
    for case in every_case(kind):
        names = [t.name for t in kind.terminals(case.values)]
        assert not kind.seat or kind.seat in names, case.name


def test_whatever_sits_finds_a_place_somewhere() -> None:
    accepted: set[str] = set()
    for kind in kinds().values():
        for case in every_case(kind):
            for place in kind.places(case.values):
                accepted |= place.accepts
    for kind in kinds().values():
        assert not kind.roles or kind.roles & accepted, kind.key


@every_kind
def test_a_two_legged_source_of_places_offers_both_legs(kind: Kind) -> None:
    if "circuit" not in kind.declared or not {"split"} & _options(kind.declared["circuit"]):
        return
    for case in every_case(kind):
        direct = {Pole.POS, Pole.NEG}
        places = [p for p in kind.places(case.values) if dict(p.offers).keys() != direct]
        if case.values.pick("circuit") == "split" and len(places) > 2 and kind.strip != "loads":
            legs = [dict(place.offers)[Pole.L][1] for place in places]
            assert set(legs) == {"L1", "L2"}, case.name
            assert abs(legs.count("L1") - legs.count("L2")) <= 2, legs


def _options(rating: Rating) -> set[str]:
    return {choice.value for choice in rating.choices}


@every_kind
def test_a_kind_says_what_it_is(kind: Kind) -> None:
    assert kind.strip in STRIP
    assert kind.letters.isupper()
    assert kind.ratings
    assert once(rating.key for rating in kind.ratings)
    assert list(kind.declared.values()) == list(kind.ratings)
    assert set(kind.captions) <= set(kind.declared)
    assert set(kind.columns) <= set(kind.declared)
    assert once(kind.captions)
    assert once(kind.columns)


@every_kind
@pytest.mark.parametrize("family", FAMILIES)
def test_a_kinds_words_are_known_in_each_family(kind: Kind, family: str) -> None:
    for text in (kind.name, kind.search):
        assert say(text, family=family)


@every_rating
@pytest.mark.parametrize("family", FAMILIES)
def test_a_ratings_words_are_known_in_each_family(rating: Rating, family: str) -> None:
    for text in (rating.label, rating.source.text, *(choice.label for choice in rating.choices)):
        assert say(text, family=family)
    say(rating.help, family=family)


@every_rating
def test_a_default_passes_its_own_check(rating: Rating) -> None:
    default = rating.default
    if isinstance(default, str) and default.startswith("$"):
        return  # a setting, checked where settings are
    if default is not None:
        rating.check(default)


@every_rating
def test_what_nobody_knows_by_heart_says_where_it_stands(rating: Rating) -> None:
    """What must be given, what stands in for it unasked, and what is from memory."""
    stands_in = rating.default is not None or rating.derive is not None
    figure = rating.quantity in KINDS and rating.quantity != "count"
    asked = rating.needed or isinstance(rating.default, OneOf) or (figure and not rating.quiet)
    if asked or (stands_in and rating.source.confidence is Confidence.MEMORY):
        assert rating.help


@every_rating
def test_a_rating_is_declared_in_words_that_are_known(rating: Rating) -> None:
    assert rating.quantity in {*KINDS, "choice", "text", "size", "configuration"}
    assert bool(rating.choices) == (rating.quantity == "choice")
    assert once(choice.value for choice in rating.choices)
    assert not (rating.needed and (rating.default is not None or rating.derive))
    assert not (isinstance(rating.default, OneOf) and not rating.choices)
    if rating.low is not None and rating.high is not None:
        assert rating.low < rating.high


@every_kind
def test_what_stands_in_for_an_answer_passes_the_check(kind: Kind) -> None:
    for case in every_case(kind):
        for rating in kind.ratings:
            answer = case.values.answer(rating.key)
            if answer is not None:
                rating.check(answer)


@every_kind
def test_a_choice_always_has_an_answer(kind: Kind) -> None:
    for case in every_case(kind):
        for rating in kind.ratings:
            if rating.choices:
                assert case.values.pick(rating.key) in _options(rating), (case.name, rating.key)


@every_kind
@pytest.mark.parametrize("family", FAMILIES)
def test_terminals_are_anchors_of_the_symbol(kind: Kind, family: str) -> None:
    for case in every_case(kind):
        name = kind.symbol(case.values)
        assert name in symbol_names()
        drawn = symbol(name, family, places=len(kind.places(case.values)))
        terminals = {terminal.name for terminal in kind.terminals(case.values)}
        assert set(drawn.anchors) == terminals, (case.name, name)


@every_kind
def test_a_kind_is_found_by_its_key(kind: Kind) -> None:
    assert kind_of(kind.key) is kind
    assert is_known(kind.key)


def test_an_unknown_kind_is_an_empty_box() -> None:
    stranger = kind_of("flux_tank")
    assert not is_known("flux_tank")
    assert stranger.key == "flux_tank"
    values = stranger.values(next(every_case(kinds()["lamp"])).values.ratings)
    assert stranger.terminals(values) == stranger.places(values) == ()
    assert stranger.inside(values).elements == ()
    assert stranger.symbol(values) in symbol_names()


@every_kind
def test_what_changes_over_by_itself_says_so(kind: Kind) -> None:
    passes = any(s.passing for case in every_case(kind) for s in kind.inside(case.values).selectors)
    assert kind.changes_over is passes
