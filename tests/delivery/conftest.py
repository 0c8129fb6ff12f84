"""Fixtures of the tests of delivery."""

from __future__ import annotations

import pytest

from tests.delivery.certificates import Certificate, make_certificate
from tests.delivery.other_words import other_catalogue


@pytest.fixture(scope="session")
def certificate(tmp_path_factory: pytest.TempPathFactory) -> Certificate:
    """Return a certificate for this machine."""
    return make_certificate(tmp_path_factory.mktemp("certificate"))


@pytest.fixture
def other_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have Spanish say every text in strange letters, whatever its catalogue holds."""
    monkeypatch.setattr("soilrota.language.speech.catalogue_of", other_catalogue)
