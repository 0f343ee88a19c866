"""Text with units to SI floats and back."""
