"""Faults of the program or its installation; never of the book.

FilesFault
├── MissingShippedFolder   schemas or templates are not where the installation puts them
└── SchemaFault            a shipped schema is broken or refers to something outside the package
"""

from __future__ import annotations


class FilesError(Exception):
    """Base of the faults of this package."""


class MissingShippedFolderError(FilesError):
    """Schemas or templates are not where the installation puts them."""


class SchemaError(FilesError):
    """A shipped schema is broken, or refers to something outside the package."""
