"""Suspects, checks, belief, planning and explanation."""
