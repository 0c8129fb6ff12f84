"""Bag ids: short, unique for the practice, readable aloud, with a check character (ISO 7064, MOD 37-2)."""
