"""What results mean and what to do about it: ratings, derived quantities, trends, advice."""
