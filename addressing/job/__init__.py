"""The order of the stages, written as rows of calls; each module is one errand."""
