"""The record in a database: SQLite on a laptop and in a browser, PostgreSQL in a company, by the same code.

Rules
-----
1. Facts are only ever added. Triggers in the database itself refuse to change or delete one; the two guarded ways are a
   purge, which empties it, and a collision, which keeps what it replaces (`guards`).
2. Everything that lists read is a projection of the facts, made in the transaction that adds them, and can be made anew
   from the facts at any time (`projections`).
3. Work happens in a unit: what is not committed never happened. One writer at a time; readers wait for nobody.
4. The database says its own version. An older one is copied, then migrated; a newer one is refused (`versions`).
5. Nothing here knows a screen, a request or a use case, and this package's head imports nothing: who only asks where
   the data live waits for no library.
"""
