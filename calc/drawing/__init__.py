"""Drawings made from tables and answers, as text of inline SVG: classes and presentation attributes, no styles."""
