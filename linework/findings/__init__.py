"""Opinions: one file per rule, in folders by family of the catalogue."""
