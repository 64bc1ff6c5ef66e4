"""What came of a set that somebody worked on until it was repaired, set up and proved."""

from dataclasses import dataclass, field
from typing import Literal

from engine.assessing.faulty_set import Way

Proof = Literal["right", "poor", "not-shown", "fails", "none"]
PROOFS: tuple[Proof, ...] = ("right", "poor", "not-shown", "fails", "none")
KEEPS_ITS_RULES: tuple[Proof, ...] = ("right", "poor")


@dataclass(frozen=True, slots=True)
class Minutes:
    """Where the time went: checks with their effort, repairs, setting up, proving."""

    checks: float = 0.0
    repairs: float = 0.0
    setting_up: float = 0.0
    proving: float = 0.0

    @property
    def all(self) -> float:
        """The whole of it."""
        return self.checks + self.repairs + self.setting_up + self.proving


@dataclass(frozen=True, slots=True)
class Mended:
    """What came of one set.

    `there` is what was wrong when it came, `left` what is wrong when it goes, `latent` those of it
    that no signal shows. A repair is needless when its cause was not there, blind when no verdict
    named it. `proof` is the verdict of the last one, `points` how many were read in it, of how
    many. `proofs` counts how often the set was proved. `is_noticed` is false of a set whose owner
    had nothing to complain of, so that it never came.
    """

    there: tuple[Way, ...]
    left: tuple[Way, ...]
    latent: tuple[Way, ...] = ()
    is_noticed: bool = True
    is_content: bool = False
    checks: int = 0
    repairs: int = 0
    needless: int = 0
    blind: int = 0
    visits: int = 0  # to adjustments
    stuck: int = 0  # of these, how often one would not come right
    proofs: int = 0
    proof: Proof = "none"
    points: tuple[int, int] = (0, 0)
    minutes: Minutes = field(default_factory=Minutes)

    @property
    def is_clean(self) -> bool:
        """Whether nothing is left that any signal shows."""
        return set(self.left) == set(self.latent)

    @property
    def is_restored(self) -> bool:
        """Whether nothing is left that any signal shows, and no point of the last proof failed."""
        return self.is_clean and self.proof != "fails"

    @property
    def is_proved(self) -> bool:
        """Whether it is restored, and every limit was kept as far as the instruments can tell."""
        return self.is_clean and self.proof in KEEPS_ITS_RULES
