"""A layout as tables: wire by wire, screw by screw, part by part; written for a spreadsheet, and read back from one.

May import ``app.job``, ``app.catalogue``, ``app.circuit``, ``app.explain`` and the standard library. Rows come from
``wire_rows``, ``terminal_rows`` and ``part_rows``; ``csv_text`` and ``sheet`` write and read CSV; ``columns`` says what
each column is called. Start reading at ``job_from_tables``.
"""
