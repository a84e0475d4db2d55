"""What is kept as rows: the wire list and what is made from it."""
