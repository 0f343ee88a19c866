"""Whether a sensor's thread goes into the port, and holds water there; threads that nearly fit are told apart.

Rules
-----
1. The same word fits. R also goes into a port that is called R (Rp or Rc).
2. R into G goes in further and seals worse than it should: look, and no longer than until the right part is there.
3. G into R is refused: it may jam, and has no face to seal on.
4. NPT and G or R of one size start to turn and do not fit: refused, with their pitches and flanks
   (`steadyhead.published.pipe_threads`).
5. Another thread goes in by an adapter; one on the van makes it work. What nobody noted: look.
"""

from __future__ import annotations

from steadyhead.messages import message
from steadyhead.published.pipe_threads import parted_mm, thread_named
from steadyhead.setup.finding import CHECK, FITS, NO, WITH_WORK, Finding
from steadyhead.visit.record import Visit
from steadyhead.visit.stock import StockSensor


def thread_finding(visit: Visit, stock: StockSensor) -> Finding:
    """Return whether a sensor's thread goes into the port."""
    port = visit.fitting.thread
    if port is None or stock.thread is None:
        known = port or stock.thread
        return _not_noted(port_known=port is not None, word=known)
    if port == stock.thread:
        id_ = "van-thread-same-washer" if thread_named(port).family == "G" else "van-thread-same"
        return Finding("thread", FITS, message(id_, thread=port))
    if port in stock.adapters:
        return Finding("thread", WITH_WORK, message("van-thread-adapter", thread=stock.thread, port=port))
    return _does_not_fit(stock.thread, port)


def _not_noted(*, port_known: bool, word: str | None) -> Finding:
    if word is None:
        return Finding("thread", CHECK, message("van-thread-unknown"))
    if port_known:
        return Finding("thread", CHECK, message("van-thread-sensor-unknown", thread=word))
    return Finding("thread", CHECK, message("van-thread-port-unknown", thread=word))


def _does_not_fit(thread: str, port: str) -> Finding:
    mine, there = thread_named(thread), thread_named(port)
    if mine.size != there.size:
        return Finding("thread", NO, message("van-thread-other-size", thread=thread, port=port))
    if {mine.family, there.family} == {"R", "G"}:
        if mine.family == "R":
            return Finding("thread", CHECK, message("van-thread-taper-into-parallel", thread=thread, port=port))
        return Finding("thread", NO, message("van-thread-parallel-into-taper", thread=thread, port=port))
    told: dict[str, str | float] = {
        "thread": thread, "port": port, "per_inch": mine.per_inch, "port_per_inch": there.per_inch,
        "angle": mine.angle, "port_angle": there.angle, "parted": parted_mm(mine, there) / 1000,
    }  # fmt: skip
    same_pitch = mine.per_inch == there.per_inch
    return Finding("thread", NO, message("van-thread-nearly-same-pitch" if same_pitch else "van-thread-nearly", **told))
