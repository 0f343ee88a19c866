"""The app: pages that a browser shows, on a laptop, on a phone without a signal, or on a company's server."""
