"""Findings become the client's questions; the answers are read back and applied to the list.

In: a guest list and its findings, answered rows, decisions kept from before. Out: questions, their
workbook and letter, decisions, and the list with the decisions in it. An answer changes what it
answers and nothing else. This room reads no list and no names itself: how, it is told.
"""
