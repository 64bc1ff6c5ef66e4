"""Reads the words out of a PDF that Chromium printed: enough for a test, no more."""

import re
import zlib

OBJECT = re.compile(rb"(\d+) 0 obj(.*?)endobj", re.DOTALL)
STREAM = re.compile(rb"stream\r?\n(.*?)\r?\nendstream", re.DOTALL)
FONT_USE = re.compile(rb"/(F\d+) [\d.]+ Tf|<([0-9A-Fa-f]+)>|(T\*|T[dDm]|ET)\b")
HEX = rb"<([0-9A-Fa-f]+)>"
Glyphs = dict[int, str]


def pdf_text(pdf: bytes) -> str:
    """Return the words of all pages in the order they were drawn."""
    objects = {int(number): body for number, body in OBJECT.findall(pdf)}
    fonts: dict[bytes, Glyphs] = {}
    for body in objects.values():
        for name, number in re.findall(rb"/(F\d+) (\d+) 0 R", body):
            fonts[name] = _glyphs(objects, objects[int(number)])
    return " ".join(
        _drawn(_unpacked(body), fonts) for body in objects.values() if b" Tf" in _unpacked(body)
    )


def sheets_of(pdf: bytes) -> int:
    """Return how many pages a PDF has."""
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def _unpacked(body: bytes) -> bytes:
    found = STREAM.search(body)
    if not found or b"FlateDecode" not in body:
        return b""
    try:
        return zlib.decompress(found.group(1))
    except zlib.error:
        return b""


def _glyphs(objects: dict[int, bytes], font: bytes) -> Glyphs:
    """Return what each glyph of a font stands for."""
    link = re.search(rb"/ToUnicode (\d+) 0 R", font)
    table = _unpacked(objects[int(link.group(1))]) if link else b""
    glyphs: Glyphs = {}
    for block in re.findall(rb"beginbfchar(.*?)endbfchar", table, re.DOTALL):
        for glyph, text in re.findall(HEX + rb"\s*" + HEX, block):
            glyphs[int(glyph, 16)] = bytes.fromhex(text.decode()).decode("utf-16-be")
    for block in re.findall(rb"beginbfrange(.*?)endbfrange", table, re.DOTALL):
        for first, last, text in re.findall(HEX + rb"\s*" + HEX + rb"\s*" + HEX, block):
            for glyph in range(int(first, 16), int(last, 16) + 1):
                glyphs[glyph] = chr(int(text, 16) + glyph - int(first, 16))
    return glyphs


def _drawn(content: bytes, fonts: dict[bytes, Glyphs]) -> str:
    words, glyphs = [], {}
    for font, text, move in FONT_USE.findall(content):
        if font:
            glyphs = fonts.get(font, {})
        elif move:
            words.append(" ")
        else:
            codes = [int(text[at : at + 4], 16) for at in range(0, len(text), 4)]
            words.append("".join(glyphs.get(code, "") for code in codes))
    return "".join(words)
