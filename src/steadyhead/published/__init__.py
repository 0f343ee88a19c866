"""Numbers that somebody printed, each with its source."""
