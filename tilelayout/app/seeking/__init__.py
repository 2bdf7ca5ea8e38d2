"""Seeking the best start: off the window's thread, what was found kept beside the job until it is taken."""
