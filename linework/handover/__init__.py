"""The PDF drawing set and the other exports."""
