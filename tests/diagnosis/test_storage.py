import json

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, fingerprint, load_model
from tests.diagnosis.conftest import CaseOf, Edited

SAID = {"sender.weak": "faint", "supply.rail-volts": "9 V", "past.fell": "cannot-check"}


def test_what_was_written_is_read_back(beacon: SetModel) -> None:
    """Every field, to the last bit of every number."""
    text = dump_model(beacon)
    loaded = load_model(text)
    assert dump_model(loaded) == text
    assert loaded.checks == beacon.checks
    assert loaded.causes == beacon.causes
    assert loaded.signals == beacon.signals
    assert loaded.blocks == beacon.blocks
    assert loaded.cut_sets == beacon.cut_sets
    assert loaded.family == beacon.family
    assert loaded.tree.cliques == beacon.tree.cliques
    assert loaded.tree.homes == beacon.tree.homes


def test_a_loaded_model_gives_the_same_answers(beacon: SetModel, case_of: CaseOf) -> None:
    """Posteriors, gains, explanations and outlooks, to the last bit."""
    loaded = load_model(dump_model(beacon))
    case = case_of(beacon, SAID)
    assert step(loaded, case) == step(beacon, case)
    assert explanations(loaded, case, 9) == explanations(beacon, case, 9)
    assert what_if(loaded, case, "sender.power") == what_if(beacon, case, "sender.power")


def test_the_whole_family_is_read_back(model: SetModel) -> None:
    """With all its checks, readings and tables."""
    text = dump_model(model)
    assert dump_model(load_model(text)) == text


def test_another_format_is_refused(beacon: SetModel) -> None:
    """With what to do about it."""
    data = json.loads(dump_model(beacon))
    with pytest.raises(ValueError, match="format") as caught:
        load_model(json.dumps({**data, "format": 3}))
    assert str(caught.value) == "format: found 3, expected 2; build the site anew"


def test_the_version_names_the_knowledge(beacon: SetModel, edited: Edited) -> None:
    """The same knowledge gives the same twelve digits, other knowledge others."""
    again = edited()
    other = edited(("blocks/sender.yaml", "prior: 0.01", "prior: 0.011"))
    assert len(beacon.version) == 12
    assert again.version == beacon.version
    assert other.version != beacon.version
    assert fingerprint(beacon) == fingerprint(again)


def test_how_a_set_is_set_up_travels_with_its_model(model: SetModel) -> None:
    """Each adjustment with what is wanted, as it was made."""
    again = load_model(dump_model(model))
    assert model.setting_up is not None
    assert again.setting_up == model.setting_up
