"""One file per kind of part: ratings, terminals, inner circuit, symbol name."""
