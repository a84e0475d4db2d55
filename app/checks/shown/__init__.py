"""What the page of a kind shows: a small sound wiring with a part of the kind, and one that is not."""
