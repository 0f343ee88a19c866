"""An independent truth: sensing loops with hidden faults, solved by ngspice, that answer what a diagnosis tool asks.

Rules
-----
1. Nothing here imports the engine under test: no circuit, no number and no table is shared with it.
2. Every case is drawn wider than a tidy mind would choose; what is drawn is common practice, from memory, unless said.
3. Random streams are separate: the case, the noise of each reading, and the fixed order's own noise.
4. Pressures inside are psi gauge; everything electrical is SI.
"""
