from collections import Counter
from math import sqrt

import pytest

from engine.assessing.drawing import TooRare, drawn_set, one_cause
from engine.assessing.known_wrongly import Knowledge

SETS = 4000


def test_draws_follow_the_priors(right: Knowledge) -> None:
    """Over whole sets each cause is there as often as its prior says, within five deviations."""
    times: Counter[str] = Counter()
    for number in range(SETS):
        bench = drawn_set(right.truth, right.network, "any", f"prior {number}")
        times.update(cause for cause, _ in bench.there)
    for cause in right.truth.causes.values():
        if cause.kind != "event":
            away = abs(times[cause.id] / SETS - cause.prior)
            assert away <= 5.0 * sqrt(cause.prior / SETS) + 1.0 / SETS, cause.id


@pytest.mark.parametrize("faults", ["1", "2", "3"])
def test_as_many_causes_are_there_as_were_wanted(frail: Knowledge, faults: str) -> None:
    """Events do not count: nobody can repair those."""
    bench = drawn_set(frail.truth, frail.network, faults, "seven")
    assert len(bench.there) == int(faults)


def test_the_same_seed_draws_the_same_set_that_answers_the_same(right: Knowledge) -> None:
    """A check answers the same whichever checks came before it."""
    first = drawn_set(right.truth, right.network, "some", "seven")
    again = drawn_set(right.truth, right.network, "some", "seven")
    checks = list(right.truth.checks)
    assert first.truth == again.truth
    there, back = [first.answer(name) for name in checks], [again.answer(n) for n in checks[::-1]]
    assert there == back[::-1]


def test_a_repair_takes_the_cause_away_and_what_hung_on_it(right: Knowledge) -> None:
    """The rail is right again once the battery is charged."""
    bench = one_cause(right.truth, right.network, "supply.flat-battery", "seven")
    assert [cause for cause, _ in bench.there] == ["supply.flat-battery"]
    mended = bench.put_right("supply.flat-battery")
    assert mended.there == ()
    assert (bench.truth["supply.rail"], mended.truth["supply.rail"]) != (0, 0)
    assert mended.truth["supply.rail"] == 0


def test_answers_come_as_often_as_the_check_says(right: Knowledge) -> None:
    """Of a set in order the symptom shows in one set of fifty: within five deviations."""
    answers = Counter(
        one_cause(right.truth, right.network, "sender.preset", f"{n}").answer("supply.dark").outcome
        for n in range(2000)
    )
    assert abs(answers["yes"] / 2000 - 0.02) <= 5.0 * sqrt(0.02 / 2000)


def test_so_many_faults_that_hardly_ever_come_together_are_told(right: Knowledge) -> None:
    """A kind of set with four causes in all can have no nine."""
    with pytest.raises(TooRare) as told:
        drawn_set(right.truth, right.network, "9", "seven")
    assert str(told.value) == (
        "beacon: found no set with 9 causes in 20000 draws from the priors\n"
        "  Ask for fewer faults at once."
    )
