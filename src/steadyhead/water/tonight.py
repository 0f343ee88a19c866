"""Water tonight: what may run until the part comes, in which order, within which limits, and what it asks of people.

Rules
-----
1. A way that keeps the drive's own control comes first (a spare sensor, a known-good lead), then one that stops by
   itself (a pressure switch), then a speed set by hand. To make it safe and leave it off is always possible.
2. Nothing bypasses the relief valve, ever; without one nothing runs at a speed set by hand.
3. What protects no longer is named, and somebody must then be where it takes to see it and switch off: beside the pump
   while dry running is not stopped, in the house while pressure is not. Less than that, and the way is refused.
4. An unknown blocks a way, and is answered with what to find out; or it is taken as the worse, and widens its limits.
5. A positive-displacement pump at a fixed speed hangs on its relief alone: see `steadyhead.water.limits`.
6. A pump that feeds sprinklers or hydrants is refused before anything is worked out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from steadyhead.figures import COMMON_PRACTICE, Figure, given
from steadyhead.messages import Message, message
from steadyhead.water.known import WATCHERS, Known
from steadyhead.water.limits import LEAST_USEFUL_PA, PSI, Speeds, needed_for_speeds, speeds, told

MODES = ("spare-sensor", "temporary-lead", "pressure-switch", "fixed-speed", "made-safe")
MADE_SAFE = MODES[-1]
#: What the drive's own stops hang on: words of the record's protections.
BY_SENSOR = ("sensor-fault-stop", "pressure-control", "over-pressure")
DRY_RUN = "dry-run"

#: A spare's range reaches this far over the set pressure, so that the drive sees too much of it (common practice).
OVER_SET = 1.15
#: A switch's cut-out stays this far below what the pump gives, or the pump never stops (common practice).
UNDER_SHUT_OFF = 1.1
#: Between a switch's cut-in and its cut-out, and between the tank's air and the cut-in (common practice) [Pa].
SWITCH_SPAN_PA, AIR_BELOW_PA = 20 * PSI, 2 * PSI
#: A sensor's body stands this many times its range (common practice; its leaflet comes first).
OVER_RANGE = 1.5

Possible = Literal["yes", "no", "unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of having water until the part comes.

    Parameters
    ----------
    mode
        One of `MODES`.
    why
        Why it is not possible.
    find
        Questions to answer: what blocks it, or would narrow its limits where it is possible.
    limits
        Its figures, the most important first.
    lost
        What protects no longer, as the record names it.
    watch
        The least that must watch: one of `steadyhead.water.known.WATCHERS`.
    do
        What to do, in order.
    cautions
        What can hurt.
    blocked
        Whether what is to be found out blocks it.
    """

    mode: str
    why: tuple[Message, ...] = ()
    find: tuple[str, ...] = ()
    limits: tuple[Figure, ...] = ()
    lost: tuple[str, ...] = ()
    watch: str = WATCHERS[0]
    do: tuple[Message, ...] = ()
    cautions: tuple[Message, ...] = ()
    blocked: bool = False

    @property
    def possible(self) -> Possible:
        """Whether it may be done."""
        if self.why:
            return "no"
        return "unknown" if self.blocked else "yes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """The ways there are, in their order; `refused` says why none is thought of at all; `tell`: whom to tell what."""

    ways: tuple[Way, ...] = ()
    refused: Message | None = None
    tell: tuple[Message, ...] = ()

    @property
    def best(self) -> Way | None:
        """The first way that may be done."""
        return next((way for way in self.ways if way.possible == "yes"), None)


def tonight(known: Known) -> Tonight:
    """Return what may run until the part comes.

    Parameters
    ----------
    known
        What is known; unknown is normal.
    """
    if known.serves == "fire":
        return Tonight(refused=message("tonight-fire-pump"))
    return Tonight(ways=tuple(_WAYS[mode](known) for mode in MODES), tell=_tell(known))


def _tell(known: Known) -> tuple[Message, ...]:
    """Return what people must be told, whatever runs."""
    by_whom = {
        None: (message("tonight-if-fire"), message("tonight-tell-people")),
        "dependent": (message("tonight-tell-dependents"),),
        "building": (message("tonight-tell-building"),),
    }
    return by_whom.get(known.serves, (message("tonight-tell-people"),))


ALWAYS = (message("local-codes-first"), message("tonight-never-bypass"))
BY_ITSELF = (message("starts-by-itself"),)
AT_TERMINALS = (message("lock-out"), message("capacitors-hold-charge"), message("prove-tester-then-dead"))
AT_PIPES = (message("relieve-pressure"), message("keep-water-clean"))
PROMISED = (message("tonight-nobody-else"),)


# ---------------------------------------------------------------- the drive keeps its control


def _spare(known: Known) -> Way:
    why = list(_not_the(known, "sensor"))
    if known.spare == "no":
        why.append(message("tonight-no-spare"))
    if known.spare_approved == "no":
        why.append(message("tonight-spare-not-approved"))
    top = known.spare_range.high if known.spare_range else None
    if top is not None and known.set_pressure is not None and top < OVER_SET * known.set_pressure:
        why.append(message("tonight-spare-short", top=top, needs=OVER_SET * known.set_pressure))
    find = () if why else known.lacking("broken", "spare", "spare-range", "set-pressure", "spare-approved")
    return Way(
        mode=MODES[0], why=tuple(why), find=find, blocked=bool(find), watch="daily",
        limits=() if why or find else _spare_limits(known), do=() if why or find else _spare_steps(known),
        cautions=(*ALWAYS, *AT_TERMINALS, *AT_PIPES, *BY_ITSELF, *_over_range(known)),
    )  # fmt: skip


def _spare_limits(known: Known) -> tuple[Figure, ...]:
    assert known.spare_range is not None  # noqa: S101 - the caller saw that nothing lacks
    low = given("spare-low", known.spare_range.low, "pressure", "spare-range")
    high = given("spare-high", known.spare_range.high, "pressure", "spare-range")
    set_ = told(known, "set-pressure")
    share = Figure(
        name="tonight-set-share", value=(set_.value - low.value) / (high.value - low.value), dimension="percent",
        inputs=(set_, low, high), formula="(set-pressure - spare-low) / (spare-high - spare-low)",
    )  # fmt: skip
    limits = [share]
    if known.spare_accuracy is not None:
        part = told(known, "spare-accuracy")
        error = Figure(
            name="tonight-spare-error", value=part.value * (high.value - low.value), dimension="pressure",
            inputs=(part, low, high), formula="spare-accuracy (spare-high - spare-low)",
        )  # fmt: skip
        limits.append(error)
    return tuple(limits)


def _spare_steps(known: Known) -> tuple[Message, ...]:
    assert known.spare_range is not None  # noqa: S101 - the caller saw that nothing lacks
    assert known.set_pressure is not None  # noqa: S101 - the caller saw that nothing lacks
    low, high = known.spare_range
    return (
        message("tonight-do-fit-spare"),
        message("tonight-do-rescale", low=low, high=high),
        message("tonight-do-set-again", pressure=known.set_pressure),
        message("tonight-do-stops-again"),
        message("tonight-do-compare"),
    )


def _over_range(known: Known) -> tuple[Message, ...]:
    """Return the caution that a pump which is taken for dead could wreck the spare at full speed."""
    if needed_for_speeds(known) or known.spare_range is None or known.pump != "centrifugal":
        return ()
    found = speeds(known)
    full = found.full if isinstance(found, Speeds) else None
    if full is None or full.value <= OVER_RANGE * known.spare_range.high:
        return ()
    return (message("tonight-spare-could-burst", full=full.value, stands=OVER_RANGE * known.spare_range.high),)


def _lead(known: Known) -> Way:
    why = list(_not_the(known, "cable"))
    if known.lead == "no":
        why.append(message("tonight-no-lead"))
    find = () if why else known.lacking("broken", "lead")
    return Way(
        mode=MODES[1], why=tuple(why), find=find, blocked=bool(find), watch="daily",
        do=() if why or find else (message("tonight-do-lay-lead"), message("tonight-do-compare")),
        cautions=(*ALWAYS, *AT_TERMINALS, *BY_ITSELF),
    )  # fmt: skip


def _not_the(known: Known, part: str) -> tuple[Message, ...]:
    """Return why a way that stands in for one part does not help: another one is broken."""
    if known.broken in {None, part}:
        return ()
    return (message("tonight-not-that", broken=known.broken),)


# ---------------------------------------------------------------- a speed set by hand


def _switch(known: Known) -> Way:
    why = [*_by_hand(known)]
    if known.switch == "no":
        why.append(message("tonight-no-switch"))
    if known.run_input == "no":
        why.append(message("tonight-no-run-input"))
    guarded = known.dry_run == "independent" or known.switch_low_cut == "yes"
    why += _watched(known, "in-house" if guarded else "beside")
    lacks = _lacking_by_hand(known, "switch", "run-input")
    if known.lift is None and known.draws == "well" and known.test_hertz is None and known.pump == "centrifugal":
        lacks = (*lacks, "lift")
    way = Way(
        mode=MODES[2], why=tuple(why), watch="in-house" if guarded else "beside",
        lost=(*BY_SENSOR, *(() if guarded else (DRY_RUN,))), find=() if why else lacks, blocked=bool(lacks),
        cautions=(*ALWAYS, *AT_TERMINALS, *AT_PIPES, *BY_ITSELF, *PROMISED),
    )  # fmt: skip
    return _with_limits(way, known, _switch_work)


def _fixed(known: Known) -> Way:
    why = [*_by_hand(known)]
    watch = "in-house" if known.dry_run == "independent" and known.pump != "positive-displacement" else "beside"
    why += _watched(known, watch)
    lost = (*BY_SENSOR, *(() if known.dry_run == "independent" else (DRY_RUN,)))
    lacks = _lacking_by_hand(known)
    way = Way(
        mode=MODES[3], why=tuple(why), watch=watch, lost=lost, find=() if why else lacks, blocked=bool(lacks),
        cautions=(*ALWAYS, message("tonight-hot-water"), *BY_ITSELF, *PROMISED),
    )  # fmt: skip
    return _with_limits(way, known, _fixed_work)


def _by_hand(known: Known) -> tuple[Message, ...]:
    """Return why no speed may be set by hand."""
    why = []
    if known.broken == "drive":
        why.append(message("tonight-drive-dead"))
    if known.hand_speed == "no":
        why.append(message("tonight-no-hand-speed"))
    if known.relief == "none":
        why.append(message("tonight-no-relief"))
    return tuple(why)


def _watched(known: Known, least: str) -> tuple[Message, ...]:
    """Return why too little watches, where it does."""
    if known.watch is None or WATCHERS.index(known.watch) >= WATCHERS.index(least):
        return ()
    return (message("tonight-watch-too-little", watch_said=known.watch, watch_needed=least),)


def _lacking_by_hand(known: Known, *more: str) -> tuple[str, ...]:
    return (*known.lacking("hand-speed", *more, "watch"), *needed_for_speeds(known))


#: Makes a way's limits and steps of the speeds that are allowed, or says why there are none.
Work = Callable[[Known, Speeds], tuple[tuple[Figure, ...], tuple[Message, ...]] | Message]


def _with_limits(way: Way, known: Known, work: Work) -> Way:
    """Return a way with its limits and what is to be done; or with the reason that they leave no room."""
    if needed_for_speeds(known):
        return way
    found = speeds(known)
    made = found if isinstance(found, Message) else work(known, found)
    if isinstance(made, Message):
        return replace(way, why=(*way.why, made), find=(), blocked=False)
    if way.possible != "yes":
        return way
    limits, do = made
    wider = known.lacking(*(("dry-run",) if DRY_RUN in way.lost else ()), *_narrows(known))
    return replace(way, limits=limits, do=do, find=wider)


def _narrows(known: Known) -> tuple[str, ...]:
    """Return questions whose answer would narrow the limits of a speed set by hand."""
    if known.pump == "positive-displacement":
        return ("tank-plate",)
    level = ("lift",) if known.draws == "well" else ()
    return ("tank-plate", *level, "set-pressure", "duty-flow")


def _limits(found: Speeds, *more: Figure | None) -> tuple[Figure, ...]:
    """Return the figures that there are, those that bind first."""
    shown = (found.most, found.limit, *more, found.at_most, found.full, found.least, found.bleed)
    return tuple({figure.name: figure for figure in shown if figure is not None}.values())


def _fixed_work(known: Known, found: Speeds) -> tuple[tuple[Figure, ...], tuple[Message, ...]] | Message:
    most, limit = found.most.value, found.limit.value
    start = message("tonight-do-start", start=found.start.value, most=most) if found.start else None
    begin = start or message("tonight-do-creep", least=found.least.value, most=most)
    beyond = known.set_pressure is not None and found.gives is not None and found.start is None
    low = (message("tonight-do-lower", gives=found.gives.value),) if beyond and found.gives else ()
    bleed = message("tonight-do-bleed", flow=found.bleed.value) if found.bleed else message("tonight-do-bleed-some")
    do = (
        message("tonight-do-read-relief"), message("tonight-do-cap", most=most), bleed, begin, *low,
        message("tonight-do-stop-at", limit=limit), message("tonight-do-off-when-away"), message("tonight-do-back"),
    )  # fmt: skip
    return _limits(found, found.start, found.gives, found.drawn), do


def _switch_work(known: Known, found: Speeds) -> tuple[tuple[Figure, ...], tuple[Message, ...]] | Message:
    most, limit = found.most.value, found.limit.value
    cut = _cut_out(known, found)
    if cut.value < LEAST_USEFUL_PA + SWITCH_SPAN_PA / 2:
        return message("tonight-cut-out-too-low", most=cut.value)
    set_ = min(cut.value, known.cut_out) if known.cut_out is not None else cut.value
    lower = (
        (message("tonight-do-lower-cut-out", most=cut.value),)
        if known.cut_out is not None and known.cut_out > cut.value
        else ()
    )
    cut_in = max(set_ - SWITCH_SPAN_PA, LEAST_USEFUL_PA)
    do = (
        message("tonight-do-read-relief"), message("tonight-do-cap", most=most), message("tonight-do-wire-switch"),
        *lower, message("tonight-do-cut", cut_out=set_, cut_in=cut_in),
        message("tonight-do-air", air=cut_in - AIR_BELOW_PA), message("tonight-do-run-at", most=most),
        message("tonight-do-see-it-stop"), message("tonight-do-stop-at", limit=limit), message("tonight-do-back"),
    )  # fmt: skip
    return _limits(found, cut, found.gives, found.drawn), do


def _cut_out(known: Known, found: Speeds) -> Figure:
    """Return the highest cut-out of a switch: the pump comes over it, and it stays within the limit."""
    if found.gives is None:  # a positive-displacement pump comes over anything: the relief must not open before
        opens = told(known, "relief-set")
        return Figure(
            name="tonight-cut-out", value=opens.value / UNDER_SHUT_OFF, dimension="pressure", inputs=(opens,),
            formula=f"relief-set / {UNDER_SHUT_OFF}", source=COMMON_PRACTICE,
        )  # fmt: skip
    value = min(found.gives.value / UNDER_SHUT_OFF, found.limit.value)
    return Figure(
        name="tonight-cut-out", value=value, dimension="pressure", inputs=(found.gives, found.limit),
        formula=f"min(tonight-gives / {UNDER_SHUT_OFF}, tonight-limit)", source=COMMON_PRACTICE,
    )  # fmt: skip


# ---------------------------------------------------------------- off


def _made_safe(_: Known) -> Way:
    return Way(
        mode=MADE_SAFE, cautions=(message("local-codes-first"), *AT_TERMINALS, message("relieve-pressure")),
        do=(
            message("tonight-do-lock"), message("tonight-do-shut"), message("tonight-do-frost"),
            message("tonight-do-other-water"),
        ),
    )  # fmt: skip


_WAYS: dict[str, Callable[[Known], Way]] = {
    MODES[0]: _spare,
    MODES[1]: _lead,
    MODES[2]: _switch,
    MODES[3]: _fixed,
    MADE_SAFE: _made_safe,
}
