from pathlib import Path

import pytest

from engine.knowledge.library import read_texts


@pytest.fixture
def small() -> dict[str, str]:
    """Return the texts of a tiny knowledge base that is right."""
    return read_texts(Path(__file__).parent / "small")
