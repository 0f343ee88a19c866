"""Tests of the published tables."""
