"""From the client's file to households: every value with its cell, every doubt as a finding.

In: a spreadsheet or text file, and what the docket says of its columns. Out: a GuestList and the
findings. Never changes a name or the meaning of an address; never writes to the client's file.
"""

from addressing.guestlist.hosts import check_hosts
from addressing.guestlist.read import read_list

__all__ = ["check_hosts", "read_list"]
