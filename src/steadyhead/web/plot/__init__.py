"""Figures as a picture: a sensor check's error against pressure. Pure functions from values to SVG."""
