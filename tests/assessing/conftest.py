from pathlib import Path

import pytest

from engine.assessing.known_wrongly import Knowledge, known
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.knowledge.library import Library, read_library
from tests.diagnosis.conftest import Edit, small_library

FRAIL: tuple[Edit, ...] = (
    ("blocks/sender.yaml", "prior: 0.01", "prior: 0.2"),
    ("blocks/supply.yaml", "prior: 0.02", "prior: 0.2"),
    ("tables/parts.yaml", "rate-per-1e6-h: 0.2", "rate-per-1e6-h: 20"),
)
SMALL = Path(__file__).parents[1] / "knowledge" / "small"
KB = Path(__file__).parents[2] / "kb"


@pytest.fixture(scope="session")
def library() -> Library:
    """Return the tiny knowledge base."""
    return read_library(SMALL)


@pytest.fixture(scope="session")
def beacon(library: Library) -> SetModel:
    """Return its one kind of set."""
    return compile_family(library, "beacon")


@pytest.fixture(scope="session")
def right(beacon: SetModel, library: Library) -> Knowledge:
    """Return what is known of it, nothing wrong with that."""
    return known(beacon, library, "right", 1)


@pytest.fixture(scope="session")
def frail() -> Knowledge:
    """Return what is known of a set of which every part is often wrong."""
    often = small_library(*FRAIL)
    return known(compile_family(often, "beacon"), often, "right", 1)


@pytest.fixture(scope="session")
def workshop(model: SetModel) -> Knowledge:
    """Return what is known of the three-crystal set, nothing wrong with that."""
    return known(model, read_library(KB), "right", 1)
