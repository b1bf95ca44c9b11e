"""People who sign in: the designer, her password and her studio's name."""
