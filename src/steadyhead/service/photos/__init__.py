"""Photos without what they say of the place, the time and the camera."""
