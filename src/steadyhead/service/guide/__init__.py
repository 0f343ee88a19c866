"""The technician's conversation at the panel, without a terminal: a state, a line, and what is said to it."""
