"""Assignments for people who write lines for the program to be measured by: `python -m tests.tools.assigning`."""
