"""Use cases of a sensor check: what to take, what came out, and what to do about it. No file, no database, no page.

`planning.planned` says what to take and what can be decided at all; `looking.look` says everything of a run;
`as_json` gives both to programs.
"""
