"""One object for each thing that the hand does with the mouse: start, move, release or cancel."""
