"""Words that templates may use beside those of the framework."""
