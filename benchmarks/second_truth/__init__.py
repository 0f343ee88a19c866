"""A second truth: hidden faults in a sensing loop, and a technician who reads meters there.

Rules
-----
1. It was written from the description of the job alone, without sight of the engine that it judges or of the first
   truth, and shares no code with either; figures that agree, such as minutes, stand in that description. It imports the
   standard library and nothing else; the tool is met by its name, where a run starts.
2. Circuits are solved by ngspice, so that diodes, sharp limits and fold-back supplies come out as a textbook has them,
   not as a tool models them.
3. What is drawn is common practice with no source, unless said, and wide on purpose: a technician meets every make.
4. A seed gives the same case again, and a check the same reading in whatever order it is asked.
"""

from benchmarks.second_truth.cases import Case, draw_case
from benchmarks.second_truth.game import play
from benchmarks.second_truth.witness import CannotAnswerError, Witness

__all__ = ["CannotAnswerError", "Case", "Witness", "draw_case", "play"]
