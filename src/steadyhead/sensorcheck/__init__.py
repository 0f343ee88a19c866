"""Is this sensor good? A check over its range: points, errors, uncertainty, and a decision by a stated rule."""
