"""Files and folders written whole or not at all, through no link. Uses no other room."""
