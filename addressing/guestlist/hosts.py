"""The hosts' own address, held against the ZIP data like a guest's: it stands on every flap."""

from addressing.guestlist.asking import from_trouble
from addressing.guestlist.domestic.zip_check import check_zip
from addressing.guestlist.written import Written
from addressing.records.docket import Hosts
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited
from addressing.where import Where


def check_hosts(hosts: Hosts, file: str) -> tuple[Finding, ...]:
    """What is missing or disagrees in the hosts' address; only the United States are checked.

    `file` is the docket's name. A finding that holds keeps the return and the reply back.
    """
    if hosts.country != "US":
        return ()

    def cited(name: str, text: str | None) -> Cited | None:
        return Cited(text, (Where(file, None, f"docket:hosts.{name}"),)) if text else None

    address = Address(
        street=cited("street", hosts.street),
        unit=cited("unit", hosts.unit),
        city=cited("city", hosts.city),
        region=cited("region", hosts.region),
        postcode=cited("postcode", hosts.postcode),
        country=Cited("US"),
    )
    _, troubles = check_zip(address, Written())
    where = Where(file, None, "docket:hosts")
    return tuple(from_trouble(trouble, where) for trouble in troubles)
