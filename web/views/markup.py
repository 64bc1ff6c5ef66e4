"""Builds elements and writes them as HTML; text is always escaped on the way out."""

import json
from collections.abc import Iterable, Mapping
from xml.etree.ElementTree import Element, tostring

Child = Element | str | None
Attributes = Mapping[str, object]
Input = Mapping[str, object]  # of the log of a case


def h(
    tag: str, attributes: Attributes | None = None, *children: Child | Iterable[Child]
) -> Element:
    """Return an element. Attributes that are None or False are left out, True stands for "".

    >>> html(h("p", {"class": "note", "hidden": True}, "5 < 6 ", h("b", None, "&")))
    '<p class="note" hidden="">5 &lt; 6 <b>&amp;</b></p>'
    """
    element = Element(tag)
    for name, value in (attributes or {}).items():
        if value is not None and value is not False:
            element.set(name, "" if value is True else str(value))
    for child in children:
        _append(element, child)
    return element


def _append(element: Element, child: Child | Iterable[Child]) -> None:
    """Add one child, or several; text goes where ElementTree keeps it."""
    if child is None:
        return
    if isinstance(child, str):
        if len(element):
            element[-1].tail = (element[-1].tail or "") + child
        else:
            element.text = (element.text or "") + child
    elif isinstance(child, Element):
        element.append(child)
    else:
        for each in child:
            _append(element, each)


def html(*elements: Element | None) -> str:
    """Return elements as HTML text; None is left out."""
    present = (each for each in elements if each is not None)
    return "".join(tostring(each, encoding="unicode", method="html") for each in present)


def packed(value: object) -> str:
    """Return `value` as compact JSON, for a data attribute."""
    return json.dumps(value, separators=(",", ":"), sort_keys=True)


def button(words: str, attributes: Attributes | None = None, *more: Child) -> Element:
    """Return a push button; what it does stands in `attributes`."""
    return h("button", {"type": "button", **(attributes or {})}, words, *more)


def puts(do: str, **fields: object) -> dict[str, object]:
    """Return the attribute that makes a press an input of the case."""
    return {"data-input": packed({"do": do, **fields})}


def shows(focus: str | None = None, **fields: object) -> dict[str, object]:
    """Return the attributes that make a press change only what is shown."""
    return {"data-view": packed(fields), "data-focus": focus}
