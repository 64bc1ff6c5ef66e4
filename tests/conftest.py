from pathlib import Path

import pytest

from engine.diagnosis.building import build_network
from engine.diagnosis.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.inference.network import Network
from engine.knowledge.library import Library, read_library

KB = Path(__file__).resolve().parents[1] / "kb"
FAMILY = "three-crystal-fm"


@pytest.fixture(scope="session")
def library() -> Library:
    """Return the real knowledge base, read once."""
    return read_library(KB)


@pytest.fixture(scope="session")
def net(library: Library) -> Network:
    """Return the real family as a network, before it is compiled."""
    return build_network(library.of(FAMILY), library.families[FAMILY])


@pytest.fixture(scope="session")
def model(library: Library) -> SetModel:
    """Return the real family, compiled once: that takes seconds."""
    return compile_family(library, FAMILY)
