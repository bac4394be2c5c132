"""What is inside each kind of part, as the judge reads a plate or a manual."""

from __future__ import annotations

from collections.abc import Callable

from linework.design import Part
from tests.trial.judge.engines import (
    alternator,
    battery_selector,
    charge_relay,
    dc_charger,
    galvanic_isolator,
    hybrid_inverter,
    parallel_kit,
    power_station,
    split_outlet,
    surge_device,
    transformer,
)
from tests.trial.judge.net import EARTH, Edge, Net, Node, Use
from tests.trial.judge.poles import LINE_V, POLES, hots, poles, through
from tests.trial.judge.reading import Told
from tests.trial.judge.sources import (
    battery,
    charger,
    generator,
    inverter,
    inverter_charger,
    link,
    solar_array,
    solar_controller,
    supply,
)
from tests.trial.judge.tables import ohm

Inside = Callable[[Net, Part, Told], None]


# switching and protection


def transfer(net: Net, part: Part, told: Told) -> None:
    name, of = part.id, poles(told)
    lines = hots(of)
    moved = {"lines": lines, "all": (*lines, "N"), "first": lines[:1]}[told.word("poles")]
    one_hot = told.word("second_circuit") == "one_hot"
    for n in ("1", "2"):
        when = (name, "lever", frozenset({n}))
        for pole in of:
            at = "L" if one_hot and n == "2" and pole in ("L1", "L2") else pole
            ends = Node(name, f"in{n}", at), Node(name, "load", pole)
            if pole in moved:
                net.contact(name, *ends, when=when)
            else:
                net.join(name, *ends)
    net.metals.append((name, Node(name, "load", "PE")))
    if told.kind == "transfer_automatic":
        net.followers.append((name, "transfer_automatic"))
    else:
        net.selectors[name, "lever"] = ("1", "2")


def isolator(net: Net, part: Part, told: Told) -> None:
    opened = hots(poles(told)) if told.word("poles") == "lines" else poles(told)
    through(net, (part.id, "line", "load"), told, tuple(p for p in opened if p != "PE"))
    if "PE" in poles(told):
        net.metals.append((part.id, Node(part.id, "load", "PE")))


def battery_disconnect(net: Net, part: Part, told: Told) -> None:
    opened = {"plus": ("+",), "both": ("+", "-"), "minus": ("-",)}[told.word("poles")]
    for pole in ("+", "-"):
        ends = Node(part.id, "line", pole), Node(part.id, "load", pole)
        if pole in opened:
            net.contact(part.id, *ends)
        else:
            net.join(part.id, *ends)


def breaker(net: Net, part: Part, told: Told) -> None:
    of = poles(told)
    returns = tuple(p for p in of if p in ("N", "-"))
    which = {"lines": hots(of), "all": (*hots(of), *returns), "neutral": returns}
    closed = (part.id, "breaker", frozenset({"closed"}))
    senses = told.word("ground_fault", "none") != "none"
    opened = which[told.word("poles", "lines")]
    rated = told.figure("rating")
    through(net, (part.id, "line", "load"), told, opened, rated, closed, senses)


def fuse(net: Net, part: Part, told: Told) -> None:
    through(net, (part.id, "line", "load"), told, hots(poles(told)), amps=told.figure("rating"))


def gfci(net: Net, part: Part, told: Told) -> None:
    of = tuple(p for p in poles(told) if p != "PE")
    through(net, (part.id, "line", "load"), told, of, senses=True)


# distribution, plugs, metal


def panel(net: Net, part: Part, told: Told) -> None:
    name = part.id
    if told.has("main"):
        closed = (name, "main", frozenset({"closed"}))
        through(net, (name, "feed", "bus"), told, hots(poles(told)), told.figure("main"), closed)
    else:
        through(net, (name, "feed", "bus"), told, ())
    if "PE" not in poles(told):
        net.join(name, Node(name, "bus", "-"), Node(name, "ground", "-"))
        return
    ground = Node(name, "ground", "PE")
    net.join(name, Node(name, "bus", "PE"), ground)
    net.metals.append((name, ground))
    if told.word("bond") == "fitted" and "N" in poles(told):
        link(net, name, Node(name, "bus", "N"), ground)


def busbar(net: Net, part: Part, told: Told) -> None:
    pole = {"plus": "+", "minus": "-", "ground": "PE"}[told.word("bar")]
    for tap in range(1, int(told.figure("taps")) + 1):
        net.join(part.id, Node(part.id, "feed", pole), Node(part.id, str(tap), pole))


def junction_box(net: Net, part: Part, told: Told) -> None:
    for side in "bcd":
        through(net, (part.id, "a", side), told, ())


def outlet(net: Net, part: Part, told: Told) -> None:
    name, of = part.id, poles(told)
    senses = told.word("ground_fault", "none") != "none"
    opened = tuple(p for p in of if p != "PE") if senses else ()
    through(net, (name, "feed", "face"), told, opened, senses=senses)
    through(net, (name, "face", "onward"), told, ())
    _face(net, name, of)
    if told.word("marked") == "no_ground":
        net.metals.pop()  # behind class A it needs no ground (406.4(D)(2)): wet_places asks


def _face(net: Net, name: str, of: tuple[str, ...]) -> None:
    net.faces[name] = {pole: Node(name, "face", pole) for pole in of}
    if "PE" in of:
        net.metals.append((name, Node(name, "face", "PE")))


def _moved_by_hand(net: Net, part: Part, told: Told) -> None:
    """Pins that are bare while they are in no outlet."""
    net.selectors[part.id, "plug"] = ("unplugged",)
    when = (part.id, "plug", frozenset({"unplugged"}))
    for pole in poles(told):
        if pole != "PE":
            net.pins.append((part.id, Node(part.id, "pins", pole), when))


def plug(net: Net, part: Part, told: Told) -> None:
    through(net, (part.id, "pins", "cord"), told, ())
    _moved_by_hand(net, part, told)


def inlet(net: Net, part: Part, told: Told) -> None:
    through(net, (part.id, "outside", "inside"), told, ())
    net.metals.append((part.id, Node(part.id, "inside", "PE")))


def adapter(net: Net, part: Part, told: Told) -> None:
    name, inner = part.id, poles(told)
    outer = POLES[told.word("outlet_circuit", told.word("circuit", "ac"))]
    for pole in outer:
        fed = pole if pole in inner else "L" if pole != "L" else told.word("leg", "L1")
        if fed in inner and (pole != "PE" or told.word("ground", "through") == "through"):
            net.contact(name, Node(name, "pins", fed), Node(name, "face", pole))
    _face(net, name, outer)


def cord_set(net: Net, part: Part, told: Told) -> None:
    name, of = part.id, poles(told)
    each = ohm(told.word("size").removesuffix(" AWG"), told.figure("length"))
    for pole in of:
        if pole != "PE" or told.word("ground", "through") == "through":
            one, other = Node(name, "pins", pole), Node(name, "face", pole)
            net.edges.append(Edge(one, other, "wire", name, each))
    _face(net, name, of)
    _moved_by_hand(net, part, told)


def bond_plug(net: Net, part: Part, told: Told) -> None:
    link(net, part.id, Node(part.id, "pins", "N"), Node(part.id, "pins", "PE"))


def body(net: Net, part: Part, told: Told) -> None:
    tie = Node(part.id, "tie", "body")
    net.join(part.id, tie, Node("@", "", f"body:{told.word('name')}"))
    net.metals.append((part.id, tie))


def electrode(net: Net, part: Part, told: Told) -> None:
    soil = told.figure("resistance", 25.0)
    net.edges.append(Edge(Node(part.id, "ground", "PE"), EARTH, "soil", part.id, soil))


# loads


def load(net: Net, part: Part, told: Told) -> None:
    of = poles(told)
    lines = hots(of)
    direct = lines[0] == "+"
    a = Node(part.id, "in", lines[0])
    b = Node(part.id, "in", lines[1] if len(lines) > 1 else "-" if direct else "N")
    volts = told.figure("voltage", 12.0 if direct else 2 * LINE_V if len(lines) > 1 else LINE_V)
    usual = 0.8 if told.kind == "motor" else 1.0
    factor = 1.0 if direct else told.figure("power_factor", usual)
    amps = 0.0 if told.word("duty") == "starter" else told.figure("power") / (volts * factor)
    lasts = told.word("continuous", "yes" if told.kind == "heater" else "no") == "yes"
    allowed = told.figure("largest_device", 0.0)
    if told.kind == "motor" and not allowed:
        allowed = (1.5 if direct else 2.5) * amps  # NFPA 70 table 430.52, inverse-time breaker
    heavy = max(amps * (1.25 if lasts else 1.0), told.figure("least_ampacity", 0.0))
    critical = told.word("critical") == "yes"
    starter = told.word("duty") == "starter"
    start_a = told.figure("start_current", 0.0)
    use = Use(part.id, a, b, volts, amps, heavy, None, allowed, critical, starter, start_a)
    net.uses.append(use)
    if "PE" in of and told.word("case", "metal") == "metal":
        net.metals.append((part.id, Node(part.id, "in", "PE")))


KINDS: dict[str, Inside] = {
    "supply": supply,
    "generator": generator,
    "battery": battery,
    "solar_array": solar_array,
    "inverter": inverter,
    "inverter_charger": inverter_charger,
    "charger": charger,
    "solar_controller": solar_controller,
    "transfer_switch": transfer,
    "transfer_automatic": transfer,
    "isolator": isolator,
    "breaker": breaker,
    "fuse": fuse,
    "battery_disconnect": battery_disconnect,
    "gfci": gfci,
    "panel": panel,
    "busbar": busbar,
    "junction_box": junction_box,
    "outlet": outlet,
    "plug": plug,
    "inlet": inlet,
    "adapter": adapter,
    "cord_set": cord_set,
    "bond_plug": bond_plug,
    "body": body,
    "electrode": electrode,
    "load": load,
    "lamp": load,
    "motor": load,
    "heater": load,
    "electronic_load": load,
    "plug_load": load,
    "alternator": alternator,
    "dc_charger": dc_charger,
    "charge_relay": charge_relay,
    "battery_selector": battery_selector,
    "hybrid_inverter": hybrid_inverter,
    "power_station": power_station,
    "parallel_kit": parallel_kit,
    "transformer": transformer,
    "galvanic_isolator": galvanic_isolator,
    "surge_device": surge_device,
    "split_outlet": split_outlet,
}
