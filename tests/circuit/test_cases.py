"""What is not known is expanded case by case: each as the design that says it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest

from linework.circuit import Circuit, expand
from linework.design import Design, Draft, End, Part, Run, Seat, changed
from linework.kinds import RUN_RATINGS, Kind, OneOf, Rating, Ratings, kinds
from linework.kinds.common import POLES
from tests.kinds.cases import SETTING, sample


def same(circuit: Circuit) -> Circuit:
    return replace(circuit, settled={})


def choice_pairs(ratings: tuple[Rating, ...]) -> Iterator[tuple[str, str, str]]:
    for rating in ratings:
        for one, other in pairwise(choice.value for choice in rating.choices):
            yield rating.key, one, other
            yield rating.key, other, one


def drawn(kind: Kind, **chosen: str | OneOf) -> Design:
    """A part with a run from each of its terminals to a box of each sort of circuit, with
    something in each of its places, and itself in a place of each sort of host."""
    answers = {r.key: sample(r) for r in kind.ratings if r.needed and not r.choices}
    part = Part("P", kind.key, "P1", Ratings.of({**answers, **chosen}))
    elements: list[Part | Run | Seat] = [part]
    for circuit in POLES:
        box = Ratings.of({"circuit": circuit})
        elements.append(Part(f"J-{circuit}", "junction_box", f"XJ{circuit}", box))
    names: dict[str, None] = {}
    places: dict[str, None] = {}
    for options in chosen.values():
        for option in options.options if isinstance(options, OneOf) else (options,):
            taken = {next(iter(chosen)): option}
            values = kind.values(part.ratings.with_answers(taken), None, SETTING)
            names.update(dict.fromkeys(t.name for t in kind.terminals(values)))
            places.update(dict.fromkeys(p.name for p in kind.places(values)))
    for name in names:
        for circuit in POLES:
            ends = End("P", name), End(f"J-{circuit}", "a")
            ratings = Ratings.of({"size": "12 AWG", "length": "3 m"})
            elements.append(Run(f"W-{name}-{circuit}", *ends, ratings=ratings))
    for place in places:
        for guest in ("breaker", "outlet", "plug_load"):
            key = f"{guest}-{place}"
            elements += [Part(key, guest, key), Seat(f"S-{key}", key, "P", place)]
    if kind.seat:
        for host in ("panel", "outlet", "generator"):
            elements += [Part(host, host, host), Seat(f"S-{host}", "P", host, "1")]
    design = Design()
    design.apply(changed("", [(None, element) for element in elements]))
    return design


@pytest.mark.parametrize("kind", list(kinds().values()), ids=lambda kind: kind.key)
def test_one_of_two_is_in_its_case_as_the_design_that_says_it(kind: Kind) -> None:
    for key, one, other in choice_pairs(kind.ratings):
        open_one = drawn(kind, **{key: OneOf((other, one))})
        said = drawn(kind, **{key: OneOf((other, one))})
        part = said.part("P")
        said.apply(changed("", [(part, part.rated(**{key: one}))]))
        circuit = expand(open_one, {("P", key): one})
        assert same(circuit) == same(expand(said)), (key, one, other)


def test_one_of_two_of_a_run_is_in_its_case_as_the_design_that_says_it() -> None:
    for key, one, other in choice_pairs(tuple(RUN_RATINGS.values())):
        circuits = []
        for answer in (OneOf((other, one)), one):
            d = Draft(place="building")
            d.part("supply", "GS1", circuit="split")
            d.part("load", "EA1", circuit="split", power="100 W")
            d.run("GS1.out", "EA1.in", "W1", size="8 AWG", length="30 m", **{key: answer})
            circuits.append(expand(d.design, {("W1", key): one}))
        assert same(circuits[0]) == same(circuits[1]), (key, one, other)


@pytest.mark.parametrize("first", ["ac", "split"])
def test_a_supply_of_unknown_circuit_keeps_its_hot_conductors(first: str) -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split")
    d.part("panel", "PB1", circuit="split")
    d.run("GS1.out", "PB1.feed", "W1", size="4 AWG", length="10 m")
    other = "split" if first == "ac" else "ac"
    d.rate("GS1", circuit=OneOf((first, other)))
    for circuit, poles in (("split", {"L1", "L2", "N", "PE"}), ("ac", {"N", "PE"})):
        made = expand(d.design, {("GS1", "circuit"): circuit})
        assert {branch.name for branch in made.branches if branch.owner == "W1"} == poles


def test_a_breaker_of_unknown_circuit_sits_on_the_bars_of_its_case() -> None:
    d = Draft(place="building")
    d.part("panel", "PB1", circuit="split")
    d.part("breaker", "QF1", circuit=OneOf(("ac", "ac240")))
    d.seat("QF1", "PB1", "1")
    circuit = expand(d.design, {("QF1", "circuit"): "ac240"})
    line, bars = circuit.terminals["QF1", "line"], circuit.terminals["PB1", "feed"]
    assert (line["L1"], line["L2"]) == (bars["L1"], bars["L2"])
