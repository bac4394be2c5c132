"""A draft with the words in which rigs are drawn: wires, cords, jumpers, fuses, breakers."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import add_interlock
from linework.kinds import Answer, Band

SPLIT = {"circuit": "split"}
BOTH = {"circuit": "ac240", "voltage": "240 V"}
LEAD = {"terminals": "75", "insulation": "90"}
"""Fine-stranded lead with lugs on studs that are marked for 75 degrees."""


def dc(volts: str) -> dict[str, str]:
    """What a load or board on direct current states."""
    return {"circuit": "dc", "voltage": volts}


class Sheet(Draft):
    """A draft whose sizes are gauges and whose lengths are feet."""

    def wire(
        self, a: str, b: str, name: str, gauge: str, feet: float, poles: str = "", **more: Answer
    ) -> None:
        """A cable or single conductors."""
        self.run(a, b, name, poles, size=f"{gauge} AWG", length=f"{feet} ft", **more)

    def lead(
        self, a: str, b: str, name: str, gauge: str, feet: float, poles: str = "", **more: Answer
    ) -> None:
        """A battery lead."""
        self.wire(a, b, name, gauge, feet, poles, **(LEAD | more))

    def cord(self, a: str, b: str, name: str, gauge: str, feet: float, **more: Answer) -> None:
        """A flexible cord."""
        self.wire(a, b, name, gauge, feet, installation="cord", **more)

    def jumper(self, a: str, b: str, name: str, gauge: str, feet: float, poles: str = "") -> None:
        """A bonding jumper."""
        self.wire(a, b, name, gauge, feet, poles, installation="jumper")

    def breaker(self, name: str, host: str, place: str, amps: int, **more: Answer) -> None:
        """A breaker in a place of a board or set."""
        self.part("breaker", name, rating=f"{amps} A", **({"interrupting": "10 kA"} | more))
        self.seat(name, host, place)

    def blade(self, name: str, board: str, place: str, amps: float) -> None:
        """A blade fuse in a place of a low-voltage board."""
        rated = {"rating": f"{amps:g} A", "voltage": "32 V", "interrupting": "1 kA"}
        self.part("fuse", name, type="ato", **rated)
        self.seat(name, board, place)

    def class_t(self, name: str, amps: int) -> None:
        """A class T fuse in a holder."""
        rated = {"rating": f"{amps} A", "voltage": "125 V", "interrupting": "20 kA"}
        self.part("fuse", name, type="class_t", **rated)

    def battery(self, name: str, volts: int, hours: int, chemistry: str, kiloamps: float) -> None:
        """A battery whose data sheet gives its greatest short-circuit current."""
        self.part(
            "battery",
            name,
            voltage=f"{volts} V",
            capacity=f"{hours} Ah",
            chemistry=chemistry,
            fault_current=Band(
                f"{kiloamps / 2:g} kA", f"{0.75 * kiloamps:g} kA", f"{kiloamps:g} kA"
            ),
        )

    def outlet_in(self, name: str, host: str, place: str, pattern: str, **more: Answer) -> None:
        """An outlet on a set, a pedestal, or straight behind a breaker."""
        self.part("outlet", name, configuration=pattern, **more)
        self.seat(name, host, place)

    def plugged(self, name: str, title: str, outlet: str, watts: int, **more: Answer) -> None:
        """A plug-in load in an outlet."""
        answers = {"power": f"{watts} W", "configuration": "5-15"} | more
        self.part("plug_load", name, title, **answers)
        self.seat(name, outlet, "face")

    def shore(
        self, pattern: str, amps: int, gauge: str, feet: float, n: int = 1, **more: Answer
    ) -> None:
        """Pedestal GS, outlet XD9, plug XP and inlet XI of this number, with the cord WS."""
        circuit = {"circuit": str(more["circuit"])} if "circuit" in more else {}
        self.part(
            "supply",
            f"GS{n}",
            "shore",
            breaker=f"{amps} A",
            prospective=Band("500 A", "1.5 kA", "4 kA"),
            **more,
        )
        self.outlet_in(f"XD9{n}", f"GS{n}", "1", pattern, **circuit)
        self.part("plug", f"XP{n}", "shore cord", configuration=pattern, **circuit)
        self.seat(f"XP{n}", f"XD9{n}", "face")
        self.part("inlet", f"XI{n}", "shore inlet", configuration=pattern, **circuit)
        self.cord(f"XP{n}.cord", f"XI{n}.outside", f"WS{n}", gauge, feet)

    def utility(self, main: str = "200 A") -> None:
        """A three-wire service: GS1, board QP1 with main and link, electrode XE1."""
        self.part(
            "supply",
            "GS1",
            "utility",
            breaker=main,
            prospective=Band("1 kA", "2 kA", "4 kA"),
            outlets="0",
            **SPLIT,
        )
        self.part("panel", "QP1", "service board", main=main, bus="200 A", bond="fitted")
        self.rate("QP1", places="20", **SPLIT)
        service = {"material": "aluminium", "terminals": "75"}
        self.wire("GS1.out", "QP1.feed", "WU", "4/0", 60, "L1 L2 N", **service)
        self.part("electrode", "XE1", "service electrodes", resistance="10 ohm")
        self.jumper("QP1.ground", "XE1.ground", "WE1", "4", 10)

    def lock(self, *positions: tuple[str, str, str]) -> None:
        """An interlock between positions of parts."""
        self.design.apply(add_interlock(self.design, list(positions)))

    def roof(
        self, volts: int, amps: int, bar: tuple[str, str], *, series: int = 1, **more: Answer
    ) -> None:
        """Modules GP1, their switch QB9, a controller TC1, its fuse F9, to a plus and a minus."""
        self.part(
            "solar_array",
            "GP1",
            voc="24 V",
            isc="6 A",
            vmp="20 V",
            imp="5.6 A",
            voc_per_degree="-0.3 %",
            series=str(series),
            strings="1",
            coldest="-25 degC",
        )
        marked = {"voltage": "150 V", "direct": "yes", "poles": "all", "rating": "16 A"}
        self.part("isolator", "QB9", circuit="dc", **marked)
        answers = {"type": "mppt", "pv_voltage": "100 V", "pv_current": "20 A"} | more
        self.part(
            "solar_controller", "TC1", current=f"{amps} A", dc_voltage=f"{volts} V", **answers
        )
        self.class_t("F9", int(amps * 1.5))
        self.wire("GP1.dc", "QB9.line", "WR1", "10", 12, insulation="90", ambient="50 degC")
        self.wire("QB9.load", "TC1.pv", "WR2", "10", 3, insulation="90", ambient="50 degC")
        gauge = "10" if amps <= 20 else "8" if amps <= 26 else "6"
        self.wire("TC1.dc", "F9.load", "WR3", gauge, 3, "+")
        self.wire("F9.line", bar[0], "WR4", gauge, 0.5, "+")
        self.wire("TC1.dc", bar[1], "WR5", gauge, 3, "-")
        self.jumper("GP1.frame", "TC1.case", "WR6", "8", 14)
