"""The pattern core: from a draft and a body to a proved, printable pattern. Knows no web, database or clock."""
