"""The timing chart: what a sequence does, one line a load or contact, along the time.

Start reading at ``chart`` (what stands on it), then ``axis`` (how wide time is), ``plan`` (where all lies) and
``diagram`` (how it is put on a surface).
"""
