"""The set model with the counter of a kit in it."""

from dataclasses import replace
from functools import lru_cache

from engine.diagnosis.case import Kit
from engine.diagnosis.frequencies.model import Counter
from engine.diagnosis.model import SetModel

SD_OF_LIMIT = 0.6  # of a tolerance, as a standard deviation: even up to the limit is 0.58


def fitted(model: SetModel, kit: Kit) -> SetModel:
    """Return the model with the error of the kit's own counter, where the kit tells it."""
    if kit.counter_ppm is None or model.frequencies is None:
        return model
    return _with_counter(model, kit.counter_ppm)


@lru_cache(maxsize=8)
def _with_counter(model: SetModel, limit_ppm: float) -> SetModel:
    assert model.frequencies is not None
    counter = Counter(SD_OF_LIMIT * limit_ppm, model.frequencies.counter.resolution_hz)
    return replace(model, frequencies=replace(model.frequencies, counter=counter))
