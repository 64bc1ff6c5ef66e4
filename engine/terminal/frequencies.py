"""What the frequencies that were read come to, as text and as records."""

from collections.abc import Iterator, Mapping
from typing import Any

from engine.diagnosis.frequencies.reporting import BEFORE_TURNING, FrequencyReport
from engine.diagnosis.model import CautionText
from engine.terminal.columns import columns


def frequency_lines(
    found: FrequencyReport | None, cautions: Mapping[str, CautionText]
) -> Iterator[str]:
    """Yield a table of the oscillators, cautions before turns, and what the counts may mean."""
    if found is None:
        return
    rows = [
        (
            each.title,
            f"{100.0 * each.p_off:.1f} %",
            f"{each.offset_ppm:+.1f}",
            f"{each.low_ppm:+.1f} to {each.high_ppm:+.1f}",
            f"{each.reads_mhz:.6f}",
            f"{each.right_mhz:.6f}",
        )
        for each in found.oscillators
    ]
    yield columns(("oscillator", "off", "ppm", "95 % of it", "reads MHz", "right MHz"), rows)
    if any(each.is_to_be_turned for each in found.oscillators):
        known = (cautions[name] for name in BEFORE_TURNING if name in cautions)
        yield from (f"  ! {caution.title}: {caution.text}" for caution in known)
    yield from (f"  {each.title}: {each.turn}" for each in found.oscillators)
    yield from (f"  {100.0 * each.probability:5.1f} %  {each.words}" for each in found.lines)


def frequency_records(found: FrequencyReport | None) -> dict[str, Any] | None:
    """Return the same for scripts: offsets in ppm, frequencies in MHz, chances in [0, 1]."""
    if found is None:
        return None
    return {
        "oscillators": [
            {
                "id": each.id,
                "p_off": each.p_off,
                "offset_ppm": each.offset_ppm,
                "interval_95_ppm": [each.low_ppm, each.high_ppm],
                "reads_mhz": each.reads_mhz,
                "right_mhz": each.right_mhz,
                "turn": each.turn,
            }
            for each in found.oscillators
        ],
        "lines": [{"words": each.words, "probability": each.probability} for each in found.lines],
    }
