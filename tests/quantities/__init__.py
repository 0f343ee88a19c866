"""Tests of the reading and spelling of quantities."""
