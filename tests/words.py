"""Every problem that can reach a customer, with the words she reads (`python -m tests.words`), for a person to read."""

from __future__ import annotations

from app.pattern.plain_words import KINDS, title_of


def main() -> None:
    """Print the table: whose it is, code, severity, who is told of it, the words."""
    print("| check or room | code | severity | told | words the customer reads |")
    print("|---|---|---|---|---|")
    for kind in KINDS:
        told = "her" if kind.maker else "the designer" if kind.severity == "warning" else "both"
        print(f"| {title_of(kind.code)} | `{kind.code}` | {kind.severity} | {told} | {kind.words} |")
    print(f"\n{len(KINDS)} codes, {len({kind.words for kind in KINDS})} sentences")


if __name__ == "__main__":
    main()
