"""Modulation: deviation by carrier null, Carson's bandwidth, depth of AM, peak envelope power.

References:
    Abramowitz & Stegun, Handbook of Mathematical Functions, table 9.5: zeros of J0.
    J. R. Carson, Notes on the theory of modulation, Proc. IRE 10 (1922): B = 2 (D + f).
"""

BESSEL_ZEROS = (2.404826, 5.520078, 8.653728)  # of J0: where the carrier of an FM signal vanishes


def deviation_from_null(tone_hz: float, null: int = 1) -> float:
    """Return the peak deviation in Hz at the first, second or third null of the carrier.

    >>> round(deviation_from_null(1040.0))
    2501
    """
    return tone_hz * BESSEL_ZEROS[null - 1]


def null_tone(deviation_hz: float, null: int = 1) -> float:
    """Return the tone in Hz at which a deviation in Hz makes the carrier vanish."""
    return deviation_hz / BESSEL_ZEROS[null - 1]


def carson_bandwidth(deviation_hz: float, highest_tone_hz: float) -> float:
    """Return the bandwidth in Hz that holds nearly all of an FM signal.

    >>> carson_bandwidth(2500.0, 3000.0)
    11000.0
    """
    return 2.0 * (deviation_hz + highest_tone_hz)


def am_depth(largest: float, smallest: float) -> float:
    """Return the depth of modulation from the envelope on a scope, 1 when it just touches zero.

    >>> am_depth(74.0, 6.0)
    0.85
    """
    return (largest - smallest) / (largest + smallest)


def peak_envelope_watt(carrier_watt: float, depth: float) -> float:
    """Return the peak envelope power of an AM signal of a depth, in watt.

    >>> peak_envelope_watt(4.0, 1.0)
    16.0
    """
    return carrier_watt * (1.0 + depth) ** 2


def mean_watt(carrier_watt: float, depth: float) -> float:
    """Return the mean power of a carrier modulated by one tone, in watt.

    >>> mean_watt(4.0, 1.0)
    6.0
    """
    return carrier_watt * (1.0 + depth * depth / 2.0)
