"""`python -m assistant` is the command `drillside`."""

import sys

from assistant.cli import main

if __name__ == "__main__":
    sys.exit(main())
