"""The record of a visit, and the visit file."""
