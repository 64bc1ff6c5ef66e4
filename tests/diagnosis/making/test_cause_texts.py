from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import Mending, SetModel
from engine.diagnosis.storage import dump_model, load_model
from engine.knowledge.library import Library, load, read_texts
from tests.diagnosis.conftest import SMALL

TABLE = """\
prove: {minutes: 2, source: estimate}
hand-over: {minutes: 200, source: estimate}
getting:
  nothing: {title: No part is needed, worth-min: 0, source: estimate}
  drawer: {title: In any drawer, worth-min: 5, source: estimate}
kinds:
  fault: {minutes: 30, does-it: 0.9, getting: drawer, lid: "off", source: estimate}
  adjustment: {minutes: 10, does-it: 0.95, getting: nothing, lid: "off", source: estimate}
  modification: {minutes: 30, does-it: 0.9, getting: drawer, lid: "off", source: estimate}
  outside: {minutes: 20, does-it: 0.9, getting: nothing, lid: "on", source: estimate}
  control: {minutes: 1, does-it: 1, getting: nothing, lid: "on", source: estimate}
  unlisted: {minutes: 120, does-it: 0.5, getting: drawer, lid: "off", source: estimate}
parts:
  joint: {minutes: 8, getting: nothing, source: estimate}
"""


def with_repairs(table: str = TABLE) -> Library:
    """Return the tiny knowledge base with a table of repairs."""
    return load({**read_texts(SMALL), "tables/repairs.yaml": table})


def test_causes_carry_what_their_repair_takes() -> None:
    """By part class, else by kind; no event is repaired, what is outside needs no lid off."""
    model = load_model(dump_model(compile_family(with_repairs(), "beacon")))
    figures = {
        name: (cause.work_min, cause.part_min, cause.does_it, cause.inside)
        for name, cause in model.causes.items()
    }
    assert figures == {
        "supply.flat-battery": (20, 0, 0.9, False),
        "supply.fuse-joint": (8, 0, 0.9, True),
        "supply.unlisted-rail": (120, 5, 0.5, True),
        "sender.output-transistor": (30, 5, 0.9, True),
        "sender.preset": (10, 0, 0.95, True),
        "sender.unlisted-drive": (120, 5, 0.5, True),
        "sender.unlisted-output": (120, 5, 0.5, True),
        "past.drop": (0, 0, 0, True),
    }
    assert model.mending == Mending(2, 200)


def test_without_the_table_nothing_is_known_of_repairs(beacon: SetModel) -> None:
    """The tiny knowledge base has none."""
    assert beacon.mending is None
    assert {cause.does_it for cause in beacon.causes.values()} == {0.0}
