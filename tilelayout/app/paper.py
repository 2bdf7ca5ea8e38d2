"""Paints the sheets on a printer at full size, with the very marks that the PDF gets, dark on white."""

from __future__ import annotations

import datetime

from PySide6.QtCore import QMarginsF, QRectF, QSizeF
from PySide6.QtGui import QColor, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrinterInfo
from PySide6.QtWidgets import QDialog, QWidget

from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.base.errors import OutputError
from tilelayout.job.values import Job
from tilelayout.reports.figure import Figure, Role
from tilelayout.reports.pdf_painter import INKS
from tilelayout.reports.sheets.order import before_cut_lists, pages_of
from tilelayout.reports.sheets.page import Imprint, framed, upright

_MM = 25.4


class PaperInks:
    """The colours of a print: those of the PDF, whatever the look of the window is."""

    def colour(self, role: str) -> QColor:
        """Return the ink of a role."""
        return QColor.fromRgbF(*INKS[Role(role)])


def has_printer() -> bool:
    """True if the system knows a printer."""
    return bool(QPrinterInfo.availablePrinterNames())


def pages(job: Job, layout_ids: tuple[str, ...], paper: str) -> list[Figure]:
    """Return every page of the sheets of some layouts, whole, in order."""
    with_cuts = before_cut_lists(job, layout_ids)
    bodies = [
        page for id in layout_ids for page in pages_of(job, id, upright(paper), with_cuts=id in with_cuts)
    ]
    imprint = Imprint(job.title, job.show_lengths, "", datetime.date.today())
    return [framed(body, number, len(bodies), imprint) for number, body in enumerate(bodies, start=1)]


def print_pages(parent: QWidget, job: Job, layout_ids: tuple[str, ...], paper: str) -> int:
    """Ask for a printer and print; return how many pages were sent, 0 if the person thought better of it."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setFullPage(True)
    if QPrintDialog(printer, parent).exec() != QDialog.DialogCode.Accepted:
        return 0
    figures = pages(job, layout_ids, paper)
    paint_pages(printer, figures)
    return len(figures)


def paint_pages(printer: QPrinter, figures: list[Figure]) -> None:
    """Paint each figure on a page of its own size, one mm of the figure for one mm of paper."""
    painter = QPainter()
    for number, figure in enumerate(figures):
        printer.setPageLayout(_layout_of(figure))
        if number == 0 and not painter.begin(printer):
            raise OutputError("The printer cannot be written to.", "Choose another printer or save a PDF.")
        if number:
            printer.newPage()
        dots = printer.resolution() / _MM
        sheet = QRectF(0, 0, figure.width * dots, figure.height * dots)
        paint_figure(painter, figure, sheet, PaperInks(), largest=dots)
    painter.end()


def _layout_of(figure: Figure) -> QPageLayout:
    lies = figure.width > figure.height
    short, long = sorted((figure.width, figure.height))
    size = QPageSize(QSizeF(short, long), QPageSize.Unit.Millimeter)
    turned = QPageLayout.Orientation.Landscape if lies else QPageLayout.Orientation.Portrait
    layout = QPageLayout(size, turned, QMarginsF(), QPageLayout.Unit.Millimeter)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout
