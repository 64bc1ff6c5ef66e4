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


AuthorLoader.yaml_implicit_resolvers = {}
for _name, _pattern, _first in _PLAIN:
    AuthorLoader.add_implicit_resolver(
        f"tag:yaml.org,2002:{_name}", re.compile(rf"^(?:{_pattern})$"), _first
    )
AuthorLoader.add_constructor("tag:yaml.org,2002:int", lambda _, node: int(node.value))
