/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Upright faces of bulkheads after the board plan, each as it looks from the room: unrolled to a strip with its pieces and their
 * numbers, all to one scale, from the top of the page down. Faces stand in the layout piece by piece; one goes on while its
 * pieces follow each other on one line, in courses from the top. */
#include "base/number.h"
#include "sheets/sheet_plan.h"

#define PAD 6.0
#define HEAD_MM 7.0
#define GAP_MM 9.0
#define SAME_MM 0.5

typedef struct
{
  const SwRoom *room;
  const SwFacePiece *pieces;
  guint n, number; /* number: from 1 in its room */
  SwPoint from, along;
  double length, top, height;
} Face;

static gboolean
goes_on (const Face *face, const SwFacePiece *next)
{
  SwPoint a = sw_point_sub (next->from, face->from), b = sw_point_sub (next->to, face->from);
  gboolean on_line = fabs (sw_point_cross (face->along, a)) < SAME_MM && fabs (sw_point_cross (face->along, b)) < SAME_MM;
  double start = sw_point_dot (face->along, a);
  return on_line && next->top <= face->top + SAME_MM && (fabs (start - face->length) < SAME_MM || (fabs (start) < SAME_MM && next->top < face->top - SAME_MM));
}

/* The face that begins with piece `first`. */
static Face
face_at (const SwLayout *layout, const SwRoom *room, guint first)
{
  const SwFacePiece *pieces = &SW_LIST_AT (layout->faces, SwFacePiece, first);
  SwPoint way = sw_point_sub (pieces->to, pieces->from);
  Face face = { .room = room, .pieces = pieces, .n = 1, .from = pieces->from, .length = sw_point_length (way), .top = pieces->top, .height = pieces->width };
  face.along = sw_point_scale (way, 1 / fmax (face.length, 1e-9));
  while (first + face.n < layout->faces.n && goes_on (&face, &pieces[face.n]))
    {
      const SwFacePiece *next = &pieces[face.n++];
      face.length = fmax (face.length, sw_point_dot (face.along, sw_point_sub (next->to, face.from)));
      face.height = fmax (face.height, face.top - next->top + next->width);
    }
  return face;
}

static GArray *
all_faces (const SwJob *job)
{
  GArray *faces = g_array_new (FALSE, FALSE, sizeof (Face));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
      guint number = 1;
      for (guint k = 0; k < layout->faces.n; number++)
        {
          Face face = face_at (layout, room, k);
          face.number = number;
          k += face.n;
          g_array_append_val (faces, face);
        }
    }
  return faces;
}

static double
scale_for (const GArray *faces, double width)
{
  static const double scales[] = { 10, 20, 25, 50, 100, 200 };
  double longest = 0;
  for (guint i = 0; i < faces->len; i++)
    longest = fmax (longest, g_array_index (faces, Face, i).length);
  for (gsize i = 0; i < G_N_ELEMENTS (scales); i++)
    if (longest / scales[i] <= width)
      return scales[i];
  return ceil (longest / width / 100) * 100;
}

static void
draw_face (const SwSheetMaker *maker, const SwPen *pen, const Face *face, SwPoint top_left, double scale)
{
  static const SwFill board = { .role = SW_ROLE_BOARD };
  SwStroke edge = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID);
  g_autofree char *length = sw_sheet_length (maker->context, face->length, SW_LENGTH_BARE), *height = sw_sheet_length (maker->context, face->height, SW_LENGTH_UNIT);
  g_autofree char *level = sw_sheet_level_text (maker->context, face->top - face->height - face->room->board_thickness);
  g_autofree char *heading = g_strdup_printf (_("%s, face %u: %s × %s, lower edge %s"), *face->room->name ? face->room->name : face->room->record.tag, face->number,
                                              length, height, level);
  sw_display_begin_group (pen->display, &(SwDisplayGroup){ .class_name = "face", .title = heading });
  sw_pen_add_text (pen, (SwPoint){ top_left.x, top_left.y - HEAD_MM + 2 }, heading, &(SwPenText){ .bold = TRUE });
  for (guint i = 0; i < face->n; i++)
    {
      const SwFacePiece *piece = &face->pieces[i];
      double x = top_left.x + sw_point_dot (face->along, sw_point_sub (piece->from, face->from)) / scale;
      double y = top_left.y - HEAD_MM - (face->top - piece->top) / scale;
      SwBox box = { { x, y - piece->width / scale }, { x + piece->length / scale, y } };
      g_autofree char *text = g_strdup_printf ("%d", piece->piece);
      sw_display_add_box (pen->display, box, &board, &edge);
      sw_pen_add_text (pen, sw_point_lerp (box.low, box.high, 0.5), text, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = TRUE });
    }
  sw_display_end (pen->display);
}

void
sw_sheet_add_face_pages (SwSheetMaker *maker)
{
  g_autoptr (GArray) faces = all_faces (sw_sheet_job (maker->context));
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  const char *notes[] = { _("Faces of bulkheads as seen from the room. Their upper edge meets the back of the higher ceiling's boards; the bottom's boards lap below."), NULL };
  double scale = scale_for (faces, area.high.x - area.low.x), y = area.low.y;
  SwSheetDraft *draft = NULL;
  for (guint i = 0; i < faces->len; i++)
    {
      const Face *face = &g_array_index (faces, Face, i);
      double need = HEAD_MM + face->height / scale + GAP_MM;
      if (face->room == NULL)
        continue;
      if (draft == NULL || y - need < area.low.y)
        {
          SwSheetColumn column = { NULL, 0, notes, FALSE, FALSE, SW_BOX_EMPTY, FALSE };
          draft = sw_sheet_begin_page (maker, scale);
          sw_sheet_add_column (maker, draft, &column);
          y = area.high.y;
        }
      draw_face (maker, &draft->pen, face, (SwPoint){ area.low.x, y }, scale);
      y -= need;
    }
}
