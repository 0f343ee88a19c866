"""The water side at rest: what a pump can press at another speed, what may be asked of it, what may run tonight."""
