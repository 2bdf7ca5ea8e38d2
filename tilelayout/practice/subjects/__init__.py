"""The subjects of rules, one file each: adding a file adds its rules.

A subject's file has `findings(case)`, which yields what it finds about one tile laid on one surface. Each
limit stands there once, as a `Figure` with its source beside it. What a rule needs and the job does not
say is a finding too: an unknown is never taken to be well.
"""
