"""The bench in a real Chromium, against a real server. ``hands`` is the vocabulary: what a person does and sees."""
