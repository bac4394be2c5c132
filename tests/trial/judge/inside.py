"""What is inside each kind of part, as the judge reads a plate or a manual."""

from __future__ import annotations

from collections.abc import Callable

from linework.design import Part
from tests.trial.judge.net import EARTH, Edge, Emf, Net, Node, Use
from tests.trial.judge.reading import Told
from tests.trial.judge.tables import ohm

POLES = {
    "ac": ("L", "N", "PE"),
    "split": ("L1", "L2", "N", "PE"),
    "ac240": ("L1", "L2", "PE"),
    "dc": ("+", "-"),
}
LINE_V = 120.0
_BATTERY_A_PER_AH = {"lithium": (20, 100), "agm": (20, 40), "flooded": (12, 25)}
"""Short-circuit current over capacity (from memory)."""
_BONDING_OHM = 0.00075
"""0.3 m of 8 AWG."""

Inside = Callable[[Net, Part, Told], None]


def poles(told: Told) -> tuple[str, ...]:
    """The poles of a part's circuit."""
    return POLES[told.word("circuit", "dc" if told.kind == "fuse" else "ac")]


def hots(of: tuple[str, ...]) -> tuple[str, ...]:
    """The hot ones among poles."""
    return tuple(p for p in of if p in ("L", "L1", "L2", "+"))


def _volts(pole: str) -> float:
    return -LINE_V if pole == "L2" else LINE_V


def through(
    net: Net, name: str, a: str, b: str, told: Told, opened: tuple[str, ...], **more: object
) -> None:
    """Contacts in some poles from one terminal to another, the rest joined."""
    for pole in poles(told):
        one, other = Node(name, a, pole), Node(name, b, pole)
        if pole in opened:
            net.contact(name, one, other, **more)
        else:
            net.join(name, one, other)


# sources


def _bond(net: Net, name: str, neutral: Node, ground: Node, when: object = None) -> None:
    net.edges.append(Edge(neutral, ground, "bond", name, _BONDING_OHM, None, when))  # type: ignore[arg-type]


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
        _bond(net, name, minus, ground, on if told.word("neutral") == "relay" else None)
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


def _battery_side(net: Net, name: str, told: Told, when: object) -> None:
    """What an inverter takes at its rating from the battery."""
    volts = told.figure("dc_voltage", 12.0)
    amps = told.figure("power") / (told.figure("efficiency", 0.88) * 0.875 * volts)
    ends = Node(name, "dc", "+"), Node(name, "dc", "-")
    net.uses.append(Use(name, *ends, volts, amps, amps, when))  # type: ignore[arg-type]


def _makes(net: Net, name: str, told: Told, when: object) -> None:
    """The alternating current that an inverter makes."""
    lines = hots(poles(told))
    rated = told.figure("power") / (LINE_V * len(lines))
    for pole in lines:
        ends = Node(name, "ac_out", pole), Node(name, "ac_out", "N")
        net.sources.append(
            Emf(name, *ends, _volts(pole), "inverter", (rated, 2 * rated), rated, when)  # type: ignore[arg-type]
        )


def _charges(net: Net, name: str, told: Told, amps: float, when: object) -> None:
    volts = told.figure("dc_voltage", 12.0)
    ends = Node(name, "dc", "+"), Node(name, "dc", "-")
    short = (amps, 1.3 * amps)
    net.sources.append(Emf(name, *ends, volts, "charger", short, 1.25 * amps, when))  # type: ignore[arg-type]


def _case(net: Net, name: str, *joined: str) -> None:
    case = Node(name, "case", "PE")
    for terminal in joined:
        net.join(name, Node(name, terminal, "PE"), case)
    net.metals.append((name, case))


def inverter(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "bridge", frozenset({"inverting"}))
    _makes(net, name, told, on)
    _battery_side(net, name, told, on)
    _case(net, name, "ac_out")
    if told.word("neutral") == "bonded":
        _bond(net, name, Node(name, "ac_out", "N"), Node(name, "case", "PE"))
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
    _charges(net, name, told, charge, passing)
    line = hots(poles(told))[0]
    _input(net, name, told, charge, line, passing)
    _case(net, name, "ac_in", "ac_out")
    if told.word("neutral") != "floating":
        when = inverting if told.word("neutral") == "relay" else None
        _bond(net, name, Node(name, "ac_out", "N"), Node(name, "case", "PE"), when)
    net.followers.append((name, "inverter_charger"))


def _input(net: Net, name: str, told: Told, charge: float, line: str, when: object) -> None:
    watts = charge * 1.125 * told.figure("dc_voltage", 12.0) / told.figure("efficiency", 0.85)
    amps = watts / (LINE_V * 0.95)
    ends = Node(name, "ac_in", line), Node(name, "ac_in", "N")
    net.uses.append(Use(name, *ends, LINE_V, amps, amps, when))  # type: ignore[arg-type]


def charger(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "output", frozenset({"charging"}))
    amps = told.figure("current")
    _charges(net, name, told, amps, on)
    _input(net, name, told, amps, "L", on)
    _case(net, name, "ac_in")
    net.followers.append((name, "charger"))


def solar_controller(net: Net, part: Part, told: Told) -> None:
    name, on = part.id, (part.id, "output", frozenset({"charging"}))
    _charges(net, name, told, told.figure("current"), on)
    if told.word("common", "minus") == "minus":
        net.join(name, Node(name, "pv", "-"), Node(name, "dc", "-"))
    _case(net, name)
    net.followers.append((name, "solar_controller"))


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
    through(net, part.id, "line", "load", told, tuple(p for p in opened if p != "PE"))
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
    more = {"amps": rated, "when": closed, "senses": senses}
    through(net, part.id, "line", "load", told, opened, **more)


def fuse(net: Net, part: Part, told: Told) -> None:
    through(net, part.id, "line", "load", told, hots(poles(told)), amps=told.figure("rating"))


def gfci(net: Net, part: Part, told: Told) -> None:
    of = tuple(p for p in poles(told) if p != "PE")
    through(net, part.id, "line", "load", told, of, senses=True)


# distribution, plugs, metal


def panel(net: Net, part: Part, told: Told) -> None:
    name = part.id
    if told.has("main"):
        closed = (name, "main", frozenset({"closed"}))
        main = {"amps": told.figure("main"), "when": closed}
        through(net, name, "feed", "bus", told, hots(poles(told)), **main)
    else:
        through(net, name, "feed", "bus", told, ())
    if "PE" not in poles(told):
        net.join(name, Node(name, "bus", "-"), Node(name, "ground", "-"))
        return
    ground = Node(name, "ground", "PE")
    net.join(name, Node(name, "bus", "PE"), ground)
    net.metals.append((name, ground))
    if told.word("bond") == "fitted" and "N" in poles(told):
        _bond(net, name, Node(name, "bus", "N"), ground)


def busbar(net: Net, part: Part, told: Told) -> None:
    pole = {"plus": "+", "minus": "-", "ground": "PE"}[told.word("bar")]
    for tap in range(1, int(told.figure("taps")) + 1):
        net.join(part.id, Node(part.id, "feed", pole), Node(part.id, str(tap), pole))


def junction_box(net: Net, part: Part, told: Told) -> None:
    for side in "bcd":
        through(net, part.id, "a", side, told, ())


def outlet(net: Net, part: Part, told: Told) -> None:
    name, of = part.id, poles(told)
    senses = told.word("ground_fault", "none") != "none"
    opened = tuple(p for p in of if p != "PE") if senses else ()
    through(net, name, "feed", "face", told, opened, senses=senses)
    through(net, name, "face", "onward", told, ())
    _face(net, name, of)


def _face(net: Net, name: str, of: tuple[str, ...]) -> None:
    net.faces[name] = {pole: Node(name, "face", pole) for pole in of}
    if "PE" in of:
        net.metals.append((name, Node(name, "face", "PE")))


def _bare(net: Net, part: Part, told: Told, terminal: str, when: object) -> None:
    for pole in poles(told):
        if pole != "PE":
            net.pins.append((part.id, Node(part.id, terminal, pole), when))  # type: ignore[arg-type]


def plug(net: Net, part: Part, told: Told) -> None:
    through(net, part.id, "pins", "cord", told, ())
    _bare(net, part, told, "pins", (part.id, "plug", frozenset({"unplugged"})))


def inlet(net: Net, part: Part, told: Told) -> None:
    through(net, part.id, "outside", "inside", told, ())
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
    _bare(net, part, told, "pins", (name, "plug", frozenset({"unplugged"})))


def bond_plug(net: Net, part: Part, told: Told) -> None:
    _bond(net, part.id, Node(part.id, "pins", "N"), Node(part.id, "pins", "PE"))


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
        allowed = 2.5 * amps  # NFPA 70 table 430.52, inverse-time breaker
    heavy = max(amps * (1.25 if lasts else 1.0), told.figure("least_ampacity", 0.0))
    critical = told.word("critical") == "yes"
    use = Use(part.id, a, b, volts, amps, heavy, None, allowed, critical)
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
}
