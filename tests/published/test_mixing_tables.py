"""
Dilution tables and unit tables of others, recomputed.

Tables round to the spoon or the ounce, so each row says how close it must be. pint is the reference library
for units.
"""

from decimal import Decimal
from typing import Any

import pint
import pytest

from bot.domain.measure import IMPERIAL_ML, US_ML, Tool
from bot.domain.mixture import Share, mix, rate_of_parts, rate_of_percent, rate_of_volume

UNITS: Any = pint.UnitRegistry(non_int_type=Decimal)
GALLON, QUART, PINT, CUP = (US_ML[unit] for unit in ("gallon", "quart", "pint", "cup"))
OUNCE, TABLESPOON, TEASPOON = (US_ML[unit] for unit in ("ounce", "tablespoon", "teaspoon"))


def close(found: Decimal, expected: str, share: str) -> bool:
    return abs(found - Decimal(expected)) <= Decimal(share) * Decimal(expected)


@pytest.mark.parametrize(
    ("unit", "ours"),
    [
        ("gallon", US_ML["gallon"]),
        ("quart", US_ML["quart"]),
        ("pint", US_ML["pint"]),
        ("cup", US_ML["cup"]),
        ("fluid_ounce", US_ML["ounce"]),
        ("tablespoon", US_ML["tablespoon"]),
        ("teaspoon", US_ML["teaspoon"]),
        ("imperial_gallon", IMPERIAL_ML["gallon"]),
        ("imperial_quart", IMPERIAL_ML["quart"]),
        ("imperial_pint", IMPERIAL_ML["pint"]),
        ("imperial_cup", IMPERIAL_ML["cup"]),
        ("imperial_fluid_ounce", IMPERIAL_ML["ounce"]),
    ],
)
def test_units_by_pint(unit: str, ours: Decimal) -> None:
    theirs = UNITS.Quantity(Decimal(1), unit).to("milliliter").magnitude
    assert abs(theirs - ours) < Decimal("1e-9")


@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (TEASPOON, "4.9"),
        (TABLESPOON, "15"),
        (OUNCE, "30"),
        (CUP, "237"),
        (PINT, "473"),
        (QUART, "946"),
        (Decimal(1000) / OUNCE, "33.8"),
        (Decimal(1000) / TABLESPOON, "67.6"),
        (Decimal(1000) / TEASPOON, "203"),
    ],
)
def test_household_measures_as_printed_by_nist(ours: Decimal, printed: str) -> None:
    # NIST Office of Weights and Measures, Metric Household: printed to two or three digits.
    assert close(ours, printed, "0.015")


@pytest.mark.parametrize(
    ("ours", "printed", "share"),
    [
        (GALLON / Decimal("16.387064"), "231", "0"),  # cubic inches, exactly
        (GALLON / 1000, "3.785", "0.0002"),
        (GALLON / IMPERIAL_ML["gallon"], "0.833", "0.0004"),
        (IMPERIAL_ML["gallon"] / GALLON, "1.201", "0.0004"),
        (QUART / 1000, "0.946", "0.0005"),
        (PINT / 1000, "0.473", "0.0005"),
        (CUP, "237", "0.002"),
        (OUNCE, "29.574", "0.0001"),
        (OUNCE / IMPERIAL_ML["ounce"], "1.041", "0.0005"),
        (TABLESPOON / TEASPOON, "3", "0"),
        (OUNCE / TABLESPOON, "2", "0"),
    ],
)
def test_units_as_tabulated_in_handbook_44_appendix_c(ours: Decimal, printed: str, share: str) -> None:
    # General Tables of Units of Measurement, read in a reprint; printed to three or four digits.
    assert close(ours, printed, share)


def spoons(volume: Decimal, rate_ml_per_l: Decimal, unit: Decimal) -> Decimal:
    return mix(volume, rate_ml_per_l, Tool.SYRINGE).exact_product / unit


@pytest.mark.parametrize(
    ("percent", "strength", "volume", "unit", "printed", "share"),
    [
        # Illinois, How Much Product to Add in Handheld Sprayers: 0.5 % in 2 gallons, fl oz.
        ("0.5", "100", 2 * GALLON, OUNCE, "1.28", "0.0001"),
        # Pesticides in the Military MD0173: 55 gal of 1 % from a 48 % concentrate, gallons.
        ("1", "48", 55 * GALLON, GALLON, "1.146", "0.0005"),
        # Regina Math Central: 20 gal of concentrate at 0.5 % make 4,000 gal.
        ("0.5", "100", 4000 * GALLON, GALLON, "20", "0"),
        # Missouri G7510, pounds a gallon as percent of weight in water (8.345 lb): spoons a gallon, to the spoon.
        ("0.25", "23.96", GALLON, TEASPOON, "8", "0.05"),
        ("1", "47.93", GALLON, TABLESPOON, "5", "0.07"),
        ("0.5", "11.98", GALLON, TABLESPOON, "10", "0.07"),
        # Anoka County: 70 % alcohol thinned to about 25 %, for one litre: 357 mL by C1 V1 = C2 V2.
        ("25", "70", Decimal(1000), Decimal(1), "357", "0.001"),
    ],
)
def test_percent_rates_as_worked_by_others(  # noqa: PLR0917 - a row of a table
    percent: str, strength: str, volume: Decimal, unit: Decimal, printed: str, share: str
) -> None:
    rate = rate_of_percent(Decimal(percent), Share.ACTIVE, Decimal(strength))
    assert close(spoons(volume, rate, unit), printed, share)


@pytest.mark.parametrize(
    ("percent", "volume", "unit", "printed"),
    [
        # Colorado State soap sheet, Table 1, as restated: tablespoons a gallon, teaspoons a quart and a pint.
        ("1", GALLON, TABLESPOON, "2.5"),
        ("1", QUART, TEASPOON, "2"),
        ("1", PINT, TEASPOON, "1"),
        ("2", GALLON, TABLESPOON, "5"),
        ("2", QUART, TEASPOON, "4"),
        ("2", PINT, TEASPOON, "2"),
        ("3", GALLON, TABLESPOON, "8"),
    ],
)
def test_soap_by_the_spoon_as_colorado_has_it(
    percent: str, volume: Decimal, unit: Decimal, printed: str
) -> None:
    # The table rounds to the half spoon: 8 tablespoons stand for 7.68.
    rate = rate_of_percent(Decimal(percent), Share.PRODUCT, Decimal(49))
    assert close(spoons(volume, rate, unit), printed, "0.05")


@pytest.mark.parametrize(
    ("amount", "per", "volume", "unit", "printed", "share"),
    [
        # New England Vegetable guide: 1 pint and half a pint in 100 gallons, teaspoons for one gallon.
        (PINT, 100 * GALLON, GALLON, TEASPOON, "1", "0.05"),
        (PINT / 2, 100 * GALLON, GALLON, TEASPOON, "0.5", "0.05"),
        # Michigan State, PGR Dilution Guide: 38 mL a gallon, 50 gallons, mL.
        (Decimal(38), GALLON, 50 * GALLON, Decimal(1), "1900", "0"),
        # Label rates of neem and soap, mL a litre: 1 fl oz = 7.81, 2 1/2 fl oz = 19.5 a gallon.
        (OUNCE, GALLON, Decimal(1000), Decimal(1), "7.81", "0.0005"),
        (OUNCE * Decimal("2.5"), GALLON, Decimal(1000), Decimal(1), "19.5", "0.002"),
        # Agricultural cold-pressed neem label: 6 fl oz of surfactant in 20 gallons, 2.3 mL a litre.
        (6 * OUNCE, 20 * GALLON, Decimal(1000), Decimal(1), "2.3", "0.02"),
        # Two tablespoons an imperial gallon: 6.51 mL a litre.
        (2 * TABLESPOON, IMPERIAL_ML["gallon"], Decimal(1000), Decimal(1), "6.51", "0.001"),
    ],
)
def test_rates_by_volume_as_worked_by_others(  # noqa: PLR0917 - a row of a table
    amount: Decimal, per: Decimal, volume: Decimal, unit: Decimal, printed: str, share: str
) -> None:
    assert close(spoons(volume, rate_of_volume(amount, per), unit), printed, share)


@pytest.mark.parametrize(
    ("parts", "strength", "ppm", "share"),
    [
        ("99", "5", "500", "0"),  # World Health Organization 2014, Table G.1: 1:100 of 5 % is 0.05 %
        ("9", "5.25", "5250", "0"),  # fact sheet on bleach: 0.53 %, one in ten
        ("9", "6", "6000", "0"),
        ("9", "8.25", "8250", "0"),
        ("10", "5.25", "4773", "0.0001"),  # read as one plus ten
    ],
)
def test_bleach_by_parts(parts: str, strength: str, ppm: str, share: str) -> None:
    found = rate_of_parts(Decimal(parts)) * Decimal(strength) * 10
    assert close(found, ppm, share)


@pytest.mark.parametrize(
    ("parts", "percent"), [("9", "10.00"), ("10", "9.09"), ("3", "25.00"), ("19", "5.00"), ("99", "1.00")]
)
def test_parts_are_one_and_so_many(parts: str, percent: str) -> None:
    # 1 + N is 1 / (1 + N): 1 + 9 a tenth, 1 + 10 an eleventh.
    assert (rate_of_parts(Decimal(parts)) / 10).quantize(Decimal("0.01")) == Decimal(percent)
