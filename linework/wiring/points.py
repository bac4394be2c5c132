"""A place inside a part."""

from typing import TypeAlias

Point: TypeAlias = tuple[str, str]
"""(terminal, pole); what no terminal shows has a name of its own in place of the terminal's."""
