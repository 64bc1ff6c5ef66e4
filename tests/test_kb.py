"""The real knowledge base: it is right, and it holds what it promises."""

import re

import pytest

from engine.diagnosis.model import SetModel
from engine.errors import KnowledgeError
from engine.knowledge.census import Census, census
from engine.knowledge.library import Library, load, read_texts
from engine.knowledge.schema import Block, Check
from engine.knowledge.wavering import WHOLE_SET
from tests.conftest import FAMILY, KB


@pytest.fixture(scope="module")
def blocks(library: Library) -> dict[str, Block]:
    """Return the blocks of the family."""
    return dict(library.of(FAMILY).blocks)


@pytest.fixture(scope="module")
def counted(blocks: dict[str, Block]) -> Census:
    """Return how much the family holds."""
    return census(blocks.values())


@pytest.fixture(scope="module")
def checks(blocks: dict[str, Block]) -> dict[str, Check]:
    """Return all checks of the family by their global id."""
    return {
        f"{name}.{check_name}": check
        for name, block in blocks.items()
        for check_name, check in block.checks.items()
    }


@pytest.mark.parametrize(
    "file", ["blocks/driver.yaml", "plans/multi-crystal-sideband.yaml", "tables/setting-up.yaml"]
)
def test_an_unreadable_file_brings_no_other_problems(file: str) -> None:
    """What families say of it for setting up is not complained of."""
    texts = read_texts(KB)
    assert file in texts
    with pytest.raises(KnowledgeError) as caught:
        load({**texts, file: "title: [\n"})
    assert {problem.file for problem in caught.value.problems} == {file}


def test_every_block_belongs_to_a_family(library: Library) -> None:
    """No file lies about unused."""
    used = {name for family in library.families.values() for name in family.blocks}
    assert set(library.blocks) == used


def test_there_are_enough_blocks(counted: Census) -> None:
    """The set is taken apart into 42 stages or more."""
    assert counted.blocks >= 42


@pytest.mark.parametrize(
    ("kinds", "least"),
    [
        ({"fault", "adjustment", "modification", "outside", "control", "event"}, 400),
        ({"adjustment"}, 35),
        ({"modification", "outside", "control"}, 85),
    ],
    ids=["all", "adjustments", "from elsewhere"],
)
def test_there_are_enough_causes(kinds: set[str], least: int, counted: Census) -> None:
    """Parts fail, but as often something is mis-set, modified, outside, or in the wrong place."""
    assert sum(counted.causes[kind] for kind in kinds) >= least


def test_there_are_enough_checks(counted: Census) -> None:
    """64 symptoms or more, and 570 other checks or more."""
    symptoms = counted.checks["symptom"]
    assert symptoms >= 64
    assert sum(counted.checks.values()) - symptoms >= 570


def test_every_check_at_the_bench_says_where_or_how(checks: dict[str, Check]) -> None:
    """A reading says both; for a look at one part, or by ear, one of the two is enough."""
    readings = {name: check for name, check in checks.items() if check.kind == "reading"}
    looks = {name: check for name, check in checks.items() if check.kind == "look"}
    assert [name for name, check in readings.items() if not (check.where and check.how)] == []
    assert [name for name, check in looks.items() if not (check.where or check.how)] == []


def test_every_reading_in_transmit_names_load_and_caution(checks: dict[str, Check]) -> None:
    """Before the button is pressed, the load is connected and the warning read."""
    keyed = {
        name: check
        for name, check in checks.items()
        if check.kind in ("reading", "look") and check.mode == "transmit"
    }
    assert [name for name, check in keyed.items() if not (check.load and check.cautions)] == []


def test_no_named_outcome_rules_a_state_out(model: SetModel) -> None:
    """Each can be seen in every state, if rarely: named outcomes alone cannot clash."""
    tied = [check for check in model.checks.values() if check.block != WHOLE_SET]
    named = [check for check in tied if check.meter is None]
    assert len(named) > 400
    assert [check.id for check in named if not all(map(all, check.channel.rows))] == []


def test_no_text_is_left_to_write() -> None:
    """Nothing in the knowledge base stands in for words still to come."""
    unwritten = re.compile(r"\b(TO WRITE|TODO|TBD|FIXME|XXX)\b")
    texts = {path: path.read_text(encoding="utf-8") for path in sorted(KB.rglob("*.yaml"))}
    assert [path.name for path, text in texts.items() if unwritten.search(text)] == []


def test_every_adjustment_says_how_it_is_set(library: Library) -> None:
    """What can be mis-set is told with what is wanted, where it is read, and how it is turned."""
    silent = [
        f"{name}.{cause_name}"
        for name, block in library.blocks.items()
        for cause_name, cause in block.causes.items()
        if cause.kind == "adjustment" and cause.setting is None
    ]
    assert silent == []


def test_nobody_is_let_key_without_being_warned(library: Library) -> None:
    """A generator at the set, or an instrument that is read while keyed, brings its caution."""
    bare = [
        (f"{block_id}.{name}", caution)
        for block_id, block in library.blocks.items()
        for name, check in block.checks.items()
        for caution, is_needed in (
            ("no-keying-into-generator", "signal-generator" in check.needs),
            ("brief-keying", check.mode == "transmit" and bool(check.needs)),
        )
        if is_needed and caution not in check.cautions
    ]
    assert bare == []


def test_an_open_set_brings_its_warnings(library: Library) -> None:
    """Keyed with the lid off, RF may burn; a meter on a set that is off wants it discharged."""
    bare = [
        (f"{block_id}.{name}", caution)
        for block_id, block in library.blocks.items()
        for name, check in block.checks.items()
        for caution, is_needed in (
            ("rf-burns", check.mode == "transmit"),
            ("discharge", check.mode == "off" and "multimeter" in check.needs),
        )
        if is_needed and check.lid == "off" and caution not in check.cautions
    ]
    assert bare == []


def test_every_adjustment_says_what_is_turned(library: Library) -> None:
    """The title of a cause tells what is wrong; a step needs what is turned."""
    untitled = [
        f"{block}.{name}"
        for block, one in library.blocks.items()
        for name, cause in one.causes.items()
        if cause.setting is not None and cause.setting.title is None
    ]
    assert untitled == []
