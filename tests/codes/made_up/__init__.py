"""Families that nobody goes by, to show that a family is a folder."""
