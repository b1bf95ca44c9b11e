"""The studio's back room: the designer's view of her listings and orders."""
