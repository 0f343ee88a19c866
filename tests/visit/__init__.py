"""Tests of the visit file."""
