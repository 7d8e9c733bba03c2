"""Exact US units for hand-worked examples, apart from the program's own registry.

From memory of NIST Handbook 44, appendix C: the foot of 0.3048 m, the pound of 0.45359237 kg, the
acre of 43,560 square feet, the bushel of 2150.42 cubic inches.
"""

from fractions import Fraction

FT = Fraction(3048, 10_000)
IN = FT / 12
LB = Fraction(45_359_237, 100_000_000)
AC = 43_560 * FT * FT
BU = Fraction(215_042, 100) * IN**3
HA = Fraction(10_000)

LB_AC = LB / AC
PER_FT2 = 1 / (FT * FT)
PER_LB = 1 / LB


def us(number: float | str, unit: Fraction | int = 1) -> float:
    """A number in a US unit as an SI float: exact until the last step."""
    return float(Fraction(str(number)) * unit)
