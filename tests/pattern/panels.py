"""Drafts of plain panels, of which everything can be reckoned by hand: rectangles cut from one cloth."""


def panel(name, wide, high, *, allowance="1cm", more="", cut="cut 1 main"):
    """A sheet and a piece: a rectangle with its corner at nothing, edges low, side, top and near."""
    return (
        f"sheet {name}\n"
        f"    a = at 0, 0\n    b = a right {wide}mm\n    c = b up {high}mm\n    d = a up {high}mm\n"
        f"    low = line a to b\n    side = line b to c\n    top = line c to d\n    near = line d to a\n"
        f'piece {name} "{name.capitalize()}" {cut}\n'
        f"    outline low, side, top, near\n    grain d to a\n    allowance {allowance}\n{more}"
    )


def draft(*parts, head="", steps="Sew it."):
    return (
        'draft "Made up"\nneeds\n    hip_girth\nfabrics\n    main "Cloth" width 140cm\n'
        f"{head}{''.join(parts)}steps\n    ## Sew\n    {steps}\n"
    )
