"""Fixtures of the tests of delivery."""

from __future__ import annotations

import pytest

from tests.delivery.certificates import Certificate, make_certificate


@pytest.fixture(scope="session")
def certificate(tmp_path_factory: pytest.TempPathFactory) -> Certificate:
    """Return a certificate for this machine."""
    return make_certificate(tmp_path_factory.mktemp("certificate"))
