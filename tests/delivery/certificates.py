"""Certificates to be thrown away, for servers on this machine."""

from __future__ import annotations

import ssl
import subprocess
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Certificate:
    """A certificate that vouches for itself, and its key."""

    certificate: Path
    key: Path

    def of_server(self) -> ssl.SSLContext:
        """Return what a server shows."""
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(self.certificate, self.key)
        return context

    def trusted(self) -> ssl.SSLContext:
        """Return what a client that trusts it checks by, names included."""
        return ssl.create_default_context(cafile=str(self.certificate))


def make_certificate(folder: Path, names: str = "DNS:localhost,IP:127.0.0.1") -> Certificate:
    """Make a certificate for names."""
    made = Certificate(folder / "certificate.pem", folder / "key.pem")
    words = ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"]
    words += ["-keyout", str(made.key), "-out", str(made.certificate), "-days", "2", "-subj", "/CN=test"]
    subprocess.run([*words, "-addext", f"subjectAltName={names}"], check=True, capture_output=True, timeout=60)
    return made
