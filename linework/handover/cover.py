"""The cover: what this is, what was judged with what result, what to mind, who answers for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from linework.design import PlaceKind
from linework.design.names import natural
from linework.findings.model import Level
from linework.handover.assumed_pages import in_a_row
from linework.handover.content import Content
from linework.handover.sheets import USUAL, Band, Room, Sheet
from linework.handover.standing_in import assumed_of
from linework.handover.styles import BETWEEN, Cell, beside, blanks, bullet, share, table, text
from linework.kinds import Kind
from linework.wiring import SourceGroup
from linework.words import N_, say_count

_WORK_DEAD = N_(
    "Work dead: switch off, unplug, stop every source, and prove that no voltage is left."
)

CAUTIONS: tuple[tuple[Callable[[Kind], bool], str], ...] = (
    (
        lambda kind: kind.source.off_site,
        N_("What comes from outside stays live up to the first switch here that is open."),
    ),
    (
        lambda kind: kind.source.stores,
        N_("A battery cannot be switched off at its posts: insulate tools, cover the other post."),
    ),
    (
        lambda kind: kind.source.stores,
        N_("Batteries: their place, ventilation and temperature while they charge matter."),
    ),
    (
        lambda kind: kind.source.solar,
        N_("Solar modules are live in any light, also with everything switched off."),
    ),
    (
        lambda kind: kind.source.driven,
        N_(
            "Carbon monoxide kills without smell: no engine in or under a room or vehicle in which"
            " people are; fit an alarm where people sleep."
        ),
    ),
    (
        lambda kind: kind.source in (SourceGroup.INVERTER, SourceGroup.CHARGER),
        N_("Capacitors in inverters and chargers hold a charge after everything is off."),
    ),
    (
        lambda kind: kind.changes_over,
        N_("A source can take over by itself: lock every source out, not only the one in use."),
    ),
)
"""Each with the kinds of part in whose designs it is printed."""

INSPECT = (
    N_("working space before panels; doors and covers that open fully"),
    N_("alarms for smoke, gas and carbon monoxide where people sleep"),
    N_("cords: no damage, not under carpets, not through doors, fully unrolled under load"),
    N_("glands and bushings where cables pass through metal; cables held within reach of a box"),
    N_("terminals tightened to the makers' torque; one conductor under a screw"),
)

_PLACES = {
    PlaceKind.RECREATIONAL: N_("recreational vehicle"),
    PlaceKind.VEHICLE: N_("vehicle or trailer"),
    PlaceKind.BOAT: N_("boat"),
    PlaceKind.BUILDING: N_("building"),
    PlaceKind.FIELD: N_("field station"),
}


_SIGNERS = (N_("designed by"), N_("installed by"), N_("tested by"), N_("inspected by"))


def cover(content: Content, room: Room) -> list[Band]:
    """The bands of the cover."""
    say, usual = content.say, room.columns(USUAL)
    head = [
        text(content.design.settings.job or say("Power system"), "title", anchor="cover"),
        text(_summary(content)),
        text(verdict(content), "heading"),
        text(" ".join(filter(None, (_counts(content), _basis(content))))),
    ]
    left, right = share(room.column(usual).width - BETWEEN, [1, 1.5])
    first = [*_open(content), *_cautions(content)]
    behind = _contents(content, right, say("Annex"), annex=True)
    lists = [
        _contents(content, left, say("Sheets"), annex=False),
        [*_signatures(content, right), *behind],
    ]
    below = [*first, Spacer(1, 2 * mm), beside(lists, [left + BETWEEN, right])]
    return [Band(usual, below, head=head)]


def _summary(content: Content) -> str:
    design = content.design
    kinds: dict[str, list[str]] = {}
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        if design.kind(part).source is not SourceGroup.NONE:
            kinds.setdefault(content.say(design.kind(part).name), []).append(part.designation)
    parts = "; ".join(f"{name} {in_a_row(found)}" for name, found in kinds.items())
    parts = parts[:1].upper() + parts[1:]
    site = f"{design.settings.site}. " if design.settings.site else ""
    return site + content.say(
        "{parts}. {count} parts, {runs} runs.",
        parts=parts or content.say("No source drawn"),
        count=len(design.parts),
        runs=len(design.runs),
    )


def verdict(content: Content) -> str:
    """What was found, in one sentence; never that it is safe."""
    analysis, say = content.analysis, content.say
    if not analysis.silent:
        return say("Open findings: do not build or energise before they are settled.")
    if not analysis.sound:
        return say("No danger or warning is open, but not everything could be checked.")
    if analysis.noted:
        return say("No danger and no warning under the values assumed; read what is noted.")
    if content.told:
        return say("Nothing found under the values assumed but what is always to be minded.")
    return say("Nothing found under the values assumed.")


def _basis(content: Content) -> str:
    """What the verdict rests on."""
    analysis, say = content.analysis, content.say
    counts = [
        say(
            "{count} states that differ of {total} combinations of switches",
            count=len(content.states_at_rest),
            total=analysis.combinations,
        ),
        *_passing(content),
        say("{count} values assumed", count=len(assumed_of(content))),
        say("{count} things not checked", count=len(analysis.gaps)),
    ]
    accepted = sum(not finding.open for finding in analysis.findings)
    if accepted:
        counts.append(say("{count} findings accepted with a reason", count=accepted))
    return say(
        "Judged by {edition}, place: {place}; {counts}. Local codes and a licensed electrician"
        " decide; this set is a design aid and grants nothing.",
        edition=content.edition,
        place=say(_PLACES[content.design.settings.kind_of_place]),
        counts=", ".join(counts),
    )


def _passing(content: Content) -> list[str]:
    """The moments in which a switch changes over by itself, if there are any."""
    moments = len(content.analysis.states()) - len(content.states_at_rest)
    told = say_count(
        "{count} moment in which a switch changes over",
        "{count} moments in which a switch changes over",
        moments,
    )
    return [told] if moments else []


def _counts(content: Content) -> str:
    """How many findings are open, and where they stand."""
    say = content.say
    opened = [finding for finding in content.told if finding.open]
    number = {level: sum(finding.level is level for finding in opened) for level in Level}
    counts = (
        say_count("{count} danger", "{count} dangers", number[Level.DANGER]),
        say_count("{count} warning", "{count} warnings", number[Level.WARNING]),
        say_count("{count} note", "{count} notes", number[Level.NOTE]),
    )
    told = ", ".join(each for each, n in zip(counts, _GRAVEST_FIRST, strict=True) if number[n])
    sheet = content.sheet_number("findings")
    return told and say("Findings, sheet {n}: {counts}.", n=sheet, counts=told)


_GRAVEST_FIRST = (Level.DANGER, Level.WARNING, Level.NOTE)

_FEW = 4
"""No more findings stand on the cover itself."""


def _open(content: Content) -> list[Flowable]:
    """The open dangers and warnings, a line each, unless they themselves stand here."""
    found = content.analysis.open_findings
    if not found or (len(found) <= _FEW and content.pages.get("findings") == 1):
        return []
    lines = [
        text(
            f"{f.number}  {f.level.told}: {in_a_row(f.where)}: {f.title}",
            link=f"finding-{f.number}" if "findings" in content.pages else "",
        )
        for f in found
    ]
    return [text(content.say("Open findings"), "heading"), *lines]


def _cautions(content: Content) -> Iterator[Flowable]:
    """Those of this design, and what else to look at."""
    say = content.say
    kinds = [content.design.kind(part) for part in content.design.parts]
    yield text(say("Cautions"), "heading")
    yield bullet(say(_WORK_DEAD))
    for concerns, line in CAUTIONS:
        if any(map(concerns, kinds)):
            yield bullet(say(line))
    yield text(say("Look also at what no line diagram shows"), "heading")
    for line in INSPECT:
        yield bullet(say(line))


def _contents(content: Content, width: float, head: str, annex: bool) -> list[Flowable]:
    """The list of sheets, or that of the annex, by their pages."""
    say = content.say
    rows: list[list[Cell]] = []
    for key, page in sorted(content.pages.items(), key=lambda item: item[1]):
        if key in content.titles and (key in content.annex) == annex:
            title = say(content.titles[key])
            rows.append([str(page), text(title, "cell", link=f"section-{key}")])
    if not rows:
        return []
    made = table(["", ""], rows, width, right=(0,), headed=False)
    made.setStyle([("TOPPADDING", *_ALL, 0.1 * mm), ("BOTTOMPADDING", *_ALL, 0.4 * mm)])
    return [text(head, "heading"), made]


_ALL = (0, 0), (-1, -1)


def _signatures(content: Content, width: float) -> list[Flowable]:
    """Fields for those who answer for it."""
    say = content.say
    heads = [say("who"), say("name and licence"), say("date"), say("signature")]
    return [
        text(say("Signatures"), "heading"),
        blanks(heads, [say(who) for who in _SIGNERS], share(width, [1.1, 1.7, 0.8, 1.4])),
    ]


COVER = Sheet("cover", N_("Cover"), N_("cover"), cover)
