"""Every way knowledge can be wrong, each told in one whole message.

A row is a file in broken/: edits to the small knowledge base, and what is said about them.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from engine.errors import KnowledgeError
from engine.knowledge.library import load

BROKEN = sorted((Path(__file__).parent / "broken").glob("*.yaml"))


def broken_texts(small: dict[str, str], case: dict[str, Any]) -> dict[str, str]:
    """Return the small knowledge base with the edits of one case made."""
    texts = {file: text for file, text in small.items() if file not in case.get("remove", [])}
    for edit in case.get("edits", []):
        before = texts[edit["file"]]
        assert before.count(edit["replace"]) == 1, edit
        texts[edit["file"]] = before.replace(edit["replace"], edit["by"])
    return texts | case.get("add", {})


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_each_mistake_is_told_whole(path: Path, small: dict[str, str]) -> None:
    """Every message names file, line, path, what was found and expected, and the remedy."""
    case = yaml.safe_load(path.read_text(encoding="utf-8"))
    with pytest.raises(KnowledgeError) as caught:
        load(broken_texts(small, case))
    assert f"{caught.value}\n" == case["message"]


def test_the_small_knowledge_base_is_right(small: dict[str, str]) -> None:
    """What the cases break is right before they break it."""
    assert set(load(small).blocks) == {"past", "sender", "supply"}


def test_problems_carry_their_facts(small: dict[str, str]) -> None:
    """A page shows where, found, expected and remedy apart from one another."""
    small["families/beacon.yaml"] = small["families/beacon.yaml"].replace(
        "channels: hill-farm", "channels: hill-fram"
    )
    with pytest.raises(KnowledgeError) as caught:
        load(small)
    (problem,) = caught.value.problems
    where = (problem.file, problem.line, problem.path)
    assert where == ("families/beacon.yaml", 5, "channels")
    facts = (problem.found, problem.expected, problem.remedy)
    assert facts == ("'hill-fram'", "a channel plan", "Did you mean 'hill-farm'?")


@pytest.mark.parametrize("file", ["blocks/past.yaml", "blocks/supply.yaml", "tables/parts.yaml"])
def test_an_unreadable_file_brings_no_other_problems(file: str, small: dict[str, str]) -> None:
    """Names that only an unreadable file would hold are not complained of."""
    small[file] = "title: [\n"
    with pytest.raises(KnowledgeError) as caught:
        load(small)
    assert [problem.file for problem in caught.value.problems] == [file]


@pytest.mark.parametrize(
    "source",
    [
        "bench-book",
        "bench-book; page 3",
        "bench-book: page 3",
        "bench-book and common practice",
        "common practice",
        "estimate from two sets",
    ],
)
def test_words_may_follow_a_source(source: str, small: dict[str, str]) -> None:
    """What follows the id or word is for the reader."""
    text = small["blocks/sender.yaml"].replace("source: bench-book", f'source: "{source}"')
    assert load(small | {"blocks/sender.yaml": text})


def test_a_check_on_the_aerial_needs_no_dummy_load(small: dict[str, str]) -> None:
    """Standing waves are read with the aerial connected, and the check says so."""
    text = small["blocks/sender.yaml"]
    text = text.replace("needs: [power-meter, dummy-load]", "needs: [power-meter]")
    text = text.replace(
        "    cautions: [dummy-load-first]\n", "    load: the station's own aerial\n"
    )
    assert load(small | {"blocks/sender.yaml": text})


def test_a_load_named_in_words_is_not_enough(small: dict[str, str]) -> None:
    """Whoever says dummy load in `load` must list it, so that the kit can be asked for it."""
    text = small["blocks/sender.yaml"]
    text = text.replace(
        "needs: [power-meter, dummy-load]", "load: 50 ohm dummy load\n    needs: [power-meter]"
    )
    with pytest.raises(KnowledgeError, match="found a transmit check without 'dummy-load'"):
        load(small | {"blocks/sender.yaml": text})
