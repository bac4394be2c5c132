"""Ground wires, bonding jumpers and electrode conductors (NFPA 70 articles 250, 551, 552)."""

from __future__ import annotations

from fractions import Fraction

from linework.codes.answers import GroundNeed
from linework.codes.errors import not_in_table
from linework.codes.materials import material_of
from linework.codes.na.edition import LATEST, cite, fact
from linework.codes.sizes import size_not_below, size_of, standard_sizes
from linework.codes.stated import stated
from linework.codes.tables import Row, confidence_of, rows
from linework.codes.value import Effect, Sourced, Step, Worked
from linework.data import Confidence
from linework.words import say

VEHICLE_BOND = "8 AWG"
_SMALL_SOURCE_VA = 1000.0
_ROUNDED = Fraction(1, 1000)
"""The areas of table 8 are rounded to ten circular mils or four digits: a proportion of two of them
is no more exact."""


def ground_wire_base(
    device_a: float, material: str = "copper", edition: str = LATEST
) -> Sourced[str]:
    """Equipment grounding conductor of table 250.122 behind a device of ``device_a`` ampere.

    CodesError above 6000 A.
    """
    copper = material_of(material).is_copper
    clause = cite("Table 250.122", edition)
    for row in rows("na/ground_wire_250_122"):
        if device_a <= float(row["device_up_to_A"]):
            column = "cu" if copper else "al"
            where = f"device up to {row['device_up_to_A']} A, {material_of(material).core}"
            mark = confidence_of(row, f"confidence_{column}")
            return Sourced(
                row[f"ground_{column}"], "", clause, where, mark, row["sources"], edition
            )
    raise not_in_table(f"{device_a:g} A", clause, ("6000 A",))


def ground_wire(
    device_a: float,
    circuit_size: str,
    *,
    minimum_size: str | None = None,
    minimum_cool: str | None = None,
    material: str = "copper",
    circuit_material: str = "copper",
    edition: str = LATEST,
) -> GroundNeed:
    """The equipment grounding conductor that a circuit needs, with its steps.

    Table 250.122 by the device; grown in the same proportion of circular mils as the ungrounded
    conductors were grown beyond ``minimum_size``, the thinnest that has the ampacity as laid
    (250.122(B)); by the edition of 2017 beyond ``minimum_cool``, before corrections; never
    above the circuit conductors (250.122(A); only where both are of one metal). CodesError
    above 6000 A and for unknown sizes.
    """
    # 250.122(B) measures growth "from the minimum size that has sufficient ampacity for the
    # intended installation" (2014; 2011 names no measure), in 2017 "before the application of any
    # adjustment or correction factor(s)", since 2020 "other than as required in 310.15(B) or
    # 310.15(C)" (as trade papers quote them: 2017 in a newsletter, 2020 in ecmweb.com 21237262).
    if edition == "2017" and minimum_cool is not None:
        minimum_size = minimum_cool
    base = ground_wire_base(device_a, material, edition)
    used = size_of(circuit_size).cmil
    steps = [_step(say("Table by device"), "start", base, size_of(base.value).cmil)]
    need = size_of(base.value).cmil
    grown = used / size_of(minimum_size).cmil if minimum_size is not None else Fraction(1)
    if grown > 1:
        need = _as_made(need * grown)
        where = f"{circuit_size} in place of {minimum_size}: x {float(grown):.4g}"
        rule = fact("G11", edition).became(f"{float(need):.0f} cmil", "", where, Confidence.MEMORY)
        steps.append(_step(say("Grown with the circuit"), "times", rule, need))
    same = material_of(material).core is material_of(circuit_material).core
    if same and need > used:
        need = used
        rule = fact("G10", edition).became(
            circuit_size, "", f"circuit of {circuit_size}", Confidence.PUBLISHED
        )
        steps.append(_step(say("Not above the circuit conductors"), "at most", rule, need))
    return _need(need, steps)


def _as_made(cmil: Fraction) -> Fraction:
    """The area of a size that is less by no more than the rounding of the areas in table 8."""
    areas = (size_of(text).cmil for text in standard_sizes())
    return max((area for area in areas if area < cmil < area * (1 + _ROUNDED)), default=cmil)


def _step(what: str, effect: Effect, figure: Sourced[str], cmil: Fraction) -> Step:
    return Step(what, effect, figure, float(cmil), decides=True)


def _need(cmil: Fraction, steps: list[Step]) -> GroundNeed:
    return GroundNeed(cmil, Worked(size_not_below(cmil), "", tuple(steps)))


def vehicle_bond(edition: str = LATEST) -> Sourced[str]:
    """Least copper bonding conductor of a recreational vehicle's metal (551.56(C)): 8 AWG."""
    return fact("M32", edition).became(
        VEHICLE_BOND, "", "bonding conductor, copper", Confidence.AGREED
    )


def battery_bond(battery_lead: str | None, edition: str = LATEST) -> GroundNeed:
    """Least copper conductor from the battery's chassis post to the chassis, with its steps.

    8 AWG, and not below the ungrounded battery lead (552.10(C)(4)); without a known lead 8 AWG.
    """
    rule = fact("M18", edition)
    start = rule.became(VEHICLE_BOND, "", "copper", Confidence.PUBLISHED)
    need = size_of(VEHICLE_BOND).cmil
    steps = [_step(say("Vehicle bond"), "start", start, need)]
    if battery_lead is not None and size_of(battery_lead).cmil > need:
        need = size_of(battery_lead).cmil
        lead = rule.became(
            battery_lead, "", f"battery lead of {battery_lead}", Confidence.PUBLISHED
        )
        steps.append(_step(say("Not below the battery lead"), "at least", lead, need))
    return _need(need, steps)


def case_bond_afloat(plus: str) -> GroundNeed:
    """Least copper ground wire from a part of direct current to the common ground of a boat, with
    its steps: one size under the thickest plus wire of the part, 16 AWG at least (ABYC E-11)."""
    rule, least = stated("na", "case_bond_afloat"), stated("na", "case_bond_afloat_least")
    thinner = [text for text in standard_sizes() if size_of(text).cmil < size_of(plus).cmil]
    under = thinner[-int(rule.value)] if thinner else plus
    start = rule.became(under, "", f"one size under a plus of {plus}", rule.confidence)
    steps = [_step(say("One size under the plus"), "start", start, size_of(under).cmil)]
    need, floor = size_of(under).cmil, f"{least.value:g} AWG"
    if size_of(floor).cmil > need:
        need = size_of(floor).cmil
        at_least = least.became(floor, "", "case ground afloat", least.confidence)
        steps.append(_step(say("Least case ground"), "at least", at_least, need))
    return _need(need, steps)


def bonding_jumper(
    largest_ungrounded: str,
    material: str = "copper",
    *,
    jumper_material: str = "copper",
    source_va: float | None = None,
    edition: str = LATEST,
) -> GroundNeed:
    """System or main bonding jumper by the largest ungrounded conductor (250.102(C)(1)).

    Above the last row 12.5 % of its area. A source of at most 1000 VA needs no more than its own
    conductors, 14 AWG at least (250.30(A)(1) exception, from memory).
    """
    if source_va is not None and source_va <= _SMALL_SOURCE_VA:
        return _small_source_jumper(largest_ungrounded, edition)
    row = _by_conductor("na/bonding_jumper_250_102_C_1", largest_ungrounded, material)
    clause = cite("Table 250.102(C)(1)", edition)
    column = "cu" if material_of(jumper_material).is_copper else "al"
    need = (
        Fraction(row["share_of_area"]) * size_of(largest_ungrounded).cmil
        if row["share_of_area"]
        else size_of(row[f"size_{column}"]).cmil
    )
    where = f"ungrounded conductor {row['largest_ungrounded_cu']} copper or " + (
        f"{row['largest_ungrounded_al']} aluminum"
    )
    size = size_not_below(need)
    figure = Sourced(size, "", clause, where, confidence_of(row), row["sources"], edition)
    return _need(need, [_step(say("Table by conductor"), "start", figure, need)])


def _small_source_jumper(conductor: str, edition: str) -> GroundNeed:
    need = max(size_of(conductor).cmil, size_of("14 AWG").cmil)
    rule = fact("M42", edition)
    figure = rule.became(size_not_below(need), "", "source of at most 1000 VA", Confidence.MEMORY)
    return _need(need, [_step(say("Small source"), "start", figure, need)])


def electrode_conductor(
    largest_ungrounded: str,
    material: str = "copper",
    *,
    own_material: str = "copper",
    to_rod: bool = False,
    edition: str = LATEST,
) -> Sourced[str]:
    """Grounding electrode conductor by the largest ungrounded conductor (table 250.66).

    ``to_rod``: to a rod alone it need not be above 6 AWG copper (250.66(A), from memory).
    """
    row = _by_conductor("na/electrode_conductor_250_66", largest_ungrounded, material)
    column = "cu" if material_of(own_material).is_copper else "al"
    size = row[f"size_{column}"]
    if to_rod and column == "cu" and size_of(size).cmil > size_of("6 AWG").cmil:
        where, clause = "to a rod alone: 6 AWG copper", cite("250.66(A)", edition)
        return Sourced("6 AWG", "", clause, where, Confidence.MEMORY, "from memory", edition)
    where = f"ungrounded conductor {row[f'largest_ungrounded_{_column(material)}']}"
    clause = cite("Table 250.66", edition)
    return Sourced(size, "", clause, where, confidence_of(row), row["sources"], edition)


def _column(material: str) -> str:
    return "cu" if material_of(material).is_copper else "al"


def _by_conductor(table: str, size: str, material: str) -> Row:
    """The row of a table stepped by the largest ungrounded conductor; its last row has no end."""
    column = f"{_column(material)}_up_to"
    area = size_of(size).cmil
    for row in rows(table):
        if not row[column] or area <= size_of(row[column]).cmil:
            return row
    raise AssertionError(f"table {table} has no last row")
