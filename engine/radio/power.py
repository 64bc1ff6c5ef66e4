"""Power and voltage in 50 ohm, and ratios in decibels.

References:
    V rms = sqrt(R P); V pp = 2 sqrt(2) V rms for a sine; dBm = 10 log10(P / 1 mW).
"""

from math import log10, sqrt

LINE_OHM = 50.0


def watt_from_dbm(dbm: float) -> float:
    """Return a power in watt.

    >>> round(watt_from_dbm(36.02), 2)
    4.0
    """
    return float(10.0 ** (dbm / 10.0) / 1000.0)


def dbm_from_watt(watt: float) -> float:
    """Return a power in dBm; `watt` must be above 0."""
    return 10.0 * log10(watt * 1000.0)


def watt_from_vpp(vpp: float, ohm: float = LINE_OHM) -> float:
    """Return the power of a sine of `vpp` volts peak to peak across a resistance.

    >>> watt_from_vpp(40.0)
    4.0
    """
    return vpp * vpp / (8.0 * ohm)


def vpp_from_watt(watt: float, ohm: float = LINE_OHM) -> float:
    """Return the peak-to-peak voltage of a sine that puts `watt` into a resistance."""
    return sqrt(8.0 * ohm * watt)


def watt_from_vrms(vrms: float, ohm: float = LINE_OHM) -> float:
    """Return the power of `vrms` volts across a resistance."""
    return vrms * vrms / ohm


def microvolt_from_dbm(dbm: float, ohm: float = LINE_OHM) -> float:
    """Return the voltage across a matched load, in microvolt.

    >>> round(microvolt_from_dbm(-73.01), 1)
    50.0
    """
    return sqrt(watt_from_dbm(dbm) * ohm) * 1e6


def microvolt_from_dbuv(dbuv: float) -> float:
    """Return a voltage in microvolt from decibels above one microvolt."""
    return float(10.0 ** (dbuv / 20.0))


def decibels_below(reference: float, lower: float) -> float:
    """Return by how many decibels a power is below another, both above 0 and in one unit.

    >>> round(decibels_below(4.0, 0.4), 9)
    10.0
    """
    return 10.0 * log10(reference / lower)


def power_below(reference: float, decibels: float) -> float:
    """Return the power that is so many decibels below another, in its unit.

    >>> round(power_below(4.0, 53.0103) * 1e6, 2)
    20.0
    """
    return float(reference * 10.0 ** (-decibels / 10.0))


def swr_from_powers(forward: float, back: float) -> float:
    """Return the standing-wave ratio from forward and reflected power, in one unit.

    `back` is at least 0 and below `forward`.

    >>> round(swr_from_powers(4.0, 0.444), 2)
    2.0
    """
    reflection = sqrt(back / forward)
    return (1.0 + reflection) / (1.0 - reflection)


def swr_from_return_loss(loss_db: float) -> float:
    """Return the standing-wave ratio from a return loss in dB, above 0.

    >>> round(swr_from_return_loss(9.54), 2)
    2.0
    """
    reflection = 10.0 ** (-loss_db / 20.0)
    return float((1.0 + reflection) / (1.0 - reflection))


def return_loss_from_swr(swr: float) -> float:
    """Return the return loss in dB; `swr` must be above 1."""
    return -20.0 * log10((swr - 1.0) / (swr + 1.0))


def dbm_from_microvolt(microvolt: float, ohm: float = LINE_OHM) -> float:
    """Return the power that a voltage puts into a matched load, in dBm.

    >>> round(dbm_from_microvolt(50.0), 2)
    -73.01
    """
    return dbm_from_watt((microvolt * 1e-6) ** 2 / ohm)
