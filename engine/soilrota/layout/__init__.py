"""Where cores come from and how many: free ground, patterns, walking order, points kept, cores for a precision."""
