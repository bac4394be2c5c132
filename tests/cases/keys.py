"""The vocabulary of the real situations, and the findings that say the same.

A key may be said by any of its ids. What no rule says yet stands in ``NO_RULE`` with the reason.
"""

from __future__ import annotations

KEYS: dict[str, tuple[str, ...]] = {
    # bonds
    "NG_BOND_MISSING": ("bond-missing",),
    "NG_BOND_MULTIPLE": ("bond-doubled",),
    "NG_BOND_FORBIDDEN": ("bond-not-accepted",),
    "NEUTRALS_JOINED": ("transfer-poles-wrong", "bond-doubled"),
    "BOOTLEG_EGC": ("neutral-used-as-ground",),
    # ground paths
    "EGC_OPEN": ("ground-open",),
    "EGC_ABSENT_ALLOWED": ("ground-open",),
    "EGC_CARRIES_LOAD": ("ground-carries-load",),
    "FAULT_NOT_CLEARED": ("fault-not-cleared",),
    "FAULT_CURRENT_LOW": ("fault-not-cleared", "fault-slow"),
    "CASE_LIVE": ("metal-live",),
    "CHASSIS_NOT_BONDED": ("chassis-unbonded",),
    "HULL_NOT_BONDED": ("chassis-unbonded",),
    # leakage devices
    "GFCI_TRIPS_NORMAL": ("gfci-trips-in-use",),
    "RCD_INEFFECTIVE": ("ground-fault-device-cannot-act",),
    # sources
    "SOURCES_PARALLEL": ("sources-meet",),
    # without an interlock two sources can meet, or one can feed the other's line
    "NO_INTERLOCK": ("sources-meet", "supply-backfed"),
    "LIVE_PINS": ("pins-live",),
    "SOURCE_OVERLOAD": ("source-overloaded",),
    "NEUTRAL_ABSENT": ("neutral-missing",),
    "VOLTAGE_WRONG": ("voltage-wrong",),
    "POLARITY_REVERSED": ("polarity-reversed",),
    "PLUG_MISMATCH": ("plug-does-not-mate",),
    # currents
    "OCPD_OVER_CONDUCTOR": ("device-above-ampacity",),
    "OCPD_MISSING": ("run-unprotected",),
    "OCPD_POSITION": ("run-unprotected",),
    "OCPD_INTERRUPT_LOW": ("interrupting-too-low",),
    "VDROP_HIGH": ("voltage-drop-high",),
    "VDROP_ADVISORY": ("voltage-drop-high",),
    "VOLTAGE_BELOW_CUTOUT": ("voltage-drop-high",),
}

NO_RULE: dict[str, str] = {
    "EGC_UNDERSIZED": "the size of ground wires is not judged yet (ground-undersized)",
    "EARTH_AS_RETURN": "rod-as-return is not a rule yet; fault-not-cleared tells the consequence",
    "ELECTRODE_MISSING": "electrode-missing is not a rule yet",
    "ELECTRODE_NOT_TIED": "electrode-not-tied is not a rule yet, and no kind is an array",
    "NEUTRAL_OVERLOAD": "neutral-overloaded is not a rule yet; the current is computed",
    "CONDUCTOR_OVERLOAD": "run-overloaded is not a rule yet; the current is computed",
    "START_SURGE": "motor-will-not-start is not a rule yet",
    "OUTLET_UNDER_OCPD": "rating-exceeded is not a rule yet",
    "GFCI_ABSENT": "gfci-missing is not a rule yet",
    "LOAD_LEAKAGE": "a faulty appliance is not drawn; no rule guesses one",
    "NEW_WORK_NEEDS_4_WIRE": "advice on new work, a note of no rule",
}
"""Keys of the situations drawn here that nothing says: a miss where they are expected."""
