"""Neutrals, ground wires and touchable metal, and what joins them."""
