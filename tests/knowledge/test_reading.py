from typing import Literal

import pytest

from engine.knowledge.document import Document, Id
from engine.knowledge.reading import parse, validate
from engine.knowledge.schema import Block
from engine.knowledge.wording import keys_at, shown

WORDS = ["yes", "no", "on", "off", "Yes", "OFF", "y", "n", "12:30", "2020-13-45", "0x1f", "1_000"]


@pytest.mark.parametrize("word", WORDS)
def test_words_stay_words(word: str) -> None:
    """What YAML 1.1 would turn into booleans, times and dates is a word an author needs."""
    source, problems = parse("a.yaml", f"said: {word}\n{word}: said\n")
    assert source is not None, problems
    assert source.data == {"said": word, word: "said"}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("~", None),
        ("010", 10),
        ("-3", -3),
        ("0.5", 0.5),
        ("1e-6", 1e-6),
        ("2.5E3", 2500.0),
        (".5", 0.5),
    ],
)
def test_plain_values_are_those_of_yaml_1_2(text: str, value: object) -> None:
    """Numbers are decimal; nothing else is more than text."""
    source, _ = parse("a.yaml", f"value: {text}\n")
    assert source is not None
    assert source.data == {"value": value}
    assert type(source.data["value"]) is type(value)


def test_json_is_read_too() -> None:
    """A JSON text is YAML."""
    source, _ = parse("a.json", '{"a": [1, {"b": "off"}]}')
    assert source is not None
    assert source.data == {"a": [1, {"b": "off"}]}


def test_lines_are_known_down_to_list_items() -> None:
    """Whatever has no line of its own takes that of what is around it."""
    source, _ = parse("a.yaml", "a:\n  - 1\n  - b: 2\n    c: 3\n")
    assert source is not None
    paths: list[tuple[str | int, ...]] = [("a",), ("a", 0), ("a", 1, "c"), ("a", 1, "d"), ("z",)]
    assert [source.line(path) for path in paths] == [1, 2, 4, 3, 1]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "[a]: 1\n",
            "a.yaml:1: (whole file): found a list or mapping as key, expected a word\n"
            "  Write a single word before the colon.",
        ),
        (
            "a: \x00\n",
            "a.yaml:1: (text): found the character 0x0000, expected UTF-8 text\n"
            "  Save it as UTF-8 text.",
        ),
        (
            "a: 1\n---\nb: 2\n",
            "a.yaml:2: (text): found a slip (but found another document), expected YAML\n"
            "  Look at the indentation, the space after each colon, and put quotes about text that "
            "contains ': ' or begins with a sign.",
        ),
        (
            "a: !!python/name:os.system\n",
            "a.yaml:1: (text): found a slip (could not determine a constructor for the tag "
            "'tag:yaml.org,2002:python/name:os.system'), expected YAML\n"
            "  Look at the indentation, the space after each colon, and put quotes about text that "
            "contains ': ' or begins with a sign.",
        ),
        (
            "[" * 5000,
            "a.yaml:1: (whole file): found something nested or numbered past reading, expected "
            "YAML\n  Look for a run of brackets.",
        ),
        (
            f"a: {'9' * 5000}\n",
            "a.yaml:1: (whole file): found something nested or numbered past reading, expected "
            "YAML\n  Look for a run of brackets.",
        ),
    ],
    ids=["key", "character", "documents", "tag", "deep", "long"],
)
def test_what_cannot_be_read_is_told(text: str, said: str) -> None:
    """Nothing in a file runs, and nothing in it raises."""
    source, problems = parse("a.yaml", text)
    assert source is None
    assert "\n".join(str(problem) for problem in problems) == said


class Several(Document):
    """Unions that do not say which member was meant."""

    kit: tuple[Id, ...] | Literal["everything"]
    answer: str | float
    left: int = 0


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "kit: 3\nanswer: []\n",
            "a.yaml:1: kit: found 3, expected a list\n"
            "  Write [one, two], or one '- item' a line.\n"
            "a.yaml:2: answer: found an empty list, expected text\n"
            "  Put quotes about a number or a true that is meant as text.",
        ),
        (
            "kit: [a, B]\nanswer: x\nleft: true\n",
            "a.yaml:1: kit.1: found 'B', expected an id\n"
            "  Write ids in lower case, words joined by single hyphens, such as 'core-broken'.\n"
            "a.yaml:1: kit: found a list of 2, expected everything\n"
            "  Known: everything.",
        ),
        (
            "- 1\n",
            "a.yaml:1: (whole file): found a list of 1, expected a mapping of keys and values\n"
            "  Write 'key: value' lines below it, indented by two spaces.",
        ),
    ],
    ids=["neither", "inside", "list"],
)
def test_a_union_is_complained_of_once(text: str, said: str) -> None:
    """Paths hold what the author wrote, and each place is spoken of once."""
    source, _ = parse("a.yaml", text)
    assert source is not None
    _, problems = validate(source, Several)
    assert "\n".join(str(problem) for problem in problems) == said


def test_known_keys_are_found_at_any_depth() -> None:
    """Suggestions come from the keys of the very place."""
    path = ("checks", "any", "reads", "low")
    assert keys_at(Block, path) == ["from", "spread", "to", "typical"]
    assert keys_at(Block, ("makes", "any", "rules", 0)) == ["then", "when"]
    assert keys_at(Block, ("causes", "any", "harmed-by", "drop")) == []


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ({}, "an empty mapping"),
        ({"a": 1}, "a mapping of 1"),
        ([], "an empty list"),
        (True, "true"),
        ("x" * 80, f"'{'x' * 57}...'"),
        (0.5, "0.5"),
    ],
)
def test_values_are_shown_as_written(value: object, said: str) -> None:
    """Long texts are cut, and structures are counted."""
    assert shown(value) == said
