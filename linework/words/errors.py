"""What goes wrong with words."""


class WordingError(Exception):
    """A text asks for a word or value that nobody supplies, or a catalogue cannot be read."""
