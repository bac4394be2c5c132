"""Proposals that are edits: mends tried, sizing, a first skeleton, arranging a sheet."""
