"""A plug that does not enter the outlet drawn with it.

What is checked
    The configuration of each plug, plug-in load, adapter and cord set against
    every outlet, or outlet end of these, that it is drawn into; and of each cord
    to an inlet, whether both of its ends are of one configuration.
Why it matters
    On the day somebody makes it fit: by force, with a cut pin, or with an
    adapter that carries another voltage.
How to cure it
    One of the outlets named, or a listed adapter drawn as a part.
Limits
    Only configurations in the tables are known; another one is "not checked". A
    cord of unlike ends can be bought or made, which is a note; whether its
    smaller end is protected is told by rating-exceeded.
Sources
    ANSI/NEMA WD 6; NFPA 70 (2023) 406.4; IEC 60309.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration, mates, outlets_for
from linework.design import Run, Seat
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.wiring import Terminal, is_dc
from linework.words import N_

MESSAGE = N_(
    "The {plug} plug of {what} does not enter the {outlet} contacts of {where} ({why}). It enters:"
    " {fits}."
)

UNLIKE = N_(
    "{cord} has a {plug} plug at one end and must have a {inlet} connector for {where} at the"
    " other. Cords are sold with like ends: see that you get this one made and marked so, or fit"
    " an inlet for {plug}."
)

OTHER = N_("{where}: a {name} has contacts for {contacts}; this circuit carries {poles}.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each plug and outlet that do not fit."""
    for seat in view.design.seats:
        offered = _offered(view, seat)
        if offered and "configuration" in view.kind(seat.part).declared:
            yield from _seat(view, seat, offered)
    for run in view.design.runs:
        yield from _cord(view, run)
    for part in view.design.parts:
        declared, values = view.kind(part.id).declared, view.values(part.id)
        terminals = view.kind(part.id).terminals(values)
        if "configuration" in declared:
            yield from _contacts(view, part.id, values.text("configuration"), terminals[0])
        if "connector" in declared and values.has("connector"):
            yield from _contacts(view, part.id, values.text("connector"), terminals[-1])


def _offered(view: View, seat: Seat) -> str:
    """The configuration of the face that a seat is in, empty where it is none."""
    places = view.kind(seat.host).places(view.values(seat.host))
    return next((p.configuration for p in places if p.name == seat.place), "")


def _cord(view: View, run: Run) -> Iterator[Hit]:
    """A cord whose ends are not alike."""
    ends = sorted((run.a.part, run.b.part), key=lambda part: view.kind(part).lets_in)
    plain = view.kind(ends[0]).plugs and "connector" not in view.kind(ends[0]).declared
    if not (plain and view.kind(ends[1]).lets_in):
        return
    plug, inlet = (view.values(part).text("configuration") for part in ends)
    if plug != inlet:
        yield Hit(
            Level.NOTE,
            (run.id, *ends),
            UNLIKE,
            {"cord": view.name(run.id), "where": view.name(ends[1]), "plug": plug, "inlet": inlet},
            (Evidence(N_("plug and inlet"), None, "text", f"{plug} / {inlet}"),),
        )


def _contacts(view: View, part_id: str, name: str, terminal: Terminal) -> Iterator[Outcome]:
    """A configuration whose contacts are not those of the circuit it is drawn in; of the other kind
    of current it is told by same-outlet-two-systems."""
    poles = {str(p) for p in terminal.poles}
    try:
        made = configuration(name).contacts
    except CodesError as fault:
        yield NotChecked(N_("{fault}"), {"fault": fault}, (part_id,))
        return
    contacts = {str(p) for p in made}
    other_current = any(map(is_dc, made)) != any(map(is_dc, terminal.poles))
    if contacts - {"PE"} != poles - {"PE"} and not other_current:
        yield Hit(
            Level.WARNING,
            (part_id,),
            OTHER,
            {
                "where": view.name(part_id),
                "name": name,
                "contacts": ", ".join(sorted(contacts)),
                "poles": ", ".join(sorted(poles)),
            },
            (Evidence(N_("configuration"), None, "text", name),),
        )


def _seat(view: View, seat: Seat, outlet: str) -> Iterator[Outcome]:
    plug = view.values(seat.part).text("configuration")
    try:
        mating = mates(plug, outlet)
        fits = ", ".join(outlets_for(plug))
    except CodesError as fault:
        yield NotChecked(N_("{fault}"), {"fault": fault}, (seat.part, seat.host))
        return
    if mating.fits:
        return
    yield Hit(
        Level.WARNING,
        (seat.part, seat.host),
        MESSAGE,
        {
            "what": view.name(seat.part),
            "where": view.name(seat.host),
            "plug": plug,
            "outlet": outlet,
            "why": mating.note or mating.fit.value,
            "fits": fits,
        },
        (Evidence(N_("plug and outlet"), None, "text", f"{mating.plug} / {mating.outlet}"),),
    )


RULE = Rule(
    "plug-does-not-mate",
    N_("Plug does not enter the outlet"),
    check,
    {"NA": "406.4, ANSI/NEMA WD 6", "INT": "IEC 60309"},
)
