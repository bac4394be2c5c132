"""What the judge says of one drawing: flaws, and facts whose loss would be one."""

from __future__ import annotations

from dataclasses import dataclass

DANGER, WARNING, NEAR = "danger", "warning", "near"
"""``NEAR``: of a fact whose loss the judge will not weigh."""


@dataclass(frozen=True, slots=True)
class Flaw:
    """Something wrong. ``near``: so close to a limit that the judge will not decide by it."""

    check: str
    subject: str
    level: str
    reason: str
    near: bool = False

    @property
    def key(self) -> tuple[str, str, str]:
        """By what it is found again in another drawing."""
        return self.check, self.subject, self.level


@dataclass(frozen=True, slots=True)
class Fact:
    """Something that must stay: ``subject`` has it from ``by``. ``level`` and ``lost`` tell what
    it is if it is gone."""

    name: str
    subject: str
    by: str
    level: str
    lost: str

    @property
    def key(self) -> tuple[str, str, str]:
        """By what it is found again in another drawing."""
        return self.name, self.subject, self.by
