"""`python -m addressing` is the `addressing` command."""

from addressing.cli import main

if __name__ == "__main__":
    main()
