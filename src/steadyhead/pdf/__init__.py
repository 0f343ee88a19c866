"""Papers as PDF, set by Typst; only where that is installed."""
