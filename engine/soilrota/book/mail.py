"""From the practice's file to how it sends its mail."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time
from typing import Any

from soilrota.model.mail import PORTS, LoginFrom, Mail, QuietHours, Tls


def build_mail(data: Mapping[str, Any]) -> Mail:
    """Return how the practice sends; what the file does not say is the house default.

    Args:
        data: the top of practice.yaml.
    """
    mail = data.get("mail", {})
    tls = Tls(mail.get("tls", Tls.STARTTLS))
    default = Mail()
    return Mail(
        host=mail.get("host", ""),
        port=mail.get("port", PORTS[tls]),
        tls=tls,
        from_name=mail.get("from_name", ""),
        from_address=mail.get("from_address", ""),
        login=LoginFrom(mail.get("login", LoginFrom.NONE)),
        cap=mail.get("cap", default.cap),
        quiet_hours=_quiet_hours(mail["quiet_hours"]) if "quiet_hours" in mail else None,
        test_address=mail.get("test_address", ""),
        stopped=mail.get("stopped", False),
        unsubscribe=mail.get("unsubscribe", ""),
    )


def _quiet_hours(data: Mapping[str, str]) -> QuietHours:
    """Return hours without sending."""
    return QuietHours(time.fromisoformat(data["begin"]), time.fromisoformat(data["end"]))
