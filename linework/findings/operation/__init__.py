"""Rules on load, voltage and supply, and the cautions."""
