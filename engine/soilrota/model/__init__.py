"""Frozen values that pass between the stages, by subject. No behaviour beyond what a value knows of itself."""
