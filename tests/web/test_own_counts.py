"""Our own counts on the page: which model a log is worked out with, and where it is marked."""

import json
from typing import Any

import pytest

from engine.diagnosis.evidence import calibrated
from engine.diagnosis.kinds import NOT_SURE
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.making.kind_texts import kind_texts
from engine.diagnosis.mixing import mix
from engine.diagnosis.model import SetModel
from engine.diagnosis.sharpening import own_counts, sharpened
from engine.knowledge.library import Library
from tests.diagnosis.test_mixing import library as library
from web import answering, shelf
from web import own_counts as own_counts_of_page
from web.own_counts import model_of
from web.replaying import replay
from web.views.shelf.counts import rows_of


@pytest.fixture
def counted(small_model: SetModel) -> dict[str, Any]:
    """Return counts of ten sets, four with the first cause of the tiny set."""
    first = next(name for name, cause in small_model.causes.items() if cause.kind == "fault")
    return {"beacon": {"sets": 10, "times": {first: 4}}}


def test_a_log_without_counts_is_worked_out_with_the_knowledge(small_model: SetModel) -> None:
    """The very model, so that nothing is worked out twice."""
    models = {"beacon": small_model}
    assert model_of(models, {"family": "beacon"}) is small_model
    none = {"beacon": {"sets": 0, "times": {}}}
    assert model_of(models, {"family": "beacon", "counts": none}) is small_model


def test_a_log_with_counts_is_worked_out_with_the_sharpened_model(
    small_model: SetModel, counted: dict[str, Any]
) -> None:
    """The same counts give the same model; those of another kind of set change nothing."""
    models, log = {"beacon": small_model}, {"family": "beacon", "counts": counted}
    ((cause, times),) = counted["beacon"]["times"].items()
    ends = [[cause]] * times + [[]] * 6
    assert model_of(models, log) is sharpened(small_model, own_counts(ends))
    other = {"elsewhere": counted["beacon"]}
    assert model_of(models, {"family": "beacon", "counts": other}) is small_model


def test_the_table_has_every_cause_with_both_priors(
    small_model: SetModel, counted: dict[str, Any]
) -> None:
    """Confirmed causes come first; (250 prior + times) / (250 + sets) is what follows."""
    ((cause, times),) = counted["beacon"]["times"].items()
    rows = rows_of(small_model, own_counts([[cause]] * times + [[]] * 6))
    assert rows[0][:3] == (cause, small_model.causes[cause].title, 4)
    for _, _, number, before, after in rows:
        assert after == pytest.approx((250 * before + number) / 260, rel=1e-12)


def test_every_screen_and_the_text_are_marked(
    small_model: SetModel, counted: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """With counts the bench, the closing screen and the summary say so; without, none does."""
    monkeypatch.setitem(answering.MODELS, "beacon", small_model)
    monkeypatch.setattr(answering, "catalogue", lambda: ("0", ()))
    log = {"format": 1, "family": "beacon", "inputs": []}
    mark = "Counted in, beside the knowledge: 10 closed cases of our own"
    for more, wanted in (({}, False), ({"counts": counted}, True)):
        args = {"log": {**log, **more}, "view": {"screen": "bench"}}
        bench = answering.answer(json.dumps({"verb": "show", "args": args}))
        text = answering.answer(json.dumps({"verb": "summary", "args": args}))
        closing = {**args, "view": {"screen": "closing"}}
        closed = shelf.answer(json.dumps({"verb": "show", "args": closing}))
        assert [mark in each for each in (bench, text, closed)] == [wanted] * 3


def test_an_input_of_another_version_is_named(small_model: SetModel) -> None:
    """What it does is told, where there is no check to name."""
    state = replay(small_model, [{"do": "mended"}, {"do": "counter", "ppm": "0"}])
    assert state.set_aside == ("an entry of another version: mended", "counter: 0 ppm")


def test_whoever_is_not_sure_has_each_kind_sharpened_by_its_own_counts(
    library: Library, counted: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The kinds together are those of the sharpened kinds mixed; without counts, as they were."""
    models = {name: compile_family(library, name) for name in ("beacon", "bare")}
    kinds = kind_texts(library)
    assert kinds is not None
    models[NOT_SURE] = mix(models, kinds)
    monkeypatch.setattr(own_counts_of_page, "KINDS", [kinds])
    ((cause, times),) = counted["beacon"]["times"].items()
    log = {"family": NOT_SURE, "counts": counted}
    new = model_of(models, log)
    assert model_of(models, log) is new
    assert model_of(models, {"family": NOT_SURE}) is models[NOT_SURE]
    beacon = (250 * models["beacon"].causes[cause].prior + times) / 260
    mean = kinds.shares["beacon"] * beacon
    if cause in models["bare"].causes:
        mean += kinds.shares["bare"] * models["bare"].causes[cause].prior
    assert 1.0 - calibrated(new, ()).posterior(cause)[0] == pytest.approx(mean, abs=1e-12)
    assert (new.causes[cause].prior, new.counted_sets) == (pytest.approx(mean, rel=1e-12), 10)
