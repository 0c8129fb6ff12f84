"""The tests, as a package of their own: a library of the test environment installs one of the same name."""
