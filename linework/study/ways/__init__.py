"""Which ways lead from a source to a place, and what protects and opens them."""
