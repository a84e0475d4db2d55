"""The API, one blueprint a topic. Each route says in its ``operation`` what it takes and answers; ``app.web.openapi``
makes the document of the API from that, so that the two cannot part.
"""
