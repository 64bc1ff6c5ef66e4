from math import log2

import pytest

from engine.diagnosis.auditing.alike import Alike, alike
from engine.diagnosis.auditing.single import audited
from engine.inference.mixture import calibrate
from tests.diagnosis.auditing.bad_examples import ALIKE_OUTSIDE, TWIN_WAYS, TWINS
from tests.diagnosis.conftest import Edit, Edited, small_library

FLAT_OR_JOINT = Alike(
    (("supply.flat-battery", "empty"), ("supply.fuse-joint", "present")), (), ("drop",)
)


@pytest.mark.parametrize(
    ("edits", "expected"),
    [
        ((), ()),
        (
            (TWINS,),
            (Alike((("sender.bias-part", "present"), ("sender.bias-wire", "present")), (), ()),),
        ),
        (
            (ALIKE_OUTSIDE,),
            (
                Alike(
                    (("sender.bias-part", "present"), ("sender.coupling", "present")),
                    ("sender.drive",),
                    (),
                ),
            ),
        ),
        ((TWIN_WAYS,), (Alike((("sender.core", "in"), ("sender.core", "out")), (), ()),)),
    ],
    ids=["as it is", "two causes", "differ in a signal nobody looks at", "two ways of a cause"],
)
def test_groups_name_what_would_separate_them(
    edits: tuple[Edit, ...], expected: tuple[Alike, ...]
) -> None:
    """Groups of several causes first; signals that differ, and events that bring about some."""
    found = alike(audited(small_library(*edits), "beacon"))
    assert set(found) == {*expected, FLAT_OR_JOINT}
    assert [len(group.causes) for group in found] == sorted(
        (len(group.causes) for group in found), reverse=True
    )


def test_no_answer_moves_the_odds_between_them(edited: Edited) -> None:
    """By the compiled set: with nothing else wrong, each answer is as likely under both twins."""
    model = edited(TWINS)
    rest = {name: [1.0] + [0.0] * len(one.ways) for name, one in model.causes.items()}
    known = [
        calibrate(model.tree, {**rest, twin: [0.0, 1.0]})
        for twin in ("sender.bias-part", "sender.bias-wire")
    ]
    for check in model.checks.values():
        one, other = (each.posterior(check.looks_at) for each in known)
        assert one == pytest.approx(other, abs=1e-12), check.id


def test_ways_that_are_not_alike_are_told_apart_by_some_check() -> None:
    """Between any two ways of different groups some outcome weighs, between those of one none."""
    seen = audited(small_library(TWINS), "beacon")
    together = {way: number for number, group in enumerate(alike(seen)) for way in group.ways}
    ways = list(seen.truths)
    for place, one in enumerate(ways):
        for other in ways[:place]:
            weighs = any(
                abs(log2(a / b)) > 1e-9
                for check in seen.checks.values()
                for a, b in zip(
                    check.channel.rows[seen.truths[one][check.looks_at]],
                    check.channel.rows[seen.truths[other][check.looks_at]],
                    strict=True,
                )
                if a > 0.0 and b > 0.0
            )
            is_alike = one in together and together[one] == together.get(other)
            assert weighs is not is_alike, (one, other)
