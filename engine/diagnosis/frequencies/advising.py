"""Which frequency to read next: for each point, the channel that tells most."""

from collections.abc import Sequence

from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import frequency_readings
from engine.diagnosis.frequencies.choosing import Outlook, outlook
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.frequencies.reporting import FrequencyReport, report
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.propagation import Calibration


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
