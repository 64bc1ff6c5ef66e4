import pytest

from engine.knowledge.library import Library
from engine.proving.making import make_sheet
from engine.proving.sheet import ProofSheet


@pytest.fixture(scope="session")
def sideband_sheet(library: Library) -> ProofSheet:
    """Return the proof of a multimode set, which has nearly every point."""
    sheet = make_sheet(library, "loop-crystal-multimode")
    assert sheet is not None
    return sheet
