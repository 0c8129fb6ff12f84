"""Faults while a document is made; they fail that document alone.

DocumentError
├── AssetRefusedError     a template or a style asked for something that documents may not use
├── TemplateFaultError    a template of the practice cannot be used; holds the problem with its place
└── RenderingError        the PDF writer logged an error, so that something is missing from the page
"""

from __future__ import annotations

from soilrota.problems import Problem


class DocumentError(Exception):
    """Base of the faults of this package."""


class AssetRefusedError(DocumentError):
    """A template or a style asked for something that documents may not use."""


class TemplateFaultError(DocumentError):
    """A template of the practice cannot be used, so the documents that need it are not made."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


class RenderingError(DocumentError):
    """The PDF writer logged an error: the document would lack something."""
