"""Sources and converters, as the judge reads their plates and manuals."""

from __future__ import annotations

from linework.design import Part
from tests.trial.judge.net import EARTH, Edge, Emf, Net, Node, Use, When
from tests.trial.judge.poles import LINE_V, hots, poles
from tests.trial.judge.reading import Told

_BATTERY_A_PER_AH = {"lithium": (20, 100), "agm": (20, 40), "flooded": (12, 25)}
"""Short-circuit current over capacity (from memory)."""
_BONDING_OHM = 0.00075
"""0.3 m of 8 AWG."""


def _volts(pole: str) -> float:
    return -LINE_V if pole == "L2" else LINE_V


def link(net: Net, name: str, neutral: Node, ground: Node, when: When = None) -> None:
    net.edges.append(Edge(neutral, ground, "bond", name, _BONDING_OHM, None, when))


def _machine(net: Net, part: Part, told: Told, sort: str, selector: tuple[str, str]) -> None:
    """What supply and set share: windings, a main device, the link, places of its own."""
    name, on = part.id, (part.id, selector[0], frozenset({selector[1]}))
    lines = hots(poles(told))
    if sort == "supply":
        least, most = told.band("prospective", (500.0, 10000.0))
        limit = None
    else:
        limit = told.figure("power") / (LINE_V * len(lines))
        least, most = limit / 0.24, limit / 0.07
        if told.word("excitation") == "electronic":
            least, most = limit, 2 * limit
    rated = told.figure("breaker", 0.0) or None
    minus = Node(name, "winding", "N")
    for pole in lines:
        plus = Node(name, "winding", pole)
        net.sources.append(Emf(name, plus, minus, _volts(pole), sort, (least, most), limit, on))
        net.contact(name, plus, Node(name, "out", pole), amps=rated)
    net.join(name, minus, Node(name, "out", "N"))
    ground = Node(name, "out", "PE")
    if told.word("neutral") in ("bonded", "relay"):
        link(net, name, minus, ground, on if told.word("neutral") == "relay" else None)
    net.selectors[name, selector[0]] = (selector[1], "off")


def supply(net: Net, part: Part, told: Told) -> None:
    _machine(net, part, told, "supply", ("supply", "live"))
    net.edges.append(Edge(Node(part.id, "out", "PE"), EARTH, "soil", part.id, 5.0))


def generator(net: Net, part: Part, told: Told) -> None:
    _machine(net, part, told, "generator", ("set", "running"))
    frame = Node(part.id, "frame", "PE")
    net.join(part.id, Node(part.id, "out", "PE"), frame)
    net.metals.append((part.id, frame))


def battery(net: Net, part: Part, told: Told) -> None:
    volts, hours = told.figure("voltage"), told.figure("capacity", 100.0)
    usual = _BATTERY_A_PER_AH[told.word("chemistry", "lithium")]
    short = told.band("fault_current", (usual[0] * hours, usual[1] * hours))
    plus, minus = Node(part.id, "dc", "+"), Node(part.id, "dc", "-")
    net.sources.append(Emf(part.id, plus, minus, volts, "battery", short))


def solar_array(net: Net, part: Part, told: Told) -> None:
    most = told.figure("isc") * told.figure("strings", 1.0)
    volts = told.figure("voc") * told.figure("series", 1.0)
    plus, minus = Node(part.id, "dc", "+"), Node(part.id, "dc", "-")
    bright = 1.25 * 1.25 * most  # NFPA 70 690.8(A)(1), (B)
    net.sources.append(Emf(part.id, plus, minus, volts, "array", (most, bright), bright))
    net.metals.append((part.id, Node(part.id, "frame", "PE")))


# converters


def _battery_side(net: Net, name: str, told: Told, when: When) -> None:
    """What an inverter takes at its rating from the battery."""
    volts = told.figure("dc_voltage", 12.0)
    amps = told.figure("power") / (told.figure("efficiency", 0.88) * 0.875 * volts)
    ends = Node(name, "dc", "+"), Node(name, "dc", "-")
    net.uses.append(Use(name, *ends, volts, amps, amps, when))


def _makes(net: Net, name: str, told: Told, when: When) -> None:
    """The alternating current that an inverter makes."""
    lines = hots(poles(told))
    rated = told.figure("power") / (LINE_V * len(lines))
    for pole in lines:
        ends = Node(name, "ac_out", pole), Node(name, "ac_out", "N")
        net.sources.append(
            Emf(name, *ends, _volts(pole), "inverter", (rated, 2 * rated), rated, when)
        )


def charges(net: Net, name: str, told: Told, amps: float, when: When) -> None:
    volts = told.figure("dc_voltage", 12.0)
    ends = Node(name, "dc", "+"), Node(name, "dc", "-")
    short = (amps, 1.3 * amps)
    net.sources.append(Emf(name, *ends, volts, "charger", short, 1.25 * amps, when))


def metal_case(net: Net, name: str, *joined: str) -> None:
    case = Node(name, "case", "PE")
    for terminal in joined:
        net.join(name, Node(name, terminal, "PE"), case)
    net.metals.append((name, case))


def inverter(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "bridge", frozenset({"inverting"}))
    _makes(net, name, told, on)
    _battery_side(net, name, told, on)
    metal_case(net, name, "ac_out")
    if told.word("neutral") == "bonded":
        link(net, name, Node(name, "ac_out", "N"), Node(name, "case", "PE"))
    net.followers.append((name, "inverter"))


def inverter_charger(net: Net, part: Part, told: Told) -> None:
    name = part.id
    passing = (name, "relay", frozenset({"passing"}))
    inverting = (name, "relay", frozenset({"inverting"}))
    common = told.word("neutral_through") == "common"
    for pole in poles(told)[:-1]:
        ends = Node(name, "ac_in", pole), Node(name, "ac_out", pole)
        if pole == "N" and common:
            net.join(name, *ends)
        else:
            net.contact(name, *ends, when=passing)
    _makes(net, name, told, inverting)
    _battery_side(net, name, told, inverting)
    charge = told.figure("charge", 50.0)
    charges(net, name, told, charge, passing)
    _input(net, name, told, charge, hots(poles(told)), passing)
    metal_case(net, name, "ac_in", "ac_out")
    if told.word("neutral") != "floating":
        when = inverting if told.word("neutral") == "relay" else None
        link(net, name, Node(name, "ac_out", "N"), Node(name, "case", "PE"), when)
    net.followers.append((name, "inverter_charger"))


def _input(
    net: Net, name: str, told: Told, charge: float, lines: tuple[str, ...], when: When
) -> None:
    """What charging takes: between both legs where the input has two (common practice)."""
    watts = charge * 1.125 * told.figure("dc_voltage", 12.0) / told.figure("efficiency", 0.85)
    volts = LINE_V * len(lines)
    amps = watts / (0.95 * volts)
    ends = Node(name, "ac_in", lines[0]), Node(name, "ac_in", (*lines, "N")[1])
    net.uses.append(Use(name, *ends, volts, amps, amps, when))


def charger(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "output", frozenset({"charging"}))
    amps = told.figure("current")
    charges(net, name, told, amps, on)
    _input(net, name, told, amps, ("L",), on)
    metal_case(net, name, "ac_in")
    net.followers.append((name, "charger"))


def solar_controller(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "output", frozenset({"charging"}))
    charges(net, name, told, told.figure("current"), on)
    if told.word("common", "minus") == "minus":
        net.join(name, Node(name, "pv", "-"), Node(name, "dc", "-"))
    metal_case(net, name)
    net.followers.append((name, "solar_controller"))
