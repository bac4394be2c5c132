"""A person who draws a given design from nothing, in a real window, by pointer and keys.

The design is read only to know what to draw; everything is done as :class:`Person` does it.
"""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QDialog, QMenu

from linework.bench.card.wires import wires_text
from linework.bench.file.jobform import JobForm
from linework.bench.paper.pole_choice import map_label
from linework.design import Design, End, Part, Run, Seat, Settings, pole_map
from linework.kinds import Answer, Band
from linework.words import say
from tests.bench.person import Person, Spot

_GRID = 25
_FAR = 4
"""Grid steps of an arrow key with Shift."""


class Copyist(Person):
    """Draws what stands in ``model``."""

    model: Design

    def draw(self, model: Design) -> None:
        """The whole of a design, on an empty sheet."""
        self.model = model
        self._begin(model.settings)
        seated = {seat.part for seat in model.seats}
        loose = [part for part in model.parts if part.id not in seated]
        for part in sorted(loose, key=_order):
            self._put(part)
        for seat in sorted(model.seats, key=lambda s: _order(model.part(s.part))):
            self._seat(seat)
        for run in sorted(model.runs, key=_order):
            self._run(run)
        self.choose_nothing()

    # the job

    def _begin(self, settings: Settings) -> None:
        def first(form: QDialog) -> None:
            assert isinstance(form, JobForm)
            self.pick(form.family, form.family.itemText(form.family.findData(settings.family)))
            self.pick(form.place, form.place.itemText(form.place.findData(settings.place)))
            self.click(form.job)
            self.press("ctrl+a")
            self.type(settings.job)
            self.press("Return")

        def rest(form: QDialog) -> None:
            assert isinstance(form, JobForm)
            texts = {
                form.frequency: settings.frequency,
                **{line: getattr(settings, key) for key, line in form.titles.items()},
            }
            for line, text in texts.items():
                if line.text() != text:
                    self.click(line)
                    self.press("ctrl+a")
                    self.type(text)
            if form.sheet.currentData() != settings.sheet:
                self.pick(form.sheet, settings.sheet)
            if form.wet.isChecked() != settings.wet:
                self.click(form.wet)
            self.press("Return")

        button = self._named("New", self.bench.start)
        self.dialog(lambda: self.click(button), first)
        self.dialog(lambda: self.press("ctrl+j"), rest)
        assert self.design.settings == settings, "the questions ask for all of it"

    # parts

    def _put(self, part: Part) -> None:
        """Click the paper and write the kind; bring it to its place with the arrow keys."""
        at = self._bare_near((part.x, part.y))
        name = say(self.model.kind(part).name, family=self.model.settings.family)
        made = self._renamed(self.type_part(name, at), part)
        self._nudge(made, (part.x, part.y))
        self._turn(made, part)
        self._fill_in(made, part)

    def _seat(self, seat: Seat) -> None:
        """Drag a part out of the strip into its place; another place of a plug is ticked."""
        part, host = self.model.part(seat.part), self.model.part(seat.host)
        drawn = [p for p in self.design.parts if p.designation == part.designation]
        if not drawn:
            self.choose_nothing()
            at = self.place_of(host.designation, seat.place)
            made = self._renamed(self.drag_part(part.kind, at), part)
            assert [s.place for s in self.design.seats_of(self._id(made))] == [seat.place]
            self._fill_in(made, part)
            return
        self.choose(part.designation)
        place = say("{host}, place {place}", host=host.designation, place=seat.place)
        self.click(self._named(say("Goes into {place}", place=place), self.bench.card))

    def _id(self, designation: str) -> str:
        return self.design.by_designation(designation).id

    def _renamed(self, designation: str, part: Part) -> str:
        """What is new is chosen, its card open: write its designation if it got another."""
        if designation != part.designation:
            self.choose(designation)
            self.fill(self.bench.card.designation, part.designation)
            self.wait(lambda: bool(self.design.named(Part, part.designation)))
        return part.designation

    def _fill_in(self, designation: str, part: Part) -> None:
        answers = dict(part.ratings.answers)
        if not part.title and not answers:
            return
        self.choose(designation)
        if part.title:
            self.fill(self.bench.card.title, part.title)
        self._answer({key: _written(answers[key]) for key in self._in_order(part, answers)})

    def _in_order(self, part: Part, answers: dict[str, Answer]) -> list[str]:
        """As the card asks: an earlier answer may decide whether a later one is asked."""
        order = list(self.model.kind(part).declared)
        return sorted(answers, key=order.index)

    def _bare_near(self, at: Spot) -> Spot:
        """The nearest grid point where a click meets nothing but paper."""
        self.settled()
        self.choose_nothing()
        rings = range(30)
        spots = [
            (at[0] + dx * _GRID, at[1] + dy * _GRID)
            for ring in rings
            for dx in range(-ring, ring + 1)
            for dy in range(-ring, ring + 1)
            if max(abs(dx), abs(dy)) == ring
        ]
        view = self.bench.view
        return next(s for s in spots if view.surface.hit(s).sort == "paper" and self._free(s))

    def _free(self, at: Spot) -> bool:
        """Whether nothing that floats lies over a point of the paper."""
        point = self.screen(at)
        over = QApplication.widgetAt(point)
        return over is self.bench.view.viewport()

    def _nudge(self, designation: str, to: Spot) -> None:
        """Bring a chosen part to its place, by the arrow keys."""
        part = self.design.by_designation(designation)
        if (part.x, part.y) == to:
            return
        self.choose(designation)
        for off, back, on in ((to[0] - part.x, "Left", "Right"), (to[1] - part.y, "Up", "Down")):
            far, near = divmod(abs(off) // _GRID, _FAR)
            key = on if off > 0 else back
            keys = [f"shift+{key}"] * far + [key] * near
            if keys:
                self.press(*keys)

        def there() -> bool:
            now = self.design.by_designation(designation)
            return (now.x, now.y) == to

        self.wait(there)

    def _turn(self, designation: str, part: Part) -> None:
        keys = ["r"] * (part.turn // 90 if part.turn >= 90 else part.turn) + ["m"] * part.mirror
        if keys:
            self.choose(designation)
            self.press(*keys)

    # runs

    def _run(self, run: Run) -> None:
        ends = [self._end(end) for end in (run.a, run.b)]
        made = self._joined(*ends, label=map_label(self.model, pole_map(self.model, run)))
        wanted = pole_map(self.model, run)
        answers = dict(run.ratings.answers)
        self.choose_run(made)
        if run.designation != made.designation:
            self.fill(self.bench.card.designation, run.designation)
        if pole_map(self.design, made) != wanted:
            wires = self.bench.card.wires
            assert wires is not None
            self._scroll_to(wires, self.bench.card)
            self.fill(wires, wires_text(wanted))
        self._answer({key: _written(answer) for key, answer in answers.items()})

    def _end(self, end: End) -> str:
        return f"{self.model.part(end.part).designation}.{end.terminal}"

    def _joined(self, a: str, b: str, label: str) -> Run:
        """Drag from terminal to terminal; where it is asked which wire goes where, answer."""
        known = {run.id for run in self.design.runs}
        self.choose_nothing()
        spots = [self.screen(self._terminal(end)) for end in (a, b)]
        self.drag_between(*spots)

        def made() -> list[Run]:
            return [run for run in self.design.runs if run.id not in known]

        self.wait(lambda: bool(made()) or self._menu() is not None)
        menu = self._menu()
        if menu is not None:
            labels = [action.text() for action in menu.actions()]
            number = labels.index(label) if label in labels else 0
            self.press(*["Down"] * (number + 1), "Return")
            self.wait(lambda: bool(made()))
        return made()[0]

    def _terminal(self, end: str) -> Spot:
        designation, terminal = end.split(".")
        x, y, _ = self._drawing(designation).anchors[terminal]
        return x, y

    def _menu(self) -> QMenu | None:
        found = QApplication.activePopupWidget()
        return found if isinstance(found, QMenu) else None


def _order(item: Part | Run) -> tuple[str, int]:
    """By letters and number of the designation, so that most names come by themselves."""
    letters = item.designation.rstrip("0123456789")
    return letters, int(item.designation[len(letters) :] or 0)


def _written(answer: Answer) -> str:
    """An answer as a person writes it: three figures in one line."""
    if isinstance(answer, Band):
        return f"{answer.low} / {answer.usual} / {answer.high}"
    return str(answer)


def drawn_alike(one: Design, other: Design) -> list[str]:
    """What differs between two designs, ids apart; empty where they say the same."""
    return sorted(set(_told(one)) ^ set(_told(other)))


def _told(design: Design) -> list[str]:
    lines = [repr(design.settings)]
    for part in design.parts:
        seats = sorted((design.part(s.host).designation, s.place) for s in design.seats_of(part.id))
        at = (part.x, part.y) if not seats else ()
        lines.append(
            f"{part.designation} {part.kind} {part.title!r} {part.ratings.answers} {at}"
            f" {part.turn} {part.mirror} {seats}"
        )
    for run in design.runs:
        ends = [f"{design.part(e.part).designation}.{e.terminal}" for e in (run.a, run.b)]
        lines.append(f"{run.designation} {ends} {pole_map(design, run)} {run.ratings.answers}")
    return lines
