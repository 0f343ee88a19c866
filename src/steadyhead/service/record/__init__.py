"""Use cases of the record, one function each: what a technician does to a visit, and what a page shows of it."""
