"""What a reading is a reading of: its quantity, the right frequency, the limit it is held to."""

from typing import Annotated, Literal

from pydantic import Field

from engine.knowledge.document import Document, Id

Quantity = Literal["am-depth", "deviation", "frequency-error", "power", "sensitivity", "swr"]
# `own`: of the oscillator whose frequency the check looks at.
Point = Literal["transmit", "vco", "lo", "centre", "heard", "own"]
# The unit that a reading of a quantity may have.
UNITS: dict[str, frozenset[str]] = {
    "am-depth": frozenset({"%"}),
    "deviation": frozenset({"kHz", "Hz"}),
    "frequency-error": frozenset({"kHz", "Hz", "ppm"}),
    "power": frozenset({"W", "mW", "Vpp"}),
    "sensitivity": frozenset({"uV", "dBm", "dBuV"}),
    "swr": frozenset({"SWR"}),
}


class Measured(Document):
    """What is told of a reading beside its unit."""

    quantity: Quantity | None = None  # in what other ways it can be told
    nominal_mhz: Annotated[float, Field(gt=0)] | None = None  # of a frequency-error; else carrier
    nominal: Id | None = None  # the same as a figure of the family, in MHz
    scale: Id | None = None  # figure of the family that `reads` and `span` are multiples of
    limit: Id | None = None  # of the family's rule set
    frequency: Point | None = None  # which frequency of the set's plan it reads
