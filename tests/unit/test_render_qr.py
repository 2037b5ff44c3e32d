"""QR codes: readable from the drawing, wide enough a border, never a micro code."""

from __future__ import annotations

import re

import numpy as np
import zxingcpp
from PIL import Image

from pourwright.render.qr import QUIET_MODULES, qr_matrix, qr_svg

CODE = "P26061400128"


def test_the_matrix_reads_as_its_text():
    dark = np.pad(np.array(qr_matrix(CODE)), QUIET_MODULES)
    pixels = np.kron(np.where(dark, 0, 255), np.ones((6, 6))).astype(np.uint8)
    (found,) = zxingcpp.read_barcodes(Image.fromarray(pixels))
    assert found.text == CODE
    assert found.format == zxingcpp.BarcodeFormat.QRCode


def test_a_short_text_makes_no_micro_code():
    # ISO/IEC 18004:2015: version 1 is 21 modules wide, a micro code at most 17.
    assert len(qr_matrix("A1")) == 21


def test_the_drawing_has_its_border_and_is_sized_by_the_page():
    svg = qr_svg(CODE, title="Lot code")
    assert 'viewBox="0 0 29 29"' in svg
    assert not re.search(r"<svg[^>]* (width|height)=", svg)
    assert "<title>Lot code</title>" in svg


def test_a_title_cannot_break_out_of_the_drawing():
    assert "<script>" not in qr_svg(CODE, title="<script>")
