"""What came back: what was really taken, checked against what was planned."""
