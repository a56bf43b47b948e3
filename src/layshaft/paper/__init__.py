"""What is handed to people: the build sheet and the lists, as paper, as readable text and as JSON."""
