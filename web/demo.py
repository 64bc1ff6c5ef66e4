"""A worked case to look at. The cooperative, the set and the case are invented."""

from typing import Any

DEMO: dict[str, Any] = {
    "format": 1,
    "family": "three-crystal-fm",
    "inputs": [
        {
            "do": "note",
            "text": "Invented case: set 7 of the shepherds' cooperative, from the quad bike of the "
            "upper fold. Receives well; the other farms hear nothing of it.",
        },
        {
            "do": "kit",
            "instruments": [
                "multimeter",
                "dummy-load",
                "rf-power-meter",
                "oscilloscope",
                "tools",
                "second-set",
            ],
        },
        {"do": "lid", "lid": "off"},
        {"do": "answer", "check": "operating.no-trace-at-others", "said": "yes"},
        {"do": "answer", "check": "operating.reception-as-always", "said": "yes"},
        {"do": "answer", "check": "meter.meter-on-transmit", "said": "still"},
        {"do": "answer", "check": "power-setting.output-supply-high", "said": "11.3 V"},
        {"do": "answer", "check": "lock-detector.permit-volts", "said": "on-all"},
    ],
}
