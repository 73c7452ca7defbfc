"""A page's HTML as a tree to ask questions of; refuses tags that do not close one another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"input", "meta", "link", "br", "hr", "img", "path"}


def read(html: str) -> Element:
    reader = _Reader()
    reader.feed(html)
    assert reader.open is reader.root, f"<{reader.open.tag}> is never closed"
    return reader.root


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    parent: Element | None = None
    children: list[Element | str] = field(default_factory=list)

    def __iter__(self) -> Iterator[Element]:
        for child in self.children:
            if isinstance(child, Element):
                yield child
                yield from child

    @property
    def text(self) -> str:
        return " ".join("".join(child if isinstance(child, str) else child.text + " " for child in self.children).split())

    def get(self, name: str) -> str:
        return self.attributes.get(name, "")

    def all(self, tag: str) -> list[Element]:
        return [element for element in self if element.tag == tag]

    def having(self, name: str, value: str | None = None) -> list[Element]:
        return [e for e in self if name in e.attributes and value in (None, e.attributes[name])]

    def with_class(self, name: str) -> list[Element]:
        return [e for e in self if name in e.get("class").split()]

    def ancestors(self) -> Iterator[Element]:
        if self.parent:
            yield self.parent
            yield from self.parent.ancestors()


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = self.open = Element("", {})

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attributes}, self.open)
        self.open.children.append(element)
        if tag not in VOID:
            self.open = element

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.tag == tag, f"</{tag}> closes <{self.open.tag}>"
            assert self.open.parent
            self.open = self.open.parent

    def handle_data(self, data: str) -> None:
        self.open.children.append(data)
