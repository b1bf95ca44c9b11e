"""Layers of a PDF (optional content groups, ISO 32000-1:2008, 8.11) that a reader can switch on and off."""

from __future__ import annotations

from typing import Any

from reportlab.pdfbase.pdfdoc import (
    BasicFonts,
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFObjectReference,
    PDFResourceDictionary,
    PDFString,
)
from reportlab.pdfgen.canvas import Canvas

__all__ = ["Layers"]


class Layers:
    """The layers of one canvas: all are shown until a reader switches them."""

    def __init__(self, canvas: Canvas, names: tuple[str, ...]) -> None:
        """Tell the file of its layers, in the order in which a reader lists them."""
        self._canvas = canvas
        self._keys = {name: f"Layer{number}" for number, name in enumerate(names)}
        self._groups = {key: self._group(name, key) for name, key in self._keys.items()}
        if names:
            self._list_in_catalogue()

    def _group(self, name: str, key: str) -> PDFObjectReference:
        group = PDFDictionary({"Type": PDFName("OCG"), "Name": PDFString(name)})
        reference: PDFObjectReference = self._canvas._doc.Reference(group, key)
        return reference

    def _list_in_catalogue(self) -> None:
        groups = list(self._groups.values())
        shown = {"Order": PDFArray(groups), "ON": PDFArray(groups), "Name": PDFString("Layers")}
        catalogue: Any = self._canvas._doc.Catalog
        # ReportLab writes only the entries it knows by name, and would make a list of references of one it does not.
        catalogue.__NoDefault__ = [*catalogue.__NoDefault__, "OCProperties"]
        catalogue.OCProperties = PDFDictionary({"OCGs": PDFArray(groups), "D": PDFDictionary(shown)})

    def offer_on_last_page(self) -> None:
        """Name the layers among the resources of the page just closed."""
        if self._groups:
            resources: Any = PDFResourceDictionary()
            resources.Font = PDFObjectReference(BasicFonts)
            resources.Properties = dict(self._groups)
            self._canvas._doc.Pages.pages[-1].Resources = resources

    def begin(self, name: str) -> None:
        """What follows belongs to a layer; nothing happens for the empty name."""
        if name:
            self._canvas._code.append(f"/OC /{self._keys[name]} BDC")

    def end(self, name: str) -> None:
        """The layer begun last ends."""
        if name:
            self._canvas._code.append("EMC")
