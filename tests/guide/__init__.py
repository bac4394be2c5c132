"""Tests of the guide."""
