"""`python -m soilrota.cli` does what `soilrota` does."""

from soilrota.cli.entry import main

if __name__ == "__main__":
    raise SystemExit(main())
