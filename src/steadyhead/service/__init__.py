"""Use cases, one function each."""
