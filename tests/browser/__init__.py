"""Tests that drive a real browser, and what drives it."""
