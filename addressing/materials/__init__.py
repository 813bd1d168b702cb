"""What stands on the shelf: layouts, faces, inks, papers, devices, shops; and the docket.

In: TOML files, a user's own before the package's. Out: checked records. Knows no guest.
"""
