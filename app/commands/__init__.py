"""The commands, one a file. Each module has one ``COMMAND``; ``app.cli`` lists them in the order of the help.

May import the rooms of the core; ``serve`` alone also imports ``app.web``. Start reading at ``command``.
"""
