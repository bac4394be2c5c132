"""What charges batteries from each other, and what joins, selects or parallels sources."""

from __future__ import annotations

from linework.design import Part
from tests.trial.judge.net import Emf, Net, Node, Use
from tests.trial.judge.poles import LINE_V, POLES, hots, poles, through
from tests.trial.judge.reading import Told
from tests.trial.judge.sources import charges, inverter_charger, link, metal_case


def alternator(net: Net, part: Part, told: Told) -> None:
    name = part.id
    net.selectors[name, "engine"] = ("running", "stopped")
    charges(net, name, told, told.figure("current"), (name, "engine", frozenset({"running"})))


def dc_charger(net: Net, part: Part, told: Told) -> None:
    """Charges at ``dc`` what it takes at ``dc_in``, while that is live."""
    name, on = part.id, (part.id, "output", frozenset({"charging"}))
    amps = told.figure("current")
    charges(net, name, told, amps, on)
    volts = told.figure("in_voltage", 12.0)
    watts = amps * 1.125 * told.figure("dc_voltage", 12.0) / told.figure("efficiency", 0.9)
    ends = Node(name, "dc_in", "+"), Node(name, "dc_in", "-")
    taken = watts / volts
    net.uses.append(Use(name, *ends, volts, taken, taken, on))
    if told.word("common", "minus") == "minus":
        net.join(name, ends[1], Node(name, "dc", "-"))
    metal_case(net, name)
    net.followers.append((name, "dc_charger"))


def charge_relay(net: Net, part: Part, told: Told) -> None:
    name = part.id
    net.selectors[name, "relay"] = ("apart", "joined")
    when = (name, "relay", frozenset({"joined"}))
    net.contact(name, Node(name, "line", "+"), Node(name, "load", "+"), when=when)
    net.join(name, Node(name, "line", "-"), Node(name, "load", "-"))


def battery_selector(net: Net, part: Part, told: Told) -> None:
    name = part.id
    net.selectors[name, "lever"] = ("1", "both", "2", "off")
    for n in ("1", "2"):
        when = (name, "lever", frozenset({n, "both"}))
        ends = Node(name, f"battery{n}", "+"), Node(name, "load", "+")
        net.contact(name, *ends, when=when)


def hybrid_inverter(net: Net, part: Part, told: Told) -> None:
    """An inverter-charger that the sun charges beside whatever it does."""
    inverter_charger(net, part, told)
    name = part.id
    charges(net, name, told, told.figure("current"), (name, "sun", frozenset({"charging"})))
    net.followers.append((name, "sun"))


def power_station(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "output", frozenset({"on"}))
    lines = hots(poles(told))
    rated = told.figure("power") / (LINE_V * len(lines))
    for n, pole in enumerate(lines):
        ends = Node(name, "out", pole), Node(name, "out", "N")
        volts = -LINE_V if n else LINE_V
        net.sources.append(Emf(name, *ends, volts, "inverter", (rated, 2 * rated), rated, on))
    if told.word("neutral") != "floating":
        link(net, name, Node(name, "out", "N"), Node(name, "out", "PE"))
    net.selectors[name, "output"] = ("on", "off")


def parallel_kit(net: Net, part: Part, told: Told) -> None:
    through(net, (part.id, "set1", "set2"), told, ())
    opened = hots(poles(told)) if told.has("breaker") else ()
    amps = told.figure("breaker") if opened else None
    through(net, (part.id, "set1", "out"), told, opened, amps)
    net.metals.append((part.id, Node(part.id, "out", "PE")))


def transformer(net: Net, part: Part, told: Told) -> None:
    """Windings: live behind while the primary is. On two wires the device before it holds what
    comes (NFPA 70 240.4(F), 450.3(B): 125 %); else its own breaker does."""
    name, on = part.id, (part.id, "core", frozenset({"forward"}))
    outer = POLES[told.word("secondary", "ac")]
    lines = hots(outer)
    volts = told.figure("secondary_voltage", LINE_V) if outer == POLES["ac"] else LINE_V
    rated = told.figure("power") / (volts * len(lines))
    limit = None if told.has("breaker") else 1.25 * rated
    for n, pole in enumerate(lines):
        plus, minus = Node(name, "winding", pole), Node(name, "winding", "N")
        emf = -volts if n else volts
        short = (rated / 0.06, rated / 0.02)  # impedance of 2 to 6 % (from memory)
        net.sources.append(Emf(name, plus, minus, emf, "winding", short, limit, on))
        amps = told.figure("breaker", 0.0) or None
        net.contact(name, plus, Node(name, "secondary", pole), amps=amps)
    if "N" in outer:
        net.join(name, Node(name, "winding", "N"), Node(name, "secondary", "N"))
    _grounds(net, name, told)
    net.followers.append((name, "transformer"))


def _grounds(net: Net, name: str, told: Told) -> None:
    """The case with the secondary; the primary's ground wire ends there or at the shield."""
    case, shore = Node(name, "case", "PE"), Node(name, "primary", "PE")
    net.join(name, Node(name, "secondary", "PE"), case)
    net.metals.append((name, case))
    if told.word("ground", "case") == "case":
        net.join(name, shore, case)
    else:
        net.metals.append((name, shore))
        net.beside[case], net.beside[shore] = ("secondary", "winding"), ("primary",)
        net.apart[name] = ("primary", "secondary")
    if told.word("neutral") == "bonded":
        link(net, name, Node(name, "winding", "N"), case)


def galvanic_isolator(net: Net, part: Part, told: Told) -> None:
    net.join(part.id, Node(part.id, "shore", "PE"), Node(part.id, "boat", "PE"))
    net.apart[part.id] = ("shore", "boat")


def surge_device(net: Net, part: Part, told: Told) -> None:
    """Nothing while no surge comes."""


def split_outlet(net: Net, part: Part, told: Told) -> None:
    name, of = part.id, POLES["ac"]
    for feed, face in (("feed", "face"), ("feed_2", "face_2")):
        for pole in of:
            net.join(name, Node(name, feed, pole), Node(name, face, pole))
        key = name if face == "face" else f"{name} 2"
        net.faces[key] = {pole: Node(name, face, pole) for pole in of}
        net.metals.append((name, Node(name, face, "PE")))
    for pole in ("PE",) if told.word("tabs", "hot") == "both" else ("N", "PE"):
        net.join(name, Node(name, "feed", pole), Node(name, "feed_2", pole))
