from collections.abc import Callable
from pathlib import Path

import pytest

from engine.diagnosis.case import Case, Kit, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.knowledge.library import Library, load, read_texts

SMALL = Path(__file__).parents[1] / "knowledge" / "small"

Edit = tuple[str, str, str]  # file, old text, new text
Edited = Callable[..., SetModel]
CaseOf = Callable[..., Case]

NEVER_WRONG: tuple[Edit, ...] = (
    ("blocks/sender.yaml", "wrong: 0.1", "wrong: 0"),
    (
        "blocks/supply.yaml",
        "{right: 0.02, low: 0.2, absent: 0.97}",
        "{right: 0, low: 0.2, absent: 1}",
    ),
)


def small_library(*edits: Edit) -> Library:
    """Return the tiny knowledge base after edits of its files."""
    texts = read_texts(SMALL)
    for file, old, new in edits:
        assert texts[file].count(old) == 1, old
        texts[file] = texts[file].replace(old, new)
    return load(texts)


@pytest.fixture(scope="session")
def beacon(edited: Edited) -> SetModel:
    """Return a tiny invented set: a supply, a sender, and a past."""
    return edited()


@pytest.fixture(scope="session")
def edited() -> Edited:
    """Return what compiles the tiny set after edits of its files."""

    def compiled(*edits: Edit) -> SetModel:
        return compile_family(small_library(*edits), "beacon")

    return compiled


@pytest.fixture(scope="session")
def certain(edited: Edited) -> SetModel:
    """Return the tiny set with two symptoms that are never wrong: some findings rule others out."""
    return edited(*NEVER_WRONG)


@pytest.fixture(scope="session")
def case_of() -> CaseOf:
    """Return what makes a case of a model and answers, `check: what is said`."""

    def case(model: SetModel, said: dict[str, str], kit: Kit | None = None) -> Case:
        made = Case(model.family.id, full_kit(model) if kit is None else kit)
        for check, text in said.items():
            made = add_finding(made, read_answer(model, check, text))
        return made

    return case
