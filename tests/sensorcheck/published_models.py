"""Worked examples of uncertainty as published: their models and inputs. Nothing here was computed by our code."""

from __future__ import annotations

import math

from steadyhead.sensorcheck.inputs import About, Input, Kind, certified, exactly, normal, within
from steadyhead.sensorcheck.measurand import Correlation, Measurand, Model


def about(name: str) -> About:
    """Return a name without more."""
    return About(name=name, dimension="number")


def result(model: Model, *inputs: Input, correlations: tuple[Correlation, ...] = ()) -> Measurand:
    """Return a measurand of these inputs."""
    return Measurand(
        name="result", dimension="number", formula="as published", model=model, inputs=inputs, correlations=correlations
    )


def student(name: str, estimate: float, scale: float, dof: float) -> Input:
    """Return an input that is Student's t."""
    return Input(name=name, estimate=estimate, spread=scale, dimension="number", kind="t", dof=dof)


def bounded(name: str, estimate: float, half_width: float, kind: Kind = "rectangular", **more: float) -> Input:
    """Return an input between limits."""
    return within(about(name), estimate, half_width, kind, **more)


def total(*names: str) -> Model:
    """Return the sum of inputs."""
    return lambda of: sum((of[name] for name in names[1:]), of[names[0]])


def end_gauge() -> Measurand:
    """Return GUM H.1: length of an end gauge [nm], its difference in three parts, the temperature in two.

    Republished (manual of a public metrology library; tests of another); the parts of the temperature, u = 0.2 °C and a
    cycle of 0.5 °C, from memory.
    """
    return result(
        lambda of: of["ls"] + of["d"] + of["d1"] + of["d2"]
        - of["ls"] * (of["da"] * (of["theta"] + of["cycle"]) + of["as"] * of["dt"]),
        student("ls", 50_000_623.0, 25.0, 18), student("d", 215.0, 5.8, 24), student("d1", 0.0, 3.9, 5),
        student("d2", 0.0, 6.7, 8), bounded("as", 11.5e-6, 2e-6), bounded("da", 0.0, 1e-6, dof=50),
        bounded("dt", 0.0, 0.05, dof=2), normal(about("theta"), -0.1, 0.2), bounded("cycle", 0.0, 0.5, "arcsine"),
    )  # fmt: skip


def difference_of_end_gauges() -> Measurand:
    """Return the part d of GUM H.1 alone [nm]."""
    return result(
        total("d", "d1", "d2"), student("d", 215.0, 5.8, 24), student("d1", 0.0, 3.9, 5), student("d2", 0.0, 6.7, 8)
    )


def gauge_block() -> Measurand:
    """Return JCGM 101, 9.5: the deviation of a gauge block from 50 mm [nm], table 10. From memory."""
    return result(
        lambda of: of["ls"] + of["d"] + of["d1"] + of["d2"] - 50e6
        - of["ls"] * (of["da"] * (of["theta"] + of["cycle"]) + of["as"] * of["dt"]),
        student("ls", 50_000_623.0, 25.0, 18), student("d", 215.0, 6.0, 24), student("d1", 0.0, 4.0, 5),
        student("d2", 0.0, 7.0, 8), bounded("as", 11.5e-6, 2e-6), normal(about("theta"), -0.1, 0.2),
        bounded("cycle", 0.0, 0.5, "arcsine"), bounded("da", 0.0, 1e-6, "uncertain", shape=0.1, dof=50),
        bounded("dt", 0.0, 0.05, "uncertain", shape=0.5, dof=2),
    )  # fmt: skip


#: GUM H.2, table H.2: five sets of readings; volts, milliamperes, radians. Republished (docstring of a public library).
H2_V = (5.007, 4.994, 5.005, 4.990, 4.999)
H2_I = tuple(each * 1e-3 for each in (19.663, 19.639, 19.640, 19.685, 19.678))
H2_PHI = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)


def mass() -> Measurand:
    """Return JCGM 101, 9.3: the deviation of a mass from 100 g [mg], table 5. From memory."""
    return result(
        lambda of: (of["reference"] + of["added"]) * (1 + (of["air"] - 1.2) * (1 / of["weight"] - 1 / of["standard"]))
        - 100_000.0,
        normal(about("reference"), 100_000.0, 0.050), normal(about("added"), 1.234, 0.020),
        bounded("air", 1.20, 0.10), bounded("weight", 8000.0, 1000.0), bounded("standard", 8000.0, 50.0),
    )  # fmt: skip


def comparison_loss(x1: float, coefficient: float = 0.0) -> Measurand:
    """Return JCGM 101, 9.4: the loss of a comparison of power meters. From memory."""
    pair = (Correlation(first="x1", second="x2", coefficient=coefficient),) if coefficient else ()
    inputs = (normal(about("x1"), x1, 0.005), normal(about("x2"), 0.0, 0.005))
    return result(lambda of: of["x1"] ** 2 + of["x2"] ** 2, *inputs, correlations=pair)


def four(kind: Kind, last: float = 1.0) -> Measurand:
    """Return JCGM 101, 9.2: the sum of four inputs of standard deviation 1, the last of another. From memory."""
    names = ("x1", "x2", "x3", "x4")
    wide = {"normal": 1.0, "rectangular": math.sqrt(3.0)}[kind]
    inputs = [
        Input(name=name, estimate=0.0, spread=wide * (last if name == "x4" else 1.0), dimension="number", kind=kind)
        for name in names
    ]
    return result(total(*names), *inputs)


def expansion(per_spread: float = 1.0) -> Measurand:
    """Return NIST TN 1900, example E13: a coefficient of thermal expansion [1/K]. Republished (a public library).

    The note gives standard deviations of Student's t with 3 degrees of freedom: their scale is that over sqrt(3).
    """
    return result(
        lambda of: (of["l1"] - of["l0"]) / (of["l0"] * (of["t1"] - of["t0"])),
        student("l0", 1.4999, 1e-4 / per_spread, 3), student("t0", 288.15, 0.02 / per_spread, 3),
        student("l1", 1.5021, 2e-4 / per_spread, 3), student("t1", 373.10, 0.05 / per_spread, 3),
    )  # fmt: skip


def viscosity() -> Measurand:
    """Return NIST TN 1900, example E3: a falling-ball viscometer [mPa s]. Republished (a public library)."""
    return result(
        lambda of: of["mu"] * of["tm"] * (of["ball"] - of["m"]) / (of["tc"] * (of["ball"] - of["c"])),
        normal(about("mu"), 4.63, 0.0463), normal(about("tm"), 61.0, 6.1), normal(about("m"), 1180.0, 0.5),
        normal(about("c"), 810.0, 0.5), normal(about("tc"), 36.6, 5.49), normal(about("ball"), 2217.0, 0.5),
    )  # fmt: skip


def attenuator() -> Measurand:
    """Return NIST TN 1900, example E11: a step attenuator [dB]. Republished (a public library).

    The note gives 0.0091 dB as a standard deviation of Student's t with 3 degrees of freedom; its scale is that over
    sqrt(3).
    """
    names = ("ls", "l0a", "l0b", "d", "ia", "ib", "k", "m", "s")
    return result(
        total(*names),
        student("ls", 30.0402, 0.0091 / math.sqrt(3.0), 3), normal(about("l0a"), 0.0, 0.002),
        normal(about("l0b"), 0.0, 0.002), bounded("d", 0.0, 0.00198, "arcsine"), bounded("ia", 0.0, 0.0005196),
        bounded("ib", 0.0, 0.0005196), bounded("k", 0.0, 0.0029698, "arcsine"), bounded("m", 0.0, 0.02828, "arcsine"),
        bounded("s", 0.003, 0.00433),
    )  # fmt: skip


def stefan_boltzmann() -> Measurand:
    """Return example 10 of the NIST Uncertainty Machine's manual: a constant from others. Republished (a library)."""
    return result(
        lambda of: 32 * math.pi**5 * of["h"] * of["r"] ** 4 * of["rinf"] ** 4
        / (15 * of["e"] ** 4 * 0.001**4 * 299_792_458.0**6 * of["alpha"] ** 8),
        normal(about("h"), 6.62606957e-34, 0.00000029e-34), normal(about("r"), 8.3144621, 0.0000075),
        normal(about("rinf"), 10973731.568539, 0.000055), normal(about("e"), 5.4857990946e-4, 0.0000000022e-4),
        normal(about("alpha"), 7.2973525698e-3, 0.0000000024e-3),
    )  # fmt: skip


# ------------------------------------------------------------ EA-4/02 M, supplements: republished (a public library's
# tests, as standard uncertainties and sensitivities), half-widths and kinds from memory where they are given below


def resistor_10_kohm() -> Measurand:
    """Return EA-4/02, S3: a resistor of 10 kohm [ohm]; its half-widths from memory, since rounded ones give 8.37."""
    return result(
        lambda of: (of["standard"] + of["drift"] + of["warm"]) * of["parasitic"] * of["ratio"] - of["warmer"],
        certified(about("standard"), 10_000.053, 0.005), bounded("drift", 0.020, 0.010), bounded("warm", 0.0, 0.00275),
        bounded("warmer", 0.0, 0.0055), bounded("parasitic", 1.0, 1e-6, "triangular"),
        student("ratio", 1.0000105, 0.07e-6, 4),
    )  # fmt: skip


def by_coefficients(*rows: tuple[float, float]) -> Measurand:
    """Return a sum of inputs by their printed standard uncertainties and sensitivity coefficients."""
    names = [f"x{n}" for n in range(len(rows))]
    inputs = [normal(about(name), 0.0, u) for name, (u, _) in zip(names, rows, strict=True)]
    slopes = {name: slope for name, (_, slope) in zip(names, rows, strict=True)}
    return result(lambda of: sum((slopes[name] * of[name] for name in names[1:]), slopes[names[0]] * of[names[0]]),
                  *inputs)  # fmt: skip


WEIGHT_10_KG = ((0.0225, 1.0), (0.00895, 1.0), (0.0144, 1.0), (0.00577, 1.0), (0.00577, 1.0))
GAUGE_BLOCK_50_MM = (
    (1.50e-8, 1.0), (1.73e-8, 1.0), (5.37e-9, 1.0), (1.85e-8, 1.0), (2.89e-2, -5.75e-7), (2.36e-7, 5.00e-2),
    (3.87e-9, -1.0),
)  # fmt: skip
THERMOCOUPLE = (
    (0.100, 1.0), (1.00, 0.077), (0.29, 0.077), (1.15, 0.077), (0.058, -0.407), (0.150, 1.0), (0.173, 1.0),
    (0.577, 1.0),
)  # fmt: skip
POWER_SENSOR = (
    (9.0e-3, 1.0), (2.5e-3, 1.0), (1.1e-3, 1.0), (2.0e-2, 1.0), (1.7e-3, 1.0), (3e-4, -1.0), (3e-4, 1.0), (2e-3, -1.0),
    (2e-3, 1.0),
)  # fmt: skip


def multimeter_100_v() -> Measurand:
    """Return EA-4/02, S9: a multimeter at 100 V [V], one rectangular input before all others."""
    return result(
        lambda of: of["indicated"] - of["standard"] + of["resolution"] - of["corrections"],
        exactly(about("indicated"), 100.1), normal(about("standard"), 100.0, 0.001), bounded("resolution", 0.0, 0.05),
        bounded("corrections", 0.0, 0.011),
    )  # fmt: skip


def calliper() -> Measurand:
    """Return EA-4/02, S10: a vernier calliper at 150 mm [um]; two rectangular inputs before all others."""
    return result(
        lambda of: of["indicated"] - of["block"] + 1.7 * of["warm"] + of["resolution"] + of["mechanics"],
        exactly(about("indicated"), 150_100.0), bounded("block", 150_000.0, 0.8), bounded("warm", 0.0, 2.0),
        bounded("resolution", 0.0, 25.0), bounded("mechanics", 0.0, 50.0),
    )  # fmt: skip


def block_calibrator() -> Measurand:
    """Return EA-4/02, S11: a temperature block calibrator at 180 °C [mK]."""
    names = ("thermometer", "bridge", "drift", "resolution", "hysteresis", "axial", "loading", "stability")
    return result(
        total(*names),
        normal(about("thermometer"), 0.0, 15.0), normal(about("bridge"), 0.0, 10.0), bounded("drift", 0.0, 40.0),
        bounded("resolution", 0.0, 50.0), bounded("hysteresis", 0.0, 100.0), bounded("axial", 0.0, 250.0),
        bounded("loading", 0.0, 50.0), bounded("stability", 0.0, 30.0),
    )  # fmt: skip


def water_meter() -> Measurand:
    """Return EA-4/02, S12.14: a household water meter, the mean relative error."""
    return result(total("repeated", "reference"), student("repeated", 0.0, 6.0e-4, 2),
                  normal(about("reference"), 0.0, 6.8e-4))  # fmt: skip


# ------------------------------------------------------------ EURACHEM/CITAC QUAM, annex A: from memory


def flask() -> Measurand:
    """Return the volume of QUAM A1's flask [ml]: its mark, how it is filled, its temperature."""
    return result(
        total("mark", "filled", "warm"),
        bounded("mark", 100.0, 0.1, "triangular"), normal(about("filled"), 0.0, 0.02), bounded("warm", 0.0, 0.084),
    )  # fmt: skip


def cadmium() -> Measurand:
    """Return QUAM A1: a cadmium standard [mg/l], the volume's uncertainty as printed."""
    return result(
        lambda of: 1000.0 * of["mass"] * of["purity"] / of["volume"],
        normal(about("mass"), 100.28, 0.05), bounded("purity", 0.9999, 0.0001), normal(about("volume"), 100.0, 0.07),
    )  # fmt: skip


def sodium_hydroxide() -> Measurand:
    """Return QUAM A2: a solution of sodium hydroxide [mol/l]."""
    return result(
        lambda of: 1000.0 * of["repeat"] * of["mass"] * of["purity"] / (of["molar"] * of["volume"]),
        normal(about("repeat"), 1.0, 0.0005), normal(about("mass"), 0.3888, 0.00013), bounded("purity", 1.0, 0.0005),
        normal(about("molar"), 204.2212, 0.0038), normal(about("volume"), 18.64, 0.013),
    )  # fmt: skip
