"""One file a source; each holds one ``SOURCE``. They are found by themselves."""
