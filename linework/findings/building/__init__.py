"""Rules for how it is built: raceways, boxes, what a conductor passes through."""
