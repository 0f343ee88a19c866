"""The check file: what it says, everything that is wrong with it at once, and edits that leave the rest as it is."""

from __future__ import annotations

import tomllib
from contextlib import suppress
from math import isfinite
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from steadyhead.errors import CheckFileError, FileUnreadableError, InputError
from steadyhead.sensorcheck.characteristics import characteristics
from steadyhead.sensorcheck.file import load_check, parse_check, save_check
from steadyhead.visit.edit import statement
from tests.support import ROOT

PSI = 6894.757293168361
#: As a program of schema 1 read it; kept for ever.
ARCHIVED = Path(__file__).parent / "archive" / "check_1.toml"
TEXT = ARCHIVED.read_text(encoding="utf-8")


def test_a_check_file_says_what_stands_in_it() -> None:
    """Read by eye from the text above; a foot is 0.3048 m and an inch 0.0254 m by definition."""
    found = parse_check(TEXT)
    run = found.run
    assert (run.serial, run.stage, run.pressure_from, run.began) == ("K-4471", "as-left", "hand-pump", "2026-03-14")
    assert (found.purpose, found.by, found.pressure_unit) == ("repeat", "J. Ortega", "psi")
    assert (run.sensor.signal.kind, run.sensor.accuracy) == ("ratiometric", 0.01)
    assert found.controller.scaled is not None
    assert found.controller.scaled.high == pytest.approx(150 * PSI)
    assert (run.reference.gauge.grade, run.reference.serial) == ("1A", "G-12")
    assert run.reference.resolution_pa == pytest.approx(0.5 * PSI)
    certificate = run.reference.certificate
    assert certificate is not None
    assert certificate.k == 2.0
    assert certificate.expanded == pytest.approx(0.4 * PSI)
    assert certificate.correction == pytest.approx((0.0, 0.3 * PSI, -0.2 * PSI))
    assert run.meter.signal is not None
    assert (run.meter.signal.relative, run.meter.same_meter, run.meter.supply) == (0.005, False, None)
    assert run.conditions.altitude_m == 310.0
    assert run.conditions.height_m == pytest.approx(-0.6096)
    assert run.conditions.height_u_m == pytest.approx(0.0254)
    assert found.allowed.relief_pa == pytest.approx(75 * PSI)
    assert found.allowed.gauge == run.reference.gauge.range
    assert [(round(each.reference_pa / PSI), each.signal, each.supply_v) for each in run.points] == [
        (0, 0.503, 5.01), (40, 2.14, 5.01),
    ]  # fmt: skip


def test_a_current_sensor_takes_the_meters_milliamps() -> None:
    """The key that belongs to the signal; its volts are for the supply."""
    text = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..16 bar"\n'
    text += '[meter]\nvolts = "0.5 %"\nmilliamps = "1 %"\n'
    meter = parse_check(text).run.meter
    assert meter.signal is not None
    assert meter.supply is not None
    assert (meter.signal.relative, meter.supply.relative) == (0.01, 0.005)


def test_everything_that_is_wrong_is_told_at_once_with_key_and_line() -> None:
    """Counted by eye: one problem for each comment below."""
    text = (
        "schema = 2\n"  # 1: no such schema
        "[sensor]\n"
        'signal = "4..20 mA"\n'
        'range = "0..16"\n'  # 4: no unit
        "[refrence]\n"  # 5: no such table
        "[meter]\n"
        'milliamp = "1 %"\n'  # 7: no such key
        "[reference]\n"
        'range = "0..25 bar"\n'
        'certificate = { expanded = "1 bar", at = ["0 bar", "9 bar"], correction = ["0 bar"] }\n'  # 10: one for two
        "[[point]]\n"  # 11: direction is missing; and it says nothing
        'reference = "4 bar"\n'
        "[[point]]\n"
        'reference = "4 bar"\n'
        'direction = "sideways"\n'  # 15: no such way
        'signal = "2.5 V"\n'  # 16: volts of a current sensor
        "cycle = 0\n"  # 17: cycles count from 1
    )
    with pytest.raises(CheckFileError, match="check-file-refused") as caught:
        parse_check(text, "mine.toml")
    told = [(each.line, each.key, each.message.id) for each in caught.value.problems]
    assert told == [
        (1, "schema", "schema-newer"),
        (4, "[sensor] range", "unit-missing"),
        (5, "[refrence]", "table-unknown"),
        (7, "[meter] milliamp", "key-unknown"),
        (10, "[reference] certificate.correction", "corrections-do-not-fit"),
        (11, "[[point]] 1 direction", "key-missing"),
        (11, "[[point]] 1", "check-point-says-nothing"),
        (15, "[[point]] 2 direction", "word-unknown"),
        (16, "[[point]] 2 signal", "unit-of-another-kind"),
        (17, "[[point]] 2 cycle", "outside-limits"),
    ]


def test_a_key_of_another_table_is_told_where_it_belongs() -> None:
    """`relief` stands in [allowed]."""
    text = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..16 bar"\n[conditions]\nrelief = "7 bar"\n'
    with pytest.raises(CheckFileError) as caught:
        parse_check(text)
    (problem,) = caught.value.problems
    assert problem.message.id == "key-of-another-table"
    assert problem.message.values["belongs_to"] == ("[allowed]",)


def test_a_point_is_added_after_the_others_and_nothing_else_changes() -> None:
    """A property: the old text is the head of the new one, comments and all."""
    found = parse_check(TEXT).with_point({"reference": "80 psi", "direction": "up", "signal": "3.7 V", "cycle": 2})
    assert found.text.startswith(TEXT)
    assert (found.run.points[-1].cycle, found.run.points[-1].signal) == (2, 3.7)


def test_taking_a_point_back_gives_the_very_text_before_it() -> None:
    """A property: undo."""
    before = parse_check(TEXT)
    after = before.with_point({"reference": "80 psi", "direction": "up", "signal": "3.7 V"})
    assert after.without_point(3).text.rstrip() == TEXT.rstrip()
    with pytest.raises(CheckFileError, match="check-file-refused"):
        before.without_point(3)


def test_a_file_without_points_takes_its_first() -> None:
    """A plan that is not begun; the point comes last, after whatever table stands last."""
    text = 'schema = 1\n[conditions]\nheight = "1 m"\n[sensor]\nsignal = "4..20 mA"\nrange = "0..16 bar"\n'
    found = parse_check(text).with_point({"reference": "8 bar", "direction": "up", "signal": "12 mA"})
    assert found.text.startswith(text)
    assert len(found.run.points) == 1
    assert found.run.sensor.range.high == 16e5


def test_another_value_keeps_the_comment_behind_it() -> None:
    """The line of `scaled`."""
    found = parse_check(TEXT).with_value("controller", "scaled", "0..100 psi")
    assert 'scaled = "0..100 psi"     # as found' in found.text
    added = parse_check(TEXT).with_value("check", "read_as", "displayed-pressure")
    assert added.run.read_as == "displayed-pressure"


def test_a_refused_point_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    """Rule: loses nothing."""
    path = tmp_path / "check.toml"
    save_check(parse_check(TEXT), path)
    with pytest.raises(CheckFileError):
        load_check(path).with_point({"reference": "80", "direction": "up", "signal": "3.7 V"})
    assert path.read_text(encoding="utf-8") == TEXT
    assert load_check(path).run == parse_check(TEXT).run


def test_windows_line_ends_and_a_mark_stay(tmp_path: Path) -> None:
    """A property: every byte that was not edited."""
    path = tmp_path / "check.toml"
    path.write_bytes(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode())
    found = load_check(path).with_point({"reference": "80 psi", "direction": "up", "signal": "3.7 V"})
    save_check(found, path)
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbfschema")
    assert data.count(b"\n") == data.count(b"\r\n")


def test_what_is_no_file_is_refused(tmp_path: Path) -> None:
    """The visit file's own reader."""
    with pytest.raises(FileUnreadableError, match="file-missing"):
        load_check(tmp_path / "nothing.toml")
    with pytest.raises(FileUnreadableError, match="file-is-folder"):
        load_check(tmp_path)


FEW = settings(max_examples=60, deadline=None)
VALUES = st.one_of(
    st.sampled_from(["1 psi", "1e300 psi", "-40 psi", "2.1 V", "1e-300 V", "5 V", "12 mA", "up", "OL", "", "nan psi"]),
    st.text(max_size=12), st.integers(-3, 3), st.booleans(),
)  # fmt: skip
KEYS = st.sampled_from(["reference", "signal", "supply", "shown", "direction", "cycle", "colour"])


@FEW
@given(st.lists(st.dictionaries(KEYS, VALUES, max_size=6), max_size=4))
def test_whatever_a_point_says_it_is_refused_or_the_whole_check_can_be_looked_at(
    rows: list[dict[str, str | int | bool]]
) -> None:
    """A property: nothing but our own refusals comes of any file, and what was read never breaks a sum."""
    lines = [TEXT.partition("# the points")[0]]
    for row in rows:
        lines += ["[[point]]", *(statement(key, value) for key, value in row.items())]
    with suppress(InputError):
        found = parse_check("\n".join(lines) + "\n")
        for each in found.run.points:
            assert isfinite(each.reference_pa)
        assert characteristics(found.run).levels


@FEW
@given(st.text(max_size=200) | st.binary(max_size=200))
def test_nothing_but_a_refusal_comes_of_anything(data: str | bytes) -> None:
    """A property."""
    with suppress(CheckFileError, FileUnreadableError):
        assert parse_check(data).run.sensor.range.width > 0


@pytest.mark.parametrize(
    ("key", "value", "id_"),
    [
        ("signal", "253 V", "signal-slipped-volts"), ("supply", "5010 V", "outside-limits"),
        ("supply", "501 V", "supply-slipped"),
        ("reference", "40000 psi", "pressure-slipped"), ("shown", "30000 psi", "pressure-slipped"),
    ],
)  # fmt: skip
def test_a_slip_of_the_unit_is_refused(key: str, value: str, id_: str) -> None:
    """A house sensor of 5 V and 100 psi gives no 253 V; a tenfold over-range is kept."""
    row = {"reference": "40 psi", "direction": "up", "signal": "2.1 V", "supply": "5 V", key: value}
    with pytest.raises(CheckFileError) as caught:
        parse_check(TEXT).with_point(row)
    (problem,) = caught.value.problems
    assert (problem.message.id, problem.key) == (id_, f"[[point]] 3 {key}")
    kept = parse_check(TEXT).with_point({"reference": "900 psi", "direction": "up", "signal": "24 V", "supply": "24 V"})
    assert kept.run.points[-1].signal == 24.0


def test_a_reading_beyond_the_gauges_scale_is_refused_unless_a_certificate_rules() -> None:
    """A pointer may rest 1 % beyond its last mark; beyond that no gauge of 0..16 bar shows anything."""
    head = 'schema = 1\n[sensor]\nsignal = "4..20 mA"\nrange = "0..16 bar"\naccuracy = "1 %"\n'
    gauge = '[reference]\nrange = "0..16 bar"\ngrade = "1"\n'
    kept = parse_check(head + gauge).with_point({"reference": "16.1 bar", "direction": "up", "signal": "20 mA"})
    row = {"direction": "down", "signal": "4 mA"}
    for off in ("-0.5 bar", "16.2 bar"):
        with pytest.raises(CheckFileError) as caught:
            kept.with_point({**row, "reference": off})
        (problem,) = caught.value.problems
        assert (problem.message.id, problem.key) == ("reference-off-scale", "[[point]] 2 reference")
    certified = parse_check(head + '[reference]\nrange = "0..16 bar"\ncertificate = { expanded = "0.01 bar" }\n')
    assert certified.with_point({**row, "reference": "16.2 bar"}).run.points[0].reference_pa == 16.2e5


# ------------------------------------------------------------ the contract

EXAMPLES = sorted((ROOT / "examples" / "checks").glob("*.toml"))


@pytest.mark.laptop
def test_the_schema_in_the_package_and_the_manual_are_those_that_the_tables_make() -> None:
    """Run ``python -m builders.check_file`` after a change to the tables."""
    from builders.check_file import MANUAL, TARGET, schema, with_keys  # noqa: PLC0415 - builders stay at home
    from builders.visit_schema import text_of  # noqa: PLC0415

    assert TARGET.read_text(encoding="utf-8") == text_of(schema())
    manual = MANUAL.read_text(encoding="utf-8")
    assert with_keys(manual) == manual


@pytest.mark.laptop
@pytest.mark.parametrize("path", [ARCHIVED, *EXAMPLES], ids=lambda path: path.stem)
def test_a_sound_file_is_sound_by_its_schema_too(path: Path) -> None:
    """Expected: by the JSON Schema library."""
    from jsonschema import Draft202012Validator  # noqa: PLC0415 - a laptop's library

    from builders.check_file import schema  # noqa: PLC0415

    Draft202012Validator.check_schema(schema())
    found = tomllib.loads(path.read_text(encoding="utf-8"))
    assert [each.message for each in Draft202012Validator(schema()).iter_errors(found)] == []
    assert load_check(path).run.points


def test_there_is_an_example_of_a_house_and_of_a_booster() -> None:
    """A volt signal on a running system, and a current signal with a hand pump in three cycles."""
    kinds = {(each.run.sensor.signal.kind, each.run.pressure_from) for each in map(load_check, EXAMPLES)}
    assert kinds == {("ratiometric", "system"), ("current", "hand-pump")}
