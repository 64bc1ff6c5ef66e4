"""Which frequency to read next: for each point, the channel that tells most."""

from collections.abc import Mapping, Sequence
from operator import sub

from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import frequency_readings
from engine.diagnosis.frequencies.choosing import Outlook, outlook
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.frequencies.reporting import FrequencyReport, report
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.propagation import Calibration

MOVED = 1e-3  # what leaves every joint state so much as it was tells nothing worth a reading


def frequency_outlook(
    model: SetModel, findings: Sequence[Finding], calibration: Calibration
) -> Outlook | None:
    """Return what is believed of the frequencies, None for a set whose plan is not known."""
    if model.frequencies is None:
        return None
    readings = frequency_readings(model, findings)
    return outlook(model.frequencies, readings, calibration.posterior(FREQUENCIES))


def frequency_report(
    model: SetModel, findings: Sequence[Finding], calibration: Calibration
) -> FrequencyReport | None:
    """Return what the frequencies that were read come to, None when none was read."""
    readings = frequency_readings(model, findings)
    if model.frequencies is None or not readings or not calibration.is_possible:
        return None
    return report(model.frequencies, readings, calibration.posterior(FREQUENCIES))


def best_channels(
    believed: Outlook, open_checks: Sequence[CheckText]
) -> list[tuple[CheckText, float]]:
    """Return for each check that reads a frequency its best channel and the gain in bits there.

    `open_checks` are those still to be made; each stands for one channel.
    """
    by_base: dict[str, dict[int, CheckText]] = {}
    for check in open_checks:
        if check.at is not None:
            by_base.setdefault(check.at.check, {})[check.at.channel] = check
    found = []
    for channels in by_base.values():
        at = next(iter(channels.values())).at
        assert at is not None
        for row in believed.gains(at.point, at.mode):
            best = channels.get(row.channel) or channels.get(0)
            if best is not None:
                found.append((best, row.gain_bits))
                break
    return found


def told_of_frequencies(
    model: SetModel,
    findings: Sequence[Finding],
    parts: tuple[Calibration, Calibration, float],
    checks: Sequence[CheckText],
    of_all: Mapping[str, float],
) -> dict[str, float]:
    """Return what readings tell about one thing, there or not, in bits by check.

    By the chain rule a reading tells of it what it tells of everything, less what it would tell
    with that thing known: I(reading; everything) = I(reading; thing) + I(reading; rest | thing).

    Args:
        model: The set; its plan is known where it has `checks`.
        findings: What was found, frequencies that were read among it.
        parts: Calibrated without knowing of the thing and with it there; its chance, below 1.
        checks: Checks that read a frequency.
        of_all: What each of them tells of everything, by check.
    """
    now, there, chance = parts
    before, given = now.posterior(FREQUENCIES), there.posterior(FREQUENCIES)
    if model.frequencies is None or max(map(abs, map(sub, before, given))) < MOVED:
        return {check.id: 0.0 for check in checks}
    without = [
        max(p - chance * q, 0.0) / (1.0 - chance) for p, q in zip(before, given, strict=True)
    ]
    readings = frequency_readings(model, findings)
    yes, no = (outlook(model.frequencies, readings, each) for each in (given, without))
    return {
        check.id: max(
            of_all[check.id] - chance * _gain(yes, check) - (1.0 - chance) * _gain(no, check), 0.0
        )
        for check in checks
    }


def _gain(believed: Outlook, check: CheckText) -> float:
    """Return what a reading tells on the channel of `check`; a point with one has only that."""
    assert check.at is not None
    rows = believed.gains(check.at.point, check.at.mode)
    found = (row.gain_bits for row in rows if row.channel == check.at.channel)
    return next(found, rows[0].gain_bits)
