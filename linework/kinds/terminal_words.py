"""What people call a terminal whose name is more than "in" or "load"."""

from __future__ import annotations

from linework.words import N_

TERMINAL_WORDS = {
    "ac_in": N_("AC in"),
    "ac_out": N_("AC out"),
    "battery1": N_("battery 1"),
    "battery2": N_("battery 2"),
    "dc": N_("DC"),
    "dc_in": N_("DC in"),
    "dc_out": N_("DC out"),
    "pv": N_("solar"),
    "set1": N_("set 1"),
    "set2": N_("set 2"),
    "boat": N_("boat side"),
    "bus": N_("bus"),
    "case": N_("case"),
    "frame": N_("frame"),
    "ground": N_("{ground}"),
    "inside": N_("inside"),
    "onward": N_("onward"),
    "outside": N_("outside"),
    "primary": N_("primary"),
    "secondary": N_("secondary"),
    "shore": N_("shore side"),
}
"""By the name of the terminal; what feeds or leads on needs no word."""
