"""Turn a drill and a random generator into a question, and an answer into a grade."""
