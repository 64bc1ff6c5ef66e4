"""What pydantic complains of, in words for an author."""

import re
import types
from collections.abc import Iterator
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel

from engine.errors import suggest

Path = tuple[str | int, ...]
Worded = tuple[Path, str, str, str]  # path, found, expected, remedy

_EXPECTED = {
    "string_pattern_mismatch": "an id",
    "string_type": "text",
    "string_too_short": "at least {min_length} characters",
    "too_short": "{min_length} or more",
    "too_long": "{max_length} or fewer",
    "float_type": "a number",
    "float_parsing": "a number",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "finite_number": "a number",
    "dict_type": "a mapping of keys and values",
    "model_type": "a mapping of keys and values",
    "tuple_type": "a list",
    "greater_than": "more than {gt}",
    "greater_than_equal": "{ge} or more",
    "less_than": "less than {lt}",
    "less_than_equal": "{le} or less",
}
_REMEDIES = {
    "string_pattern_mismatch": (
        "Write ids in lower case, words joined by single hyphens, such as 'core-broken'."
    ),
    "string_type": "Put quotes about a number or a true that is meant as text.",
    "string_too_short": "Write it out.",
    "too_short": "Add what is missing.",
    "too_long": "Take something out.",
    "dict_type": "Write 'key: value' lines below it, indented by two spaces.",
    "model_type": "Write 'key: value' lines below it, indented by two spaces.",
    "tuple_type": "Write [one, two], or one '- item' a line.",
}
_COMMA = "Put quotes about text with a comma in it; inside { } a comma ends the value."
_NUMBER = "Write a plain number; a share or probability as a fraction, such as 0.02 for 2 %."


def word(model: type[BaseModel], data: Any, detail: Any) -> Worded:
    """Return where, what was found, what was expected and what to do."""
    kind, context = detail["type"], detail.get("ctx", {})
    path = _written(data, detail["loc"], kind)
    if kind == "extra_forbidden":
        broken = " " in str(path[-1]) and detail["input"] is None
        remedy = _COMMA if broken else suggest(str(path[-1]), keys_at(model, path[:-1]))
        return path, f"unknown key '{path[-1]}'", "a known key", remedy
    if kind == "missing":
        return path, "nothing", f"the key '{path[-1]}'", f"Add the key '{path[-1]}'."
    if kind == "rule":
        return path, context["found"], context["expected"], context["remedy"]
    found = shown(detail["input"])
    if kind == "literal_error":
        # Pydantic writes "'on' or 'off'", and numbers without the marks.
        choices = [a or b for a, b in re.findall(r"'([^']+)'|(-?\d+)", context["expected"])]
        several = "one of " if len(choices) > 1 else ""
        remedy = suggest(str(detail["input"]), choices)
        return path, found, f"{several}{', '.join(choices)}", remedy
    expected = _EXPECTED.get(kind, detail["msg"]).format(**context)
    return path, found, expected, _REMEDIES.get(kind, _NUMBER)


def shown(value: Any) -> str:
    """Return a value as an author wrote it, or what kind of thing it is.

    >>> shown("drver"), shown(None), shown([1, 2])
    ("'drver'", 'nothing', 'a list of 2')
    """
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return f"a mapping of {len(value)}" if value else "an empty mapping"
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}" if value else "an empty list"
    if isinstance(value, str):
        return f"'{value}'" if len(value) <= 60 else f"'{value[:57]}...'"
    return str(value)


def keys_at(model: type[BaseModel], path: Path) -> list[str]:
    """Return the keys a model allows at `path`, sorted."""
    annotations: list[Any] = [model]
    for step in path:
        annotations = [below for one in annotations for below in _below(one, step)]
    models = [one for one in annotations if _is_model(one)]
    fields = [(name, field) for one in models for name, field in one.model_fields.items()]
    return sorted({field.alias or name for name, field in fields})


def _below(annotation: Any, step: str | int) -> Iterator[Any]:
    """Yield the plain annotations one step further down."""
    arguments = get_args(annotation)
    if _is_model(annotation):
        for name, field in annotation.model_fields.items():
            if (field.alias or name) == step:
                yield from _plain(field.annotation)
    elif get_origin(annotation) is dict:
        yield from _plain(arguments[1])
    elif get_origin(annotation) is tuple:
        yield from _plain(arguments[0])


def _plain(annotation: Any) -> Iterator[Any]:
    """Yield the members of a union, without what is annotated to them."""
    if get_origin(annotation) is Annotated:
        yield from _plain(get_args(annotation)[0])
    elif get_origin(annotation) in (Union, types.UnionType):
        for member in get_args(annotation):
            yield from _plain(member)
    else:
        yield annotation


def _is_model(annotation: Any) -> bool:
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


def _written(data: Any, path: Path, kind: str) -> Path:
    """Return a path without the steps that no author wrote.

    Pydantic puts '[key]' and the tried member of a union among the steps.
    """
    steps: list[str | int] = []
    for step in path:
        listed = isinstance(data, list) and isinstance(step, int)
        if listed or (isinstance(data, dict) and step in data):
            data = data[step]
            steps.append(step)
    return (*steps, path[-1]) if kind == "missing" else tuple(steps)
