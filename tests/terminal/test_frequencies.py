"""The report of frequencies as text and as records, whole."""

from engine.diagnosis.frequencies.reporting import FrequencyReport, LineReport, OscillatorReport
from engine.diagnosis.model import CautionText
from engine.terminal.frequencies import frequency_lines, frequency_records

CAUTIONS = {"cores": CautionText("cores", "Cores break", "Use a tool that fits.", "estimate")}
FOUND = FrequencyReport(
    oscillators=(
        OscillatorReport(
            "loop",
            "Loop crystal",
            0.93,
            48.76,
            40.1,
            57.4,
            15.99625,
            15.99703,
            "lower it by about 780 Hz: more capacitance in its trimmer",
            True,
        ),
    ),
    lines=(LineReport("the lines count right", 0.98),),
)


def test_the_report_names_oscillator_offset_and_turn() -> None:
    """A table, what to turn, and what the counts mean."""
    assert "\n".join(frequency_lines(FOUND, CAUTIONS)) == (
        "oscillator    off     ppm    95 % of it      reads MHz  right MHz\n"
        "Loop crystal  93.0 %  +48.8  +40.1 to +57.4  15.997030  15.996250\n"
        "  ! Cores break: Use a tool that fits.\n"
        "  Loop crystal: lower it by about 780 Hz: more capacitance in its trimmer\n"
        "   98.0 %  the lines count right"
    )


def test_records_hold_full_precision() -> None:
    """A script gets numbers, not words."""
    assert frequency_records(FOUND) == {
        "oscillators": [
            {
                "id": "loop",
                "p_off": 0.93,
                "offset_ppm": 48.76,
                "interval_95_ppm": [40.1, 57.4],
                "reads_mhz": 15.99703,
                "right_mhz": 15.99625,
                "turn": "lower it by about 780 Hz: more capacitance in its trimmer",
            }
        ],
        "lines": [{"words": "the lines count right", "probability": 0.98}],
    }


def test_nothing_read_is_nothing_said() -> None:
    """Without a frequency there is no table and no record."""
    assert list(frequency_lines(None, {})) == []
    assert frequency_records(None) is None
