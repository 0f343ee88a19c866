"""Works tasks out in processes beside the one that serves pages: a laptop and a company have them, a browser none."""

from steadyhead.workers.pool import Pool, cores

__all__ = ["Pool", "cores"]
