"""What to do on a zone: needs of lime, gypsum and nutrients with their working, before any product is chosen."""
