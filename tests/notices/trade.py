"""What no sentence in the trade's terms may hold."""

from __future__ import annotations

import re

# A word in quotes as a key, a word with a low line, a path, a list's index.
FILE_WORD = re.compile(r"'[a-z_]+(?:: \w+)?'|\w_\w|[a-z]\.[a-z]|\[\d|\blanes?\b")
