"""A glossary is short, and says each word once."""

import pytest
from pydantic import ValidationError

from engine.knowledge.glossary import Glossary

FUSE = {"words": ["fuse"], "means": "A thin wire that melts."}


@pytest.mark.parametrize(
    ("terms", "told"),
    [
        (
            {"fuse": FUSE, "wire": {"words": ["wire", "Fuse"], "means": "A thread of metal."}},
            "found 'Fuse' under 'fuse' and 'wire', expected each word under one term",
        ),
        (
            {"fuse": {"words": ["fuse"], "means": "One thing. Two things. Three things."}},
            "found 3 sentences, expected one or two, with a stop at the end",
        ),
        (
            {"fuse": {"words": ["fuse"], "means": "A thin wire that melts"}},
            "found 0 sentences, expected one or two, with a stop at the end",
        ),
    ],
    ids=["a word twice", "too long", "no stop"],
)
def test_refused(terms: dict[str, object], told: str) -> None:
    """What is wrong is told as everywhere else."""
    with pytest.raises(ValidationError) as refused:
        Glossary.model_validate({"terms": terms})
    assert [each["msg"] for each in refused.value.errors()] == [told]


def test_a_good_one_is_read() -> None:
    """Words keep their order."""
    read = Glossary.model_validate({"terms": {"fuse": FUSE}})
    assert read.terms["fuse"].words == ("fuse",)
