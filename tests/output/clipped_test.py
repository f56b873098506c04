"""Workbooks as they are read: no text is wider than its cell where the next one is taken, and no row is lower than the
lines that its texts take. Widths are those of the font (its hmtx table) and of columns as spreadsheet programs count
them: 7 pixels a digit and 5 beside (ECMA-376, 18.3.1.13)."""
import glob
import os
import struct
import sys
import unittest
import warnings

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
import openpyxl  # noqa: E402
from program import SHOP, folder, run, sample  # noqa: E402

warnings.simplefilter("ignore")
PIXELS_A_POINT = 96 / 72
STANDARD_WIDTH, STANDARD_HEIGHT = 8.43, 15


class Font:
    """Advance widths of a TrueType font (ISO/IEC 14496-22: head, hhea, hmtx, cmap format 4)."""

    def __init__(self, path):
        with open(path, "rb") as file:
            data = self.data = file.read()
        count = struct.unpack_from(">H", data, 4)[0]
        self.tables = {data[i:i + 4].decode(): struct.unpack_from(">II", data, i + 8)[0] for i in range(12, 12 + 16 * count, 16)}
        self.units = struct.unpack_from(">H", data, self.tables["head"] + 18)[0]
        self.long = struct.unpack_from(">H", data, self.tables["hhea"] + 34)[0]
        cmap = self.tables["cmap"]
        for i in range(struct.unpack_from(">H", data, cmap + 2)[0]):
            platform, encoding, offset = struct.unpack_from(">HHI", data, cmap + 4 + 8 * i)
            if (platform, encoding) == (3, 1):
                self.map = cmap + offset

    def glyph(self, code):
        data, at = self.data, self.map
        segments = struct.unpack_from(">H", data, at + 6)[0] // 2
        for s in range(segments):
            end = struct.unpack_from(">H", data, at + 14 + 2 * s)[0]
            if code > end:
                continue
            start, delta, jump = (struct.unpack_from(">H", data, at + 16 + 2 * (segments * k + s))[0] for k in (1, 2, 3))
            if code < start:
                return 0
            if jump == 0:
                return (code + delta) & 0xFFFF
            place = at + 16 + 2 * (segments * 3 + s) + jump + 2 * (code - start)
            return (struct.unpack_from(">H", data, place)[0] + delta) & 0xFFFF
        return 0

    def width(self, text, points):
        sum_of = 0
        for c in text:
            glyph = min(self.glyph(ord(c)), self.long - 1)
            sum_of += struct.unpack_from(">H", self.data, self.tables["hmtx"] + 4 * glyph)[0]
        return sum_of / self.units * points * PIXELS_A_POINT


FONTS = {bold: Font(glob.glob(f"/usr/share/fonts/truetype/liberation*/LiberationSans-{name}.ttf")[0])
         for bold, name in ((False, "Regular"), (True, "Bold"))}


def pixels(sheet, column):
    letters = openpyxl.utils.get_column_letter(column)
    for dimension in sheet.column_dimensions.values():
        if dimension.min and dimension.min <= column <= dimension.max and dimension.customWidth:
            return int(dimension.width * 7 + 5)
    return int(sheet.column_dimensions[letters].width * 7 + 5) if letters in sheet.column_dimensions else int(STANDARD_WIDTH * 7 + 5)


def lines_of(text, font, points, room):
    lines, at = 1, 0.0
    for word in text.split(" "):
        wide = font.width(word + " ", points)
        if at > 0 and at + font.width(word, points) > room:
            lines, at = lines + 1, 0.0
        at += wide
    return lines


def clipped(sheet):
    merged = {(r.min_row, r.min_col): r.max_col for r in sheet.merged_cells.ranges}
    for row in sheet.iter_rows():
        for cell in row:
            if not isinstance(cell.value, str) or cell.value.startswith("="):
                continue
            font, points = FONTS[bool(cell.font.bold)], cell.font.size or 11
            last = merged.get((cell.row, cell.column), cell.column)
            room = sum(pixels(sheet, c) for c in range(cell.column, last + 1)) - 4
            if cell.alignment.wrap_text:
                lines = lines_of(cell.value, font, points, room)
                height = sheet.row_dimensions[cell.row].height or STANDARD_HEIGHT
                if lines * points * 1.17 > height + 1:
                    yield f"{sheet.title}!{cell.coordinate}: {lines} lines in {height} pt: {cell.value[:60]}"
                continue
            while last < sheet.max_column and sheet.cell(cell.row, last + 1).value is None and cell.alignment.horizontal != "right":
                last += 1
                room += pixels(sheet, last)
            if last < sheet.max_column and font.width(cell.value, points) > room:
                yield f"{sheet.title}!{cell.coordinate}: {font.width(cell.value, points):.0f} in {room} px: {cell.value[:60]}"


class Clipped(unittest.TestCase):
    def test_the_font_is_measured_right(self):
        # Digits of this font are 1139 of 2048 units wide (metric-compatible with Arial).
        self.assertAlmostEqual(FONTS[False].width("0" * 10, 72), 10 * 1139 / 2048 * 96, places=6)

    def test_no_text_is_clipped(self):
        cells, found = 0, []
        with folder() as work:
            jobs = [("quote", sample(name), language) for language in ("en", "de")
                    for name in ("01-winch-spindle.yaml", "03-pivot-pin-inch.yaml", "04-two-cuts.yaml", "07-cover-flange.yaml", "09-clevis-pin.yaml")]
            jobs += [("compare", sample("04-two-cuts.yaml"), "en"), ("load", sample("12-week.yaml"), "en")]
            for i, (command, path, language) in enumerate(jobs):
                book = os.path.join(work, f"{i}.xlsx")
                status, _, err = run(command, path, "--shop", SHOP, "--language", language, "--output", book)
                self.assertIn(status, (0, 1), err)
                for sheet in openpyxl.load_workbook(book):
                    found += [f"{command} {os.path.basename(path)} {language} {text}" for text in clipped(sheet)]
                    cells += sum(isinstance(c.value, str) for row in sheet.iter_rows() for c in row)
        self.assertEqual(found, [], "\n" + "\n".join(found))
        print(f"\n{cells} texts in their cells")


if __name__ == "__main__":
    unittest.main()
