"""Two homes brought together over a network: what one asks, what the other answers; the network itself is outside."""
