"""Every form of the language in one visible table."""

from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.forms.numbers import NUMBERS
from app.pattern.drafting.forms.paths import PATHS
from app.pattern.drafting.forms.points import POINTS
from app.pattern.drafting.forms.shapes import SHAPES

__all__ = ["FORMS", "Form"]

FORMS: dict[str, Form] = {form.name: form for form in (*POINTS, *PATHS, *NUMBERS, *SHAPES)}
