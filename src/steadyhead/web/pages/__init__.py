"""The pages: one module for each, with what it shows and what its forms do."""
