"""One word of the trade."""

from __future__ import annotations

from dataclasses import dataclass

from linework.words import say


@dataclass(frozen=True)
class Term:
    """``also``: other words for it by which a text may call it. ``source``: of what is said."""

    name: str
    text: str
    source: str
    also: tuple[str, ...] = ()

    def said(self, family: str) -> Term:
        """The same in the reader's language and the family's words."""
        return Term(
            say(self.name, family=family),
            say(self.text, family=family),
            say(self.source, family=family),
            tuple(say(word, family=family) for word in self.also),
        )
