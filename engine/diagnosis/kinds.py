"""What is not sure yet: which kind of set it is. Plain values, as a browser loads them."""

from dataclasses import dataclass

from engine.diagnosis.model import BlockText, CheckText, SignalText

NOT_SURE = "not-sure"  # in place of a family: the kind is to be found as well
KIND = "set.kind"  # the variable that says which


@dataclass(frozen=True, slots=True)
class KindTexts:
    """How common each family is, and the checks that tell them apart."""

    shares: dict[str, float]  # by family, sum 1
    block: BlockText
    signal: SignalText  # its states are the families
    checks: dict[str, CheckText]
