from engine.diagnosis.auditing.explained import Explained, hardly_explained, unnoticed_causes
from engine.diagnosis.auditing.single import audited
from tests.diagnosis.auditing.bad_examples import NO_CAUSE, ONE_CAUSE, UNNOTICED
from tests.diagnosis.conftest import Edit, small_library


def explained(*edits: Edit) -> list[Explained]:
    """Return the symptoms that are hardly explained, after edits."""
    return list(hardly_explained(audited(small_library(*edits), "beacon")))


def test_a_symptom_of_several_causes_is_no_note() -> None:
    """Battery and fuse make it dark, five causes make it weak."""
    assert explained() == []


def test_a_symptom_of_one_cause_names_it() -> None:
    """Whoever answers yes has named the cause."""
    assert explained(ONE_CAUSE) == [Explained("sender.knob-loose", ("sender.preset",))]


def test_a_symptom_of_no_cause_is_named() -> None:
    """Its chances hardly move: 0.10 in order, 0.12 at worst."""
    assert explained(NO_CAUSE) == [Explained("sender.dull", ())]


def test_causes_that_no_owner_notices_are_named() -> None:
    """They show at the bench only."""
    assert list(unnoticed_causes(audited(small_library(), "beacon"))) == []
    seen = audited(small_library(*UNNOTICED), "beacon")
    assert list(unnoticed_causes(seen)) == ["sender.screen"]
