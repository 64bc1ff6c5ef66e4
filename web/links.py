"""A case in the fragment of a link: nothing of it is ever sent to a server.

`#dj1.` and then base64url of three bytes of check sum and the deflated text. What was written to
and fro, notes and times stay behind: a link carries what was found and what is asked.
"""

import binascii
import json
import re
import zlib
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from web.replaying import FORMAT, Input, is_replayable

VERSION = "dj1"  # older ones stay readable
LINK = re.compile(r"#(dj\d+)\.([A-Za-z0-9_-]*)")
LEFT_BEHIND = ("message", "note", "asked")
LONGEST_TEXT = 200_000  # bytes; no case is as long, and nothing larger is unpacked
CODE_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # none that look alike
CODE_LENGTH = 4
DAMAGED = (
    "This link is damaged or was cut short on its way. Ask for it once more, best as one line on "
    "its own, or ask for the case as a file."
)
NEWER = (
    "This link was made by a newer version of this page. Load the page anew, then open it again."
)


class LinkError(Exception):
    """The link cannot be read; the words are for the person."""


@dataclass(frozen=True, slots=True)
class Link:
    """What a link carries.

    `asked` are the numbers and checks of questions to the owner, `answers` the owner's answers by
    check, `code` the short name of the case they belong to.
    """

    family: str
    inputs: tuple[Input, ...]
    code: str = ""
    asked: tuple[tuple[int, str], ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)

    @property
    def log(self) -> dict[str, Any]:
        """The case as a log, as it was when the link was made."""
        return {"format": FORMAT, "family": self.family, "inputs": list(self.inputs)}


def case_code(case_id: str) -> str:
    """Return the short code of a case, always the same for one case.

    >>> case_code("a"), case_code("b")
    ('CGHR', 'CCQL')
    """
    number = int.from_bytes(sha256(case_id.encode()).digest()[:8])
    letters = []
    for _ in range(CODE_LENGTH):
        number, place = divmod(number, len(CODE_LETTERS))
        letters.append(CODE_LETTERS[place])
    return "".join(letters)


def linked(
    log: Mapping[str, Any],
    code: str = "",
    asked: Sequence[tuple[int, str]] = (),
    answers: Mapping[str, str] | None = None,
) -> str:
    """Return the fragment, `#` included, of a case, of questions about it, or of their answers."""
    kept = [_short(given) for given in log["inputs"] if given["do"] not in LEFT_BEHIND]
    held: dict[str, Any] = {"f": log["family"], "i": kept}
    held |= {"c": code} if code else {}
    held |= {"q": [list(each) for each in asked]} if asked else {}
    held |= {"a": dict(answers)} if answers else {}
    text = json.dumps(held, separators=(",", ":")).encode()
    packer = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    data = _check_sum(text) + packer.compress(text) + packer.flush()
    return f"#{VERSION}.{urlsafe_b64encode(data).decode().rstrip('=')}"


def link_in(text: str) -> Link | None:
    """Return what the first link in a text carries, None where there is none.

    Raises:
        LinkError: there is one, and it cannot be read.
    """
    found = LINK.search(text)
    if not found:
        return None
    if found[1] != VERSION:
        raise LinkError(NEWER)
    try:
        return _link(json.loads(_unpacked(found[2])))
    except (ValueError, KeyError, TypeError, AttributeError, zlib.error, binascii.Error):
        raise LinkError(DAMAGED) from None


def _link(held: Mapping[str, Any]) -> Link:
    """Return the link of what was unpacked; raises ValueError and the like where it is none."""
    inputs = [_long(given) for given in held["i"]]
    asked = tuple((int(number), str(check)) for number, check in held.get("q", ()))
    answers = {str(check): str(said) for check, said in held.get("a", {}).items()}
    if not is_replayable(inputs):
        raise ValueError("no inputs of a case")
    return Link(str(held["f"]), tuple(inputs), str(held.get("c", "")), asked, answers)


def _unpacked(written: str) -> bytes:
    data = urlsafe_b64decode(written + "=" * (-len(written) % 4))
    unpacker = zlib.decompressobj(-zlib.MAX_WBITS)
    text = unpacker.decompress(data[3:], LONGEST_TEXT)
    if not unpacker.eof or _check_sum(text) != data[:3]:
        raise ValueError("cut short or changed")
    return text


def _check_sum(text: bytes) -> bytes:
    return sha256(text).digest()[:3]


def _short(given: Input) -> object:
    """Return an input without its time; an answer as `check=said`."""
    rest = {key: value for key, value in given.items() if key != "at"}
    if rest["do"] == "answer" and set(rest) == {"do", "check", "said"}:
        return f"{rest['check']}={rest['said']}"
    if rest["do"] == "reply":
        rest["text"] = ""
    return rest


def _long(given: Any) -> Input:
    """Return an input as `_short` was given it."""
    if not isinstance(given, str):
        return dict(given)
    check, _, said = given.partition("=")
    return {"do": "answer", "check": check, "said": said}
