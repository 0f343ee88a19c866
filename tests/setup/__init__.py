"""Tests of `steadyhead.setup`: what on the van will do."""
