"""What the forms of the drawing have in common: which of its sheets, and what they are called."""

from __future__ import annotations

from collections.abc import Callable

from linework.design import Part, Run
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.document import HandoverError
from linework.handover.formats.asked import chosen
from linework.handover.one_line import DrawnSheet, drawn_sheets


def each_sheet(
    content: Content, asked: tuple[str, ...], write: Callable[[DrawnSheet], bytes]
) -> dict[str, bytes]:
    """A file for each sheet of the diagram that is asked for, by its number."""
    sheets = drawn_sheets(content)
    known = {"diagram": tuple(sheet.number for sheet in sheets)}
    known |= {str(sheet.number): (sheet.number,) for sheet in sheets}
    known |= {f"diagram-{sheet.number}": (sheet.number,) for sheet in sheets}
    wanted = chosen(asked, known)
    taken = [sheet for sheet in sheets if sheet.number in wanted]
    _check_whole(content, taken)
    return {str(sheet.number): write(sheet) for sheet in taken}


def _check_whole(content: Content, sheets: list[DrawnSheet]) -> None:
    """A drawing in which a part is missing or nameless is worse than none."""
    for sheet in sheets:
        names = sorted(map(content.name, sheet.composition.outside), key=natural)
        if names:
            raise HandoverError(
                content.say(
                    "nothing was written: on sheet {number} these parts do not lie inside the"
                    " frame of the paper {paper}: {names}. Move them inside, or choose a larger"
                    " paper or another sheet for them in the design.",
                    number=sheet.number,
                    paper=sheet.composition.frame.paper,
                    names=", ".join(names),
                )
            )


def title_of(content: Content, drawn: DrawnSheet) -> str:
    """What a sheet shows: the job and the sheet's number."""
    job = content.design.settings.job or content.say("One-line diagram")
    return content.say("{job}, sheet {number}", job=job, number=drawn.number)


def names_of(content: Content) -> dict[str, tuple[str, str]]:
    """Tag -> name and title of every part and run."""
    found = {}
    for element in content.design.elements.values():
        if isinstance(element, Part):
            found[element.id] = (element.designation, content.full_name(element.id))
        elif isinstance(element, Run):
            found[element.id] = (content.name(element.id), content.name(element.id))
    return found
