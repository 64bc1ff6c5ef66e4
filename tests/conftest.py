from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from engine.diagnosis.making.building import build_network
from engine.diagnosis.model import SetModel
from engine.inference.network import Network
from engine.knowledge.library import Library, read_library
from engine.terminal.models import open_model

KB = Path(__file__).resolve().parents[1] / "kb"
FAMILY = "three-crystal-fm"
FAMILIES = sorted(path.stem for path in (KB / "families").glob("*.yaml"))

ModelOf = Callable[[str], SetModel]


@pytest.fixture(scope="session")
def library() -> Library:
    """Return the real knowledge base, read once."""
    return read_library(KB)


@pytest.fixture(scope="session")
def net(library: Library) -> Network:
    """Return the real family as a network, before it is compiled."""
    return build_network(library.of(FAMILY), library.families[FAMILY])


@pytest.fixture(scope="session")
def model_of() -> ModelOf:
    """Return what compiles a real family, each once for a state of the knowledge."""

    @cache
    def compiled(family: str) -> SetModel:
        found = open_model(KB, family)
        assert found is not None, family
        return found

    return compiled


@pytest.fixture(scope="session")
def model(model_of: ModelOf) -> SetModel:
    """Return the real family that most tests are about."""
    return model_of(FAMILY)
