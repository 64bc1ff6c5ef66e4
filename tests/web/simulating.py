"""Answers checks as a set with one known fault would, most likely outcome first."""

from engine.assessing.frequency_truth import truth_of
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.mixture import calibrate


class FaultySet:
    """A set in which `cause` is there in its way `way`; everything else as usual."""

    def __init__(self, model: SetModel, cause: str, way: str) -> None:
        self.model = model
        states = ["fine", *model.causes[cause].ways]
        held = {cause: [1.0 if state == way else 0.0 for state in states]}
        self.calibration = calibrate(model.tree, held)

    def says(self, check_id: str) -> str:
        """Return the answer to a check, as a person would give it."""
        check = self.model.checks[check_id]
        states = self.calibration.posterior(check.looks_at)
        if check.at is not None and self.model.frequencies is not None:
            state = states.index(max(states))
            value = truth_of(self.model.frequencies, state).value(check)
            return f"{value:+.4f} {check.unit}"
        if check.meter is not None:
            return self._reads(check, states)
        outcomes = list(check.outcomes)
        chances = [
            sum(p * row[column] for p, row in zip(states, check.channel.rows, strict=True))
            for column in range(len(outcomes))
        ]
        return outcomes[chances.index(max(chances))]

    def _reads(self, check: CheckText, states: list[float]) -> str:
        assert check.meter is not None
        spread = check.meter.spreads[states.index(max(states))]
        return f"{(spread.low + spread.high) / 2:.5g} {check.unit}"
