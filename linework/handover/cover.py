"""The cover: what this is, what it is not, what to mind, what is open."""

from __future__ import annotations

from reportlab.platypus import Flowable, Spacer

from linework.design import PlaceKind
from linework.design.names import natural
from linework.findings.model import Level
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import beside, flowing, share, table, text
from linework.wiring import SourceGroup
from linework.words import N_

CAUTIONS = (
    N_("Work dead: switch off, unplug, stop every source, and prove that no voltage is left."),
    N_("A battery cannot be switched off at its posts: insulate tools, cover the other post."),
    N_(
        "Carbon monoxide kills without smell: no engine in or under a room or vehicle in which"
        " people are; fit an alarm where people sleep."
    ),
    N_("Capacitors in inverters and chargers hold a charge after everything is off."),
    N_("Lithium and lead batteries: their place, ventilation and charge temperature matter."),
    N_("A generator or inverter can start by itself. Lock it out before touching its circuits."),
)

INSPECT = (
    N_("working space before panels; doors and covers that open fully"),
    N_("alarms for smoke, gas and carbon monoxide where people sleep"),
    N_("cords: no damage, not under carpets, not through doors, fully unrolled under load"),
    N_("glands and bushings where cables pass through metal; cables held within reach of a box"),
    N_("terminals tightened to the makers' torque; one conductor under a screw"),
)


def cover(content: Content, room: Room) -> list[Flowable]:
    """The flowables of the cover."""
    settings, analysis = content.design.settings, content.analysis
    width = room.width
    say = content.say
    return [
        text(settings.job or say("Power system"), "title", anchor="cover"),
        text(_summary(content)),
        text(
            say(
                "Judged by {edition}, place: {place}. Local codes and a licensed electrician"
                " decide; this set is a design aid and grants nothing.",
                edition=content.edition,
                place=say(_PLACES[settings.kind_of_place]),
            )
        ),
        text(_verdict(content), "heading"),
        *_counts(content, width),
        *_open(content),
        Spacer(1, 8),
        _side_by_side(content, width),
        Spacer(1, 4),
        text(
            say(
                "Danger, warning and note are this program's own levels: danger can hurt or burn,"
                " warning does not comply or will not work, note is worth knowing. On placards"
                " the signal words have meanings of their own. Values in [brackets] were assumed."
            ),
            "small",
        ),
        *_not_checked(content, len(analysis.gaps)),
    ]


def _side_by_side(content: Content, width: float) -> Flowable:
    """The cautions, and what else to look at."""
    say = content.say
    lists = [
        [text(say(head), "heading"), *(text("•  " + say(line)) for line in lines)]
        for head, lines in (
            (N_("Cautions"), CAUTIONS),
            (N_("Look also at what no line diagram shows"), INSPECT),
        )
    ]
    return beside(lists, share(width, [1, 1]))


def _open(content: Content) -> list[Flowable]:
    """The open dangers and warnings, a line each, with links; many of them in two columns."""
    lines = [
        text(
            f"{f.number}  {f.level.told}: {', '.join(f.where)}: {f.title}",
            link=f"finding-{f.number}",
        )
        for f in content.analysis.open_findings
    ]
    if not lines:
        return []
    heading = text(content.say("Open findings"), "heading")
    return [heading, *flowing(lines, 1 if len(lines) <= _ONE_COLUMN else 2)]


_ONE_COLUMN = 8
"""So many open findings stand in one column."""

_PLACES = {
    PlaceKind.RECREATIONAL: N_("recreational vehicle"),
    PlaceKind.VEHICLE: N_("vehicle or trailer"),
    PlaceKind.BOAT: N_("boat"),
    PlaceKind.BUILDING: N_("building"),
    PlaceKind.FIELD: N_("field station"),
}


def _summary(content: Content) -> str:
    design = content.design
    kinds: dict[str, list[str]] = {}
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        if design.kind(part).source is not SourceGroup.NONE:
            kinds.setdefault(content.say(design.kind(part).name), []).append(part.designation)
    parts = "; ".join(f"{name} {', '.join(found)}" for name, found in kinds.items())
    site = f"{design.settings.site}. " if design.settings.site else ""
    return site + content.say(
        "{parts}. {count} parts, {runs} runs.",
        parts=parts or content.say("No source drawn"),
        count=len(design.parts),
        runs=len(design.runs),
    )


def _verdict(content: Content) -> str:
    analysis = content.analysis
    if analysis.sound and analysis.noted:
        return content.say(
            "No danger and no warning under the values assumed, {edition}; read what is noted.",
            edition=content.edition,
        )
    if analysis.sound:
        return content.say(
            "Nothing found under the values assumed, {edition}.", edition=content.edition
        )
    if analysis.silent:
        return content.say("No danger or warning is open, but not everything could be checked.")
    return content.say("Open findings: do not build or energise before they are settled.")


def _counts(content: Content, width: float) -> list[Flowable]:
    say, analysis = content.say, content.analysis
    open_ones = [f for f in analysis.findings if f.open]

    def count(level: Level) -> str:
        return str(sum(f.level is level for f in open_ones))

    rows: list[list] = [  # type: ignore[type-arg]
        [text(say("danger"), "cell", link="findings"), count(Level.DANGER)],
        [text(say("warning"), "cell", link="findings"), count(Level.WARNING)],
        [text(say("note"), "cell", link="findings"), count(Level.NOTE)],
        [say("accepted with a reason"), str(len(analysis.findings) - len(open_ones))],
        [
            text(say("not checked"), "cell", link="gaps" if analysis.gaps else ""),
            str(len(analysis.gaps)),
        ],
        [text(say("values assumed"), "cell", link="assumed"), str(len(analysis.assumed))],
        [
            text(say("rest on unconfirmed values"), "cell", link="unconfirmed"),
            str(len(analysis.unconfirmed)),
        ],
        [say("combinations of switch positions"), str(analysis.combinations)],
        [
            text(say("states that differ electrically"), "cell", link="states"),
            str(len(analysis.states())),
        ],
    ]
    return [table([say("what"), say("how many")], rows, width * 0.4, fill=False)]


def _not_checked(content: Content, count: int) -> list[Flowable]:
    if not count:
        return []
    return [
        text(content.say("Not checked"), "heading", anchor="gaps"),
        *(
            text(
                "•  "
                + (", ".join(gap.where) + ": " if gap.where else "")
                + gap.reason
                + f" [{gap.rule}]"
            )
            for gap in content.analysis.gaps
        ),
    ]


COVER = Sheet("cover", N_("Cover"), N_("cover"), cover)
