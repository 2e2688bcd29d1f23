/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/page.h"
#include "base/error.h"
#include "drawing/cairo_painter.h"
#include "drawing/svg_writer.h"
#include <cairo-pdf.h>
#include <string.h>

#define POINTS_PER_MM (72 / 25.4)
#define USUAL_DPI 150.0
#define LEAST_LINE_MM 0.13
/* Pictures beyond this would need gigabytes. */
#define MOST_PIXELS 150e6

/* mm, upright. Source: ISO 216. */
static const struct { const char *name; double width, height; } papers[SW_N_PAPERS] = {
  { "A4", 210, 297 }, { "A3", 297, 420 }, { "A2", 420, 594 }, { "A1", 594, 841 },
};

const char *
sw_paper_name (SwPaper paper)
{
  g_return_val_if_fail (paper < SW_N_PAPERS, "");
  return papers[paper].name;
}

gboolean
sw_paper_find (const char *name, SwPaper *paper)
{
  for (guint i = 0; i < SW_N_PAPERS; i++)
    if (g_ascii_strcasecmp (papers[i].name, name) == 0)
      {
        *paper = i;
        return TRUE;
      }
  return FALSE;
}

SwPoint
sw_page_size (const SwPage *page)
{
  g_return_val_if_fail (page->paper < SW_N_PAPERS, ((SwPoint){ papers[0].width, papers[0].height }));
  SwPoint size = { papers[page->paper].width, papers[page->paper].height };
  return page->upright ? size : (SwPoint){ size.y, size.x };
}

SwBox
sw_page_frame (const SwPage *page)
{
  SwPoint size = sw_page_size (page);
  return (SwBox){ { 20, 10 }, { size.x - 10, size.y - 10 } };
}

void
sw_page_add_frame (SwDisplay *display, const SwPage *page)
{
  SwBox frame = sw_page_frame (page);
  SwStroke line = { SW_ROLE_INK, 0.7 };
  SwPoint middle = sw_point_lerp (frame.low, frame.high, 0.5);
  sw_display_begin_group (display, &(SwDisplayGroup){ .id = "frame", .class_name = "frame" });
  sw_display_add_box (display, frame, NULL, &line);
  /* Outwards only: what stands inside the frame is the sheet's. */
  const SwPoint marks[][2] = {
    { { middle.x, frame.low.y - 5 }, { middle.x, frame.low.y } },
    { { middle.x, frame.high.y }, { middle.x, frame.high.y + 5 } },
    { { frame.low.x - 5, middle.y }, { frame.low.x, middle.y } },
    { { frame.high.x, middle.y }, { frame.high.x + 5, middle.y } },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (marks); i++)
    sw_display_add_line (display, marks[i][0], marks[i][1], &line);
  sw_display_end (display);
}

SwDrawView
sw_page_view_at (const SwPage *page, SwTransform to_device)
{
  double unit = sw_transform_scale (to_device);
  return (SwDrawView){ .to_device = to_device,
                       .paper_px = unit,
                       .screen_px = unit * 25.4 / 96,
                       .detail = SW_PAGE_DETAIL,
                       .least_line_px = LEAST_LINE_MM * unit,
                       .look = { .theme = page->theme } };
}

SwDrawView
sw_page_view (const SwPage *page, double units_per_mm)
{
  return sw_page_view_at (page, (SwTransform){ units_per_mm, 0, 0, -units_per_mm, 0, sw_page_size (page).y * units_per_mm });
}

void
sw_page_paint (cairo_t *cr, const SwDisplay *display, const SwPage *page, double units_per_mm)
{
  SwPoint size = sw_page_size (page);
  SwDrawView view = sw_page_view (page, units_per_mm);
  SwBox sheet = { { 0, 0 }, { size.x * units_per_mm, size.y * units_per_mm } };
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, sheet.high.x, sheet.high.y);
  cairo_clip (cr);
  sw_cairo_paint_paper (cr, page->theme);
  sw_cairo_paint (cr, display, &view, sheet, NULL);
  cairo_restore (cr);
}

static const char *const endings[SW_N_PAGE_FORMATS] = { ".svg", ".pdf", ".png" };

gboolean
sw_page_format_find (const char *path, SwPageFormat *format, GError **error)
{
  const char *dot = strrchr (path, '.');
  for (guint i = 0; dot != NULL && i < SW_N_PAGE_FORMATS; i++)
    if (g_ascii_strcasecmp (dot, endings[i]) == 0)
      {
        *format = i;
        return TRUE;
      }
  g_autofree char *shown = g_filename_display_name (path);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" does not say which kind of file to write: end its name in .svg, .pdf or .png", shown);
  return FALSE;
}

static cairo_status_t
append_bytes (void *to, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (to, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* Takes `bytes`; NULL and an error when cairo failed. */
static GBytes *
finish_bytes (GByteArray *bytes, cairo_status_t status, const char *what, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return g_byte_array_free_to_bytes (bytes);
  g_byte_array_unref (bytes);
  g_set_error (error, SW_ERROR, status == CAIRO_STATUS_NO_MEMORY ? SW_ERROR_LIMIT : SW_ERROR_IO, "cannot draw the %s: %s", what,
               cairo_status_to_string (status));
  return NULL;
}

static void
set_metadata (cairo_surface_t *surface, const SwSheetPage *sheets, guint n)
{
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Soffitwright " SW_VERSION);
  /* Without a date of ours cairo would write the time of day. */
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, n > 0 && sheets[0].page.date ? sheets[0].page.date : "");
  g_autofree char *title = n > 0 && sheets[0].page.title ? g_utf8_make_valid (sheets[0].page.title, -1) : NULL;
  if (title != NULL)
    cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
}

static void
put_pdf_page (cairo_surface_t *surface, cairo_t *cr, const SwSheetPage *sheet, guint number)
{
  SwPoint size = sw_page_size (&sheet->page);
  cairo_pdf_surface_set_size (surface, size.x * POINTS_PER_MM, size.y * POINTS_PER_MM);
  sw_page_paint (cr, sheet->display, &sheet->page, POINTS_PER_MM);
  if (sheet->page.title != NULL)
    {
      g_autofree char *title = g_utf8_make_valid (sheet->page.title, -1);
      g_autofree char *place = g_strdup_printf ("page=%u", number);
      cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, title, place, 0);
    }
  cairo_show_page (cr);
}

GBytes *
sw_page_write_pdf (const SwSheetPage *sheets, guint n, GError **error)
{
  GByteArray *bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, 100, 100);
  set_metadata (surface, sheets, n);
  cairo_t *cr = cairo_create (surface);
  for (guint i = 0; i < n; i++)
    put_pdf_page (surface, cr, &sheets[i], i + 1);
  cairo_status_t status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  status = status != CAIRO_STATUS_SUCCESS ? status : cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return finish_bytes (bytes, status, "PDF", error);
}

static guint32
png_crc (const guint8 *data, gsize length)
{
  /* Source: PNG specification, annex D. */
  guint32 crc = 0xFFFFFFFFu;
  for (gsize i = 0; i < length; i++)
    {
      crc ^= data[i];
      for (int bit = 0; bit < 8; bit++)
        crc = crc & 1 ? 0xEDB88320u ^ (crc >> 1) : crc >> 1;
    }
  return ~crc;
}

static void
write_be32 (guint8 *to, guint32 value)
{
  value = GUINT32_TO_BE (value);
  memcpy (to, &value, 4);
}

/* The picture's real size: a pHYs chunk between cairo's header (33 bytes) and what follows. */
static GByteArray *
add_png_size (GByteArray *png, double dpi)
{
  guint8 chunk[21] = { 0, 0, 0, 9, 'p', 'H', 'Y', 's' };
  write_be32 (chunk + 8, (guint32) lround (dpi / 0.0254));
  write_be32 (chunk + 12, (guint32) lround (dpi / 0.0254));
  chunk[16] = 1; /* per metre */
  write_be32 (chunk + 17, png_crc (chunk + 4, 13));
  GByteArray *out = g_byte_array_sized_new (png->len + 21);
  g_byte_array_append (out, png->data, 33);
  g_byte_array_append (out, chunk, 21);
  g_byte_array_append (out, png->data + 33, png->len - 33);
  g_byte_array_unref (png);
  return out;
}

static GBytes *
write_png (const SwDisplay *display, const SwPage *page, GError **error)
{
  SwPoint size = sw_page_size (page);
  double dpi = page->dpi > 0 ? page->dpi : USUAL_DPI, unit = dpi / 25.4;
  double wide = ceil (size.x * unit), high = ceil (size.y * unit);
  if (!(wide * high <= MOST_PIXELS && wide < 32767 && high < 32767))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "a picture of %s at %.0f dots an inch is too large: ask for %.0f or fewer, or write a PDF",
                   papers[page->paper].name, dpi, floor (25.4 * sqrt (MOST_PIXELS / (size.x * size.y))));
      return NULL;
    }
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) wide, (int) high);
  cairo_t *cr = cairo_create (surface);
  sw_cairo_paint_paper (cr, page->theme);
  sw_page_paint (cr, display, page, unit);
  cairo_status_t status = cairo_status (cr);
  cairo_destroy (cr);
  GByteArray *bytes = g_byte_array_new ();
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_bytes, bytes);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    bytes = add_png_size (bytes, dpi);
  return finish_bytes (bytes, status, "picture", error);
}

static GBytes *
write_svg (const SwDisplay *display, const SwPage *page)
{
  SwPoint size = sw_page_size (page);
  SwSvgPage svg = { size.x, size.y, page->title, page->description, sw_page_view (page, 1) };
  return g_string_free_to_bytes (sw_svg_write (display, &svg));
}

GBytes *
sw_page_write (const SwDisplay *display, const SwPage *page, SwPageFormat format, GError **error)
{
  SwSheetPage sheet = { display, *page };
  if (format == SW_PAGE_SVG)
    return write_svg (display, page);
  return format == SW_PAGE_PDF ? sw_page_write_pdf (&sheet, 1, error) : write_png (display, page, error);
}

/* Takes `bytes` (NULL: passes the error on). */
static gboolean
save (GBytes *bytes, const char *path, GError **error)
{
  g_autofree char *shown = g_filename_display_name (path);
  if (bytes == NULL)
    {
      g_prefix_error (error, "\"%s\": ", shown);
      return FALSE;
    }
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  GError *trouble = NULL;
  g_file_set_contents_full (path, data, (gssize) length, G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &trouble);
  g_bytes_unref (bytes);
  if (trouble == NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_IO, "cannot write \"%s\": %s; choose another place or make room there", shown, trouble->message);
  g_error_free (trouble);
  return FALSE;
}

gboolean
sw_page_export (const SwDisplay *display, const SwPage *page, SwPageFormat format, const char *path, GError **error)
{
  return save (sw_page_write (display, page, format, error), path, error);
}

gboolean
sw_page_export_pdf (const SwSheetPage *sheets, guint n, const char *path, GError **error)
{
  return save (sw_page_write_pdf (sheets, n, error), path, error);
}
