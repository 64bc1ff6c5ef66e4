import pytest

from engine.diagnosis.auditing.stated_priors import far_priors, spoken_of
from tests.diagnosis.auditing.bad_examples import FAR_PRIORS
from tests.diagnosis.conftest import small_library


def test_priors_far_from_their_part_class_are_named() -> None:
    """0.2 per 1e6 h in 1e4 h is 0.0012 shorts and 0.0008 opens; the joint is the rarest mode."""
    far = {one.cause: one for one in far_priors(small_library(FAR_PRIORS))}
    assert list(far) == ["sender.small-transistor", "sender.odd-thing"]
    transistor, odd = far.values()
    assert (transistor.part, transistor.prior) == ("transistor", 0.1)
    assert (transistor.least, transistor.most) == pytest.approx((0.0008, 0.0012))
    assert (odd.part, odd.prior) == ("", 0.000001)
    assert (odd.least, odd.most) == pytest.approx((0.0001, 0.0012))


def test_a_class_is_spoken_of_by_all_its_words() -> None:
    """In the name or in the title."""
    library = small_library(FAR_PRIORS)
    cause = library.blocks["sender"].causes["odd-thing"]
    assert spoken_of("dry-joint", cause, library.parts) == "joint"
    assert spoken_of("odd-thing", cause, library.parts) == ""
