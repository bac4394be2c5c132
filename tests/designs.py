"""Designs for tests: one state of a drawn design, random designs, and the same design renamed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

from hypothesis import strategies as st

from linework.circuit import Circuit, State, expand
from linework.design import Design, Draft
from linework.design.change import Change, EditError
from linework.design.elements import End, Interlock, Part, Run, Seat
from linework.kinds import Answer, Band, OneOf
from linework.study.situation import Situation
from tests.enumeration import all_states

Settled = Mapping[tuple[str, str], str]


def state_of(circuit: Circuit, **positions: str) -> State:
    """The only state of rest in which these parts (by id) have a selector in these positions.

    Of a part with several: "running & 120V".
    """
    wanted = {(part, at) for part, text in positions.items() for at in text.split(" & ")}
    found = [
        state
        for state in all_states(circuit).states
        if state.passing is None
        and wanted <= {(part, position) for (part, _), position in state.positions.items()}
    ]
    assert len(found) == 1, [dict(state.positions) for state in found]
    return found[0]


def situation_of(
    drawn: Draft | Design, settled: Settled | None = None, **positions: str
) -> Situation:
    """A drawn design in one operating state; a part's id is its designation in a draft."""
    design = drawn.design if isinstance(drawn, Draft) else drawn
    circuit = expand(design, settled)
    return Situation(circuit, state_of(circuit, **positions))


def situations(design: Design, settled: Settled | None = None) -> Iterator[Situation]:
    """Every operating state of a design."""
    circuit = expand(design, settled)
    for state in all_states(circuit).states:
        yield Situation(circuit, state)


# random designs

SIZES = ("14 AWG", "12 AWG", "10 AWG", "6 AWG", "4/0 AWG", "2.5 mm2")
NEUTRALS = ("bonded", "floating", OneOf(("bonded", "floating")))
POLE_MAPS = ("", "", "", "", "L>L N>N", "L>N N>L PE>PE", "L>L N>PE PE>N", "L>L PE>PE")


class Pen:
    """Draws a random design: every choice is one of hypothesis, so that it can shrink."""

    def __init__(self, draw: Callable[[st.SearchStrategy], object], place: str) -> None:
        self.draw, self.d = draw, Draft(place=place)
        self.live: list[str] = []
        """AC terminals that give power: "G1.out"."""
        self.direct: list[str] = []
        """DC terminals that give power."""
        self.grounds: list[str] = []
        self.feeding: list[str] = []
        self.count: dict[str, int] = {}

    def name(self, letters: str) -> str:
        self.count[letters] = self.count.get(letters, 0) + 1
        return f"{letters}{self.count[letters]}"

    def one_of(self, *options: object) -> object:
        return self.draw(st.sampled_from(options))

    def number(self, low: int, high: int) -> int:
        found = self.draw(st.integers(low, high))
        assert isinstance(found, int)
        return found

    def laid(self) -> dict[str, Answer]:
        """Ratings of a run."""
        found: dict[str, Answer] = {
            "size": str(self.one_of(*SIZES)),
            "length": f"{self.number(0, 100)} ft",
        }
        broken = self.one_of("none", "none", "none", "none", "PE", "N", "L")
        if broken != "none":
            found["broken"] = str(broken)
        if self.number(0, 4) == 0:
            found["ground_size"] = str(self.one_of(*SIZES))
        return found

    def join(self, a: str, b: str, poles: str = "") -> None:
        """A run, left out where the design refuses it."""
        try:
            self.d.run(a, b, poles=poles, **self.laid())
        except EditError:
            return

    def wire(self, a: str, b: str) -> None:
        """An AC run, now and then with a mistake in it."""
        self.join(a, b, str(self.one_of(*POLE_MAPS)))

    def feed(self, terminal: str) -> None:
        """Wire a terminal to something that gives power."""
        self.wire(str(self.one_of(*self.live)), terminal)

    # parts

    def supply(self) -> None:
        name = self.name("GS")
        prospective: Answer = self.one_of("500 A", Band("300 A", "1 kA", "6 kA"))  # type: ignore[assignment]
        self.d.part(
            "supply",
            name,
            prospective=prospective,
            neutral=str(self.one_of("bonded", "bonded", "floating")),
            outage=str(self.one_of("no", "yes")),
        )
        self.live.append(f"{name}.out")

    def generator(self) -> None:
        name = self.name("G")
        neutral: Answer = self.one_of(*NEUTRALS)  # type: ignore[assignment]
        self.d.part(
            "generator",
            name,
            power=f"{self.number(1, 9)} kVA",
            neutral=neutral,
            excitation=str(self.one_of("own", "auxiliary", "capacitor", "electronic")),
        )
        self.live.append(f"{name}.out")
        self.grounds.append(f"{name}.frame")

    def inverter(self) -> None:
        battery, fuse, name = self.name("GB"), self.name("F"), self.name("TB")
        self.d.part("battery", battery, capacity="200 Ah")
        self.d.part("fuse", fuse, rating="150 A", type="class_t")
        self.d.part(
            "inverter_charger",
            name,
            power="1500 VA",
            charge=f"{self.number(0, 60)} A",
            neutral=str(self.one_of("relay", "floating", "bonded")),
            neutral_through=str(self.one_of("switched", "common")),
        )
        self.join(f"{battery}.dc", f"{fuse}.line")
        self.join(f"{fuse}.load", f"{name}.dc")
        if self.live:
            self.feed(f"{name}.ac_in")
        self.live.append(f"{name}.ac_out")
        self.grounds.append(f"{name}.case")

    # direct current

    def bank(self) -> None:
        battery, switch = self.name("GB"), self.name("QB")
        self.d.part("battery", battery, voltage="12 V", capacity="100 Ah")
        poles = str(self.one_of("plus", "both", "minus"))
        self.d.part("battery_disconnect", switch, poles=poles)
        self.join(f"{battery}.dc", f"{switch}.line")
        self.direct.append(f"{switch}.load")
        if self.number(0, 1) and self.grounds:
            self.join(f"{battery}.dc", str(self.one_of(*self.grounds)), self._to_ground())

    def _to_ground(self) -> str:
        return str(self.one_of("->PE", "->body"))

    def direct_terminal(self) -> str:
        if not self.direct:
            self.bank()
        return str(self.one_of(*self.direct))

    def sun(self) -> None:
        array, switch, controller = self.name("GP"), self.name("QB"), self.name("TC")
        self.d.part(
            "solar_array",
            array,
            voc="22 V",
            isc="6 A",
            series=f"{self.number(1, 3)}",
            strings=f"{self.number(1, 3)}",
        )
        poles = str(self.one_of("all", "lines"))
        self.d.part("isolator", switch, circuit="dc", poles=poles, direct="yes", voltage="150 V")
        self.d.part(
            "solar_controller",
            controller,
            type=str(self.one_of("mppt", "pwm")),
            common=str(self.one_of("minus", "minus", "plus", "none")),
            current=f"{self.number(5, 40)} A",
            pv_voltage="100 V",
        )
        self.join(f"{array}.dc", f"{switch}.line")
        self.join(f"{switch}.load", f"{controller}.pv")
        self.join(f"{controller}.dc", self.direct_terminal())
        self.grounds += [f"{array}.frame", f"{controller}.case"]

    def charger(self) -> None:
        name = self.name("TB")
        self.d.part("charger", name, current=f"{self.number(5, 60)} A")
        self.feed(f"{name}.ac_in")
        self.join(f"{name}.dc", self.direct_terminal())
        self.grounds.append(f"{name}.case")

    def stand_alone(self) -> None:
        name = self.name("TB")
        neutral: Answer = self.one_of(*NEUTRALS)  # type: ignore[assignment]
        self.d.part("inverter", name, power="800 VA", neutral=neutral)
        self.join(self.direct_terminal(), f"{name}.dc")
        self.live.append(f"{name}.ac_out")
        self.grounds.append(f"{name}.case")

    def bars(self) -> None:
        start = self.direct_terminal()
        lamp = self.name("EL")
        self.d.part("lamp", lamp, circuit="dc", power=f"{self.number(1, 9) * 10} W")
        for bar, pole in (("plus", "+"), ("minus", "-")):
            name = self.name("WC")
            self.d.part("busbar", name, bar=bar, taps="2")
            self.join(start, f"{name}.feed", pole)
            self.join(f"{name}.{self.number(1, 2)}", f"{lamp}.in", pole)

    def string(self) -> None:
        """Batteries in series, now and then with a tap between them."""
        names = [self.name("GB") for _ in range(self.number(2, 4))]
        for battery in names:
            self.d.part("battery", battery, capacity="100 Ah")
        for one, after in pairwise(names):
            self.join(f"{one}.dc", f"{after}.dc", "->+")
        lamp = self.name("EL")
        volts = f"{12 * len(names)} V"
        self.d.part("lamp", lamp, circuit="dc", power="60 W", voltage=volts)
        self.join(f"{names[0]}.dc", f"{lamp}.in", "+")
        self.join(f"{names[-1]}.dc", f"{lamp}.in", "-")
        self.direct += [f"{lamp}.in", f"{self.one_of(*names)}.dc"]

    # two legs

    def two_legs(self) -> None:
        """A source of two legs, or one hot on both, and a board with circuits on one or both."""
        board = self.name("QP")
        bond: Answer = self.one_of("absent", "fitted", OneOf(("absent", "fitted")))  # type: ignore[assignment]
        self.d.part("panel", board, circuit="split", bond=bond, places="8")
        self.grounds.append(f"{board}.ground")
        self._on_two_legs(f"{board}.feed")
        for place in ("1", "2", "5")[: self.number(1, 3)]:
            breaker = self.name("QF")
            circuit = str(self.one_of("ac", "ac", "split", "ac240"))
            self.d.part("breaker", breaker, circuit=circuit, rating="20 A")
            self.d.seat(breaker, board, place)
            if circuit == "ac":
                self.live.append(f"{breaker}.load")
            elif circuit == "ac240":
                load = self.name("MA")
                self.d.part("motor", load, circuit="ac240", power=f"{self.number(2, 15) * 100} W")
                self.join(f"{breaker}.load", f"{load}.in")
            else:
                self._shared(f"{breaker}.load")

    def _on_two_legs(self, feed: str) -> None:
        sort = self.one_of("supply", "generator", "inverter", "one hot")
        if sort == "one hot":
            self.join(str(self.one_of(*self.live)), feed, "L>L1 L>L2 N PE")
            return
        name = self.name({"supply": "GS", "generator": "G"}.get(str(sort), "TB"))
        ratings: dict[str, Answer] = {"circuit": "split"}
        if sort == "generator":
            ratings["power"] = f"{self.number(2, 12)} kVA"
            ratings["switch_120"] = str(self.one_of("none", "dead", "in_phase"))
        if sort == "inverter":
            ratings["power"] = "4 kVA"
        if sort != "supply":
            ratings["neutral"] = str(self.one_of("bonded", "floating"))
        self.d.part(str(sort), name, **ratings)
        if sort == "inverter":
            self.join(self.direct_terminal(), f"{name}.dc")
        self.join(f"{name}.{'ac_out' if sort == 'inverter' else 'out'}", feed)
        self.grounds += {"generator": [f"{name}.frame"], "inverter": [f"{name}.case"]}.get(
            str(sort), []
        )

    def _shared(self, start: str) -> None:
        """Two circuits on one neutral."""
        box = self.name("XJ")
        self.d.part("junction_box", box, circuit="split")
        self.join(start, f"{box}.a")
        for leg in ("L1", "L2"):
            load = self.name("EA")
            self.d.part("load", load, power=f"{self.number(1, 15) * 100} W")
            self.join(f"{box}.b", f"{load}.in", f"{leg}>L N PE")

    # alternating current

    def switch(self) -> None:
        name = self.name("QT")
        kind = str(self.one_of("transfer_switch", "transfer_switch", "transfer_automatic"))
        self.d.part(kind, name, poles=str(self.one_of("all", "all", "lines", "first")))
        for terminal in ("in1", "in2"):
            self.feed(f"{name}.{terminal}")
        self.live.append(f"{name}.load")

    def panel(self) -> None:
        name = self.name("QP")
        bond: Answer = self.one_of("absent", "fitted", OneOf(("absent", "fitted")))  # type: ignore[assignment]
        ratings: dict[str, Answer] = {"bond": bond, "places": "3"}
        if self.number(0, 1):
            ratings["main"] = "30 A"
        self.d.part("panel", name, **ratings)
        self.feed(f"{name}.feed")
        self.grounds.append(f"{name}.ground")
        for place in range(1, self.number(1, 3) + 1):
            breaker = self.name("QF")
            self.d.part(
                "breaker",
                breaker,
                rating=str(self.one_of("15 A", "20 A")),
                ground_fault=str(self.one_of("none", "none", "class_a")),
            )
            self.d.seat(breaker, name, str(place))
            self.live.append(f"{breaker}.load")

    def outlet(self) -> None:
        name = self.name("XD")
        self.d.part("outlet", name, ground_fault=str(self.one_of("none", "none", "class_a")))
        self.feed(f"{name}.feed")
        self.live.append(f"{name}.onward")
        plugged = self.number(0, 4)
        if plugged == 0:
            bond = self.name("XQ")
            self.d.part("bond_plug", bond)
            self.d.seat(bond, name, "face")
        elif plugged < 3:
            self.plugged_in(name)

    def plugged_in(self, outlet: str) -> None:
        """A load in an outlet, straight or behind an adapter or a cord set."""
        between = str(self.one_of("", "", "adapter", "cord_set"))
        ground = str(self.one_of("through", "through", "none"))
        if between == "adapter":
            name = self.name("XA")
            self.d.part("adapter", name, connector="5-15", ground=ground)
        elif between:
            name = self.name("WX")
            self.d.part("cord_set", name, size="14 AWG", length="25 ft", ground=ground)
        if between:
            self.d.seat(name, outlet, "face")
            outlet = name
        load = self.name("EP")
        case = str(self.one_of("metal", "insulated"))
        self.d.part("plug_load", load, power="300 W", case=case)
        self.d.seat(load, outlet, "face")

    def load(self) -> None:
        name = self.name("EA")
        kind = str(self.one_of("load", "load", "heater", "electronic_load"))
        ratings = {"power_factor": str(self.one_of("1", "0.8"))} if kind == "load" else {}
        self.d.part(kind, name, power=f"{self.number(1, 20) * 100} W", **ratings)
        self.feed(f"{name}.in")

    def cord(self) -> None:
        """A plug that a person moves between two outlets, to an inlet."""
        plug, inlet = self.name("XP"), self.name("XI")
        self.d.part("plug", plug)
        for _ in range(self.number(1, 2)):
            outlet = self.name("XD")
            self.d.part("outlet", outlet)
            self.feed(f"{outlet}.feed")
            self.d.seat(plug, outlet, "face")
        self.d.part("inlet", inlet)
        self.wire(f"{plug}.cord", f"{inlet}.outside")
        self.live.append(f"{inlet}.inside")

    def ground(self) -> None:
        kind, letters, terminal = self.one_of(  # type: ignore[misc]
            ("body", "XB", "tie"), ("electrode", "XE", "ground")
        )
        name = self.name(letters)
        self.d.part(kind, name)
        if self.grounds:
            self.join(str(self.one_of(*self.grounds)), f"{name}.{terminal}")
        self.grounds.append(f"{name}.{terminal}")

    def ring(self) -> None:
        """Two places that give power joined: rings, sources that meet."""
        one, other = str(self.one_of(*self.live)), str(self.one_of(*self.live))
        if one.split(".")[0] != other.split(".")[0]:
            self.wire(one, other)


_STEPS = (
    *("switch", "panel", "outlet", "load", "load", "cord", "ground", "ring"),
    *("sun", "charger", "stand_alone", "bars"),
    *("string", "two_legs"),
)


@st.composite
def drafts(draw: Callable[[st.SearchStrategy], object], most: int = 7) -> Draft:
    """A random design: one to three sources, then up to ``most`` boards, outlets, cords, loads."""
    pen = Pen(draw, str(draw(st.sampled_from(("vehicle", "building")))))
    furnish(pen, most)
    return pen.d


def furnish(pen: Pen, most: int) -> None:
    """Sources, then up to ``most`` boards, outlets, cords, loads."""
    for _ in range(pen.number(1, 2)):
        getattr(pen, str(pen.one_of("supply", "generator", "generator")))()
    if pen.number(0, 2) == 0:
        pen.inverter()
    for _ in range(pen.number(1, most)):
        step = pen.one_of(*_STEPS)
        getattr(pen, str(step))()
    pen.load()


# the same design, told otherwise


def renamed(design: Design, names: Mapping[str, str], order: Callable[[str], object]) -> Design:
    """The same design with other ids and designations, put together in another order."""

    def end(old: End) -> End:
        return End(names[old.part], old.terminal)

    after: list[Part | Run | Seat | Interlock] = []
    for element_id in sorted(names, key=order):
        element = design.get(element_id)
        if isinstance(element, Part):
            new = names[element_id]
            after.append(replace(element, id=new, designation=new.upper()))
        elif isinstance(element, Run):
            new, a, b = names[element_id], end(element.a), end(element.b)
            after.append(replace(element, id=new, designation=new.upper(), a=a, b=b))
        elif isinstance(element, Seat):
            part, host = names[element.part], names[element.host]
            after.append(replace(element, id=names[element_id], part=part, host=host))
        elif isinstance(element, Interlock):
            excludes = tuple((names[p], s, at) for p, s, at in element.excludes)
            after.append(replace(element, id=names[element_id], excludes=excludes))
    copy = Design(design.settings)
    copy.apply(Change("the same", {element.id: (None, element) for element in after}))
    return copy
