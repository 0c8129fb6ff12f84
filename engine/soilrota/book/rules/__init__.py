"""The rules across files, one function a rule: each takes the parts and yields the problems it finds.

A rule looks at values that the schemas have let through; it never raises and never changes anything.
"""
