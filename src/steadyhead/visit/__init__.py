"""The record of a visit, and the visit file."""

from steadyhead.visit.dump import dump_visit
from steadyhead.visit.file import VisitFile, load_visit, parse_visit, save_visit

__all__ = ["VisitFile", "dump_visit", "load_visit", "parse_visit", "save_visit"]
