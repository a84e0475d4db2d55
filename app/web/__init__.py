"""The web door: the application factory, the API and the pages.

May import everything below it. Start reading at ``application``.
"""
