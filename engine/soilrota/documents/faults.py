"""Faults while a document is made; they fail that document alone.

DocumentError
├── AssetRefusedError     a template or a style asked for something that documents may not use
└── RenderingError        the PDF writer logged an error, so that something is missing from the page
"""

from __future__ import annotations


class DocumentError(Exception):
    """Base of the faults of this package."""


class AssetRefusedError(DocumentError):
    """A template or a style asked for something that documents may not use."""


class RenderingError(DocumentError):
    """The PDF writer logged an error: the document would lack something."""
