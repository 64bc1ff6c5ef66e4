"""The part of YAML that authors use: plain words stay words, nothing is run, nothing refers.

YAML 1.1 turns yes, no, on and off into booleans, 12:30 into 750 and 010 into eight. Authors need
those words, so only `true`, `false`, `null` and decimal numbers are more than text here.
"""

import re
from typing import Any

import yaml

_PLAIN = (
    ("null", r"~|null|", ["~", "n", ""]),
    ("bool", r"true|false", ["t", "f"]),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    (
        "float",
        r"[-+]?(\.[0-9]+|[0-9]+\.[0-9]*|[0-9]+(?=[eE]))([eE][-+]?[0-9]+)?|[-+]?\.inf|\.nan",
        list("-+.0123456789"),
    ),
)


class AuthorLoader(yaml.SafeLoader):
    """Safe YAML with the plain values above, and no aliases."""

    def compose_node(self, parent: yaml.Node | None, index: Any) -> yaml.Node | None:
        """Refuse aliases: a file says each thing where it stands, and cannot swell or loop."""
        if self.check_event(yaml.AliasEvent):
            mark = self.peek_event().start_mark  # type: ignore[no-untyped-call]
            raise yaml.MarkedYAMLError(problem="an alias", problem_mark=mark)
        return super().compose_node(parent, index)


def compose(text: str) -> tuple[yaml.Node | None, yaml.constructor.SafeConstructor]:
    """Return the nodes of a text, and what makes data of them; None for an empty text.

    The parser in C is ten times as fast. Whatever it refuses, and whatever may hold an alias, is
    read again by the one in Python, whose complaints authors get.

    Raises:
        yaml.YAMLError: it is no YAML, or has an alias.
    """
    if FastLoader is not None and not ("*" in text and "&" in text):
        try:
            fast = FastLoader(text)
            return fast.get_single_node(), fast
        except (yaml.YAMLError, ValueError):
            pass
    loader = AuthorLoader(text)
    return loader.get_single_node(), loader


def _made_plain(loader: Any) -> None:
    """Give a loader the plain values above."""
    loader.yaml_implicit_resolvers = {}
    for name, pattern, first in _PLAIN:
        tag = f"tag:yaml.org,2002:{name}"
        loader.add_implicit_resolver(tag, re.compile(rf"^(?:{pattern})$"), first)
    loader.add_constructor("tag:yaml.org,2002:int", lambda _, node: int(node.value))


_made_plain(AuthorLoader)
FastLoader: Any = None
if yaml.__with_libyaml__:  # the wheel has it; where it is missing, all is read in Python

    class FastLoader(yaml.CSafeLoader):  # type: ignore[no-redef]
        """The same values by the parser in C."""

    _made_plain(FastLoader)
