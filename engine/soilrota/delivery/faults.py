"""Why mail cannot be kept or sent at all; each text is for people.

```
DeliveryError
├─ OutboxUnfitError   the outbox is damaged, from a newer engine, or lies where it cannot be kept safely
├─ LoginError         user and password cannot be had, or are not kept safely
└─ ServerError        the mail server cannot be reached, is not who it says, or takes nothing
```
"""

from __future__ import annotations


class DeliveryError(Exception):
    """Something that holds up all mail."""


class OutboxUnfitError(DeliveryError):
    """The outbox cannot be used; nothing of it was changed, but that a damaged file was put aside."""


class LoginError(DeliveryError):
    """There is no login that may be used."""


class ServerError(DeliveryError):
    """The server takes nothing: every message would meet the same; none was touched."""
