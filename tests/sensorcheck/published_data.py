"""Data sets as published, and what their publishers say comes of them. Nothing here was computed by our code."""

from __future__ import annotations

from fractions import Fraction

#: NIST StRD, linear regression, Norris (calibration of ozone monitors): y, x, as printed. Republished (scipy's tests).
NORRIS = """
    0.1    0.2    338.8  337.4  118.1  118.2  888.0  884.6    9.2   10.1  228.1  226.5  668.5  666.3  998.5  996.3
  449.1  448.6    778.9  777.0  559.2  558.2    0.3    0.4    0.1    0.6  778.1  775.5  668.8  666.9  339.3  338.0
  448.9  447.5     10.8   11.6  557.7  556.0  228.3  228.1  998.0  995.8  888.8  887.6  119.6  120.2    0.3    0.3
    0.6    0.3    557.6  556.8  339.3  339.1  888.0  887.2  998.5  999.0  778.9  779.0   10.2   11.1  117.6  118.3
  228.9  229.2    668.4  669.1  449.2  448.9    0.2    0.5
"""


def pairs(text: str) -> tuple[list[Fraction], list[Fraction]]:
    """Return the first and the second of each pair of printed decimals, exactly."""
    figures = [Fraction(each) for each in text.split()]
    return figures[0::2], figures[1::2]


#: JCGM 100:2008, annex H.3, table H.6: thermometer readings [°C] and observed corrections [°C]. Republished.
H3_T = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
H3_B = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)

#: Kessel, Kacker, Sommer, Measurement 45 (2012) 1661-1669: a pressure sensor; reference 0, 2, ... 20 and its readings.
#: Republished (the manual of a metrology library).
KESSEL_P = tuple(float(2 * each) for each in range(11))
KESSEL_X = (0.0, 0.2039, 0.4080, 0.6120, 0.8160, 1.0201, 1.2242, 1.4283, 1.6325, 1.8367, 2.0410)

#: Liberzon, course notebooks on engineering metrology: a pressure transducer up and down [kPa]. Original.
LIBERZON_UP = (-1.12, 0.21, 1.18, 2.09, 3.33, 4.50, 5.26, 6.59, 7.73, 8.68, 9.80)
LIBERZON_DOWN = (-0.69, 0.42, 1.65, 2.48, 3.62, 4.71, 5.87, 6.89, 7.92, 9.10, 10.20)
LIBERZON_IN = tuple(float(each) for each in range(11))
