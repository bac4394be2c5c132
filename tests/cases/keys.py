"""The vocabulary of the real situations, and the findings that say the same.

A key may be said by any of its ids. What no finding says stands in ``NO_RULE`` with the reason.
"""

from __future__ import annotations

KEYS: dict[str, tuple[str, ...]] = {
    # bonds
    "NG_BOND_MISSING": ("bond-missing",),
    "NG_BOND_MULTIPLE": ("bond-doubled",),
    "NG_BOND_FORBIDDEN": ("bond-not-accepted",),
    "NEUTRALS_JOINED": ("transfer-poles-wrong", "bond-doubled"),
    "BOOTLEG_EGC": ("neutral-used-as-ground",),
    # a set that floats: for what is plugged into it
    "SEPARATED_SOURCE_LIMIT": ("bond-missing",),
    # ground paths
    "EGC_OPEN": ("ground-open", "ground-switched"),
    "EGC_ABSENT_ALLOWED": ("ground-open",),
    "EGC_UNDERSIZED": ("ground-undersized",),
    "EGC_CARRIES_LOAD": ("ground-carries-load",),
    "EARTH_AS_RETURN": ("rod-as-return",),
    "FAULT_NOT_CLEARED": ("fault-not-cleared",),
    "FAULT_CURRENT_LOW": ("fault-not-cleared", "fault-slow"),
    "CASE_LIVE": ("metal-live",),
    "CHASSIS_NOT_BONDED": ("chassis-unbonded",),
    "HULL_NOT_BONDED": ("chassis-unbonded",),
    "AC_DC_TIE_MISSING": ("dc-ac-tie-missing",),
    "CHASSIS_TO_DC_NEGATIVE": ("negative-bond-wrong",),
    "ELECTRODE_MISSING": ("electrode-missing",),
    "ELECTRODE_NOT_TIED": ("electrode-not-tied",),
    "ISOLATOR_BYPASSED": ("isolator-bypassed",),
    "NEW_WORK_NEEDS_4_WIRE": ("link-on-feeder",),
    # leakage devices
    "GFCI_TRIPS_NORMAL": ("gfci-trips-in-use",),
    "GFCI_ABSENT": ("gfci-missing",),
    "RCD_ABSENT": ("gfci-missing",),
    "RCD_INEFFECTIVE": ("ground-fault-device-cannot-act",),
    # sources
    "SOURCES_PARALLEL": ("sources-meet",),
    # without an interlock two sources can meet, or one can feed the other's line
    "NO_INTERLOCK": ("sources-meet", "supply-backfed"),
    "LIVE_PINS": ("pins-live",),
    "SOURCE_OVERLOAD": ("source-overloaded",),
    "START_SURGE": ("motor-will-not-start",),
    "CHARGER_LOOP": ("charger-loop",),
    "NEUTRAL_ABSENT": ("neutral-missing",),
    "OPEN_NEUTRAL": ("neutral-missing", "voltage-wrong", "neutral-lost-danger"),
    "VOLTAGE_WRONG": ("voltage-wrong",),
    "POLARITY_REVERSED": ("polarity-reversed",),
    "PLUG_MISMATCH": ("plug-does-not-mate",),
    # currents
    "OCPD_OVER_CONDUCTOR": ("device-above-ampacity",),
    "OCPD_MISSING": ("run-unprotected",),
    "OCPD_POSITION": ("run-unprotected",),
    "OCPD_INTERRUPT_LOW": ("interrupting-too-low",),
    "OCPD_VOLTAGE_LOW": ("device-wrong-voltage",),
    "OCPD_IN_NEUTRAL": ("device-in-grounded-conductor",),
    "OUTLET_UNDER_OCPD": ("rating-exceeded",),
    "NEUTRAL_OVERLOAD": ("neutral-overloaded",),
    "COMMON_TRIP_MISSING": ("handle-not-common",),
    "CONTINUOUS_OVERLOAD": ("long-load-above-supply", "device-below-load"),
    "CONDUCTOR_OVERLOAD": ("run-overloaded", "neutral-overloaded"),
    "CONDUCTOR_UNDERSIZED": ("device-above-ampacity", "run-overloaded"),
    # as much heat as a coil does not shed; how a cord lies is not drawn
    "CORD_HEAT": ("rating-exceeded",),
    "CORD_OVERLOAD": ("rating-exceeded", "run-overloaded", "device-above-ampacity"),
    "VDROP_HIGH": ("voltage-drop-high", "motor-will-not-start"),
    "VDROP_ADVISORY": ("voltage-drop-high",),
    "VOLTAGE_BELOW_CUTOUT": ("voltage-drop-high", "motor-will-not-start"),
    "TWO_SOURCES_ONE_BOX": ("sources-share-box",),
    # solar
    "PV_VOC_HIGH": ("string-voltage-high",),
    "PV_STRING_FUSE": ("string-unfused",),
}

NO_RULE: dict[str, str] = {
    "CURRENT_IN_WATER": "hull-current is not a rule yet; the current by the water is computed",
    "LOAD_LEAKAGE": "a faulty appliance is not drawn; no rule guesses one",
    "FUSE_OPTIONAL": "told under what is sound and why, not as a finding",
    "DEDICATED_USE": "told under what is sound and why, not as a finding",
    "HEADROOM_SMALL": "advice, a note of no rule",
    "INTERLOCK_LISTING": "whether an interlock is listed for its board is not drawn",
    "MAKER_SIZE": "what a maker advises is not drawn",
}
"""Keys of the situations drawn here that nothing says: a miss where they are expected."""

_CONDUCTORS = frozenset(
    {"run-unprotected", "device-above-ampacity", "interrupting-too-low", "device-wrong-voltage"}
)

SCOPES: dict[str, frozenset[str]] = {
    "overcurrent": _CONDUCTORS
    | {"device-in-grounded-conductor", "rating-exceeded", "handle-not-common"}
    | {"device-below-load", "long-load-above-supply", "run-overloaded", "neutral-overloaded"},
    "dc": _CONDUCTORS | {"negative-bond-wrong", "hull-as-return"},
    "energy": frozenset({"charger-loop"}),
    "sources": frozenset(
        {"sources-meet", "supply-backfed", "pins-live", "transfer-poles-wrong", "voltage-wrong"}
        | {"source-overloaded", "charger-loop", "neutral-missing", "bond-not-accepted"}
        | {"outlets-share-source", "load-never-fed", "motor-will-not-start", "sources-share-box"}
        | {"plug-does-not-mate"}
    ),
    "bonding": frozenset(
        {"bond-missing", "bond-doubled", "bond-at-wrong-place", "bond-not-accepted"}
        | {"neutral-used-as-ground", "ground-carries-load", "transfer-poles-wrong"}
        | {"negative-bond-wrong", "dc-ac-tie-missing", "polarity-reversed"}
    ),
    "pv": frozenset(
        {"string-voltage-high", "string-unfused", "controller-overcurrent", "array-uncontrolled"}
    ),
    "voltage-drop": frozenset({"voltage-drop-high", "motor-will-not-start"}),
    "gfci": frozenset({"gfci-missing", "gfci-trips-in-use", "ground-fault-device-cannot-act"}),
}
"""Rules that count in situations which ask only about one family."""


def why_unsaid(key: str) -> str:
    """Why nothing says a key; empty where some rule does."""
    return NO_RULE.get(key, "")
