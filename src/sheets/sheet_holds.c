/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page for each room: its hold points in order with what was found, and below them whether anything recorded stands
 * against closing, with room for those who permit it. The program says what is open; it permits nothing. */
#include "base/error.h"
#include "sheets/sheet_room_pages.h"

#define GAP 6.0
#define N_HOLDS (SW_HOLD_SECOND_FIX + 1)

/* What has to be seen at each; trade practice. */
static const char *const seen[N_HOLDS] = {
  [SW_HOLD_SURVEY] = N_("rib lines, soffit levels, plates and room sizes measured and entered"),
  [SW_HOLD_SOIL_TEST] = N_("soil and waste under test; falls and sockets seen"),
  [SW_HOLD_WATER_TEST] = N_("pipes under pressure for the time agreed; joints dry"),
  [SW_HOLD_CONDUIT] = N_("conduits, boxes and saddles fixed; nothing on plates that go"),
  [SW_HOLD_CABLES] = N_("cables drawn; insulation and continuity read"),
  [SW_HOLD_PHOTOGRAPHS] = N_("every void and every stopped wall, with its number in the picture"),
  [SW_HOLD_CLOSE] = N_("all above passed and no snag that stops the work"),
  [SW_HOLD_BATTENS] = N_("level and centres; fixings in ribs only; trimmers at hatches"),
  [SW_HOLD_BOARDS] = N_("joints on battens; strips without screws kept"),
  [SW_HOLD_SECOND_FIX] = N_("lights, hatches and covers in place; tests and certificates handed over"),
};

static GPtrArray *
hold_texts (const SwSheetMaker *maker, const SwRoom *room, guint *n_open)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  *n_open = 0;
  for (int kind = SW_HOLD_SURVEY; kind < N_HOLDS; kind++)
    {
      const SwHoldPoint *hold = sw_sheet_hold_point (sw_sheet_job (maker->context), room->record.id, kind);
      int result = hold != NULL ? hold->result : SW_RESULT_OPEN;
      *n_open += kind < SW_HOLD_CLOSE && result != SW_RESULT_PASSED;
      g_ptr_array_add (texts, g_strdup_printf ("%d", kind + 1));
      g_ptr_array_add (texts, g_strdup (sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", kind)));
      g_ptr_array_add (texts, g_strdup (_(seen[kind])));
      g_ptr_array_add (texts, g_strdup (sw_sheet_word (SW_TABLE_HOLD_POINT, "result", result)));
      g_ptr_array_add (texts, g_strdup (hold != NULL ? hold->by : ""));
      g_ptr_array_add (texts, g_strdup (hold != NULL ? hold->on : ""));
      g_ptr_array_add (texts, g_strdup (hold != NULL && *hold->note != '\0' ? hold->note : "\n"));
    }
  return texts;
}

static guint
count_snags (const SwSheetMaker *maker, const SwRoom *room, SwSeverity severity)
{
  const SwSnags *snags = maker->context->snags;
  guint n = 0;
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    n += sw_snags_get (snags, i)->room == room->record.id && sw_snags_get (snags, i)->severity == severity;
  return n;
}

/* A sentence a line. */
static double
add_standing_against (const SwSheetMaker *maker, const SwSheetDraft *draft, SwPoint at, double width, const SwRoom *room, guint n_open)
{
  guint stops = count_snags (maker, room, SW_SEVERITY_STOP), fixes = count_snags (maker, room, SW_SEVERITY_FIX);
  g_autofree char *open = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u hold point before closing is not passed.", "%u hold points before closing are not passed.", n_open), n_open);
  g_autofree char *stop = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u snag stops the work here.", "%u snags stop the work here.", stops), stops);
  g_autofree char *fix = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u snag has to be mended here.", "%u snags have to be mended here.", fixes), fixes);
  const struct { guint n; const char *text; } lines[] = { { n_open, open }, { stops, stop }, { fixes, fix } };
  double y = sw_paragraph_add_heading (&draft->pen, at, width, _("Permission to close"));
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    if (lines[i].n > 0)
      y = sw_paragraph_add (&draft->pen, (SwPoint){ at.x, y }, width, lines[i].text);
  if (n_open + stops + fixes == 0)
    y = sw_paragraph_add (&draft->pen, (SwPoint){ at.x, y }, width, _("Nothing that is recorded stands against closing."));
  else
    y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ at.x, y }, width, _("Not to be closed until this is settled."));
  return y;
}

static void
add_permission (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox area, double y, const SwRoom *room, guint n_open)
{
  const SwHoldPoint *close = sw_sheet_hold_point (sw_sheet_job (maker->context), room->record.id, SW_HOLD_CLOSE);
  gboolean given = close != NULL && close->result == SW_RESULT_PASSED;
  const SwWriteLine lines[] = { { _("Electrician"), NULL }, { _("Plumber"), NULL }, { _("Ceiling contractor"), NULL }, { _("Structural engineer (plates, sleeves)"), NULL },
                                { _("Fire consultant (stopping)"), NULL }, { _("Permission given by"), given ? close->by : NULL }, { _("Date"), given ? close->on : NULL } };
  double half = (area.high.x - area.low.x - GAP) / 2, right = area.low.x + half + GAP;
  double end = add_standing_against (maker, draft, (SwPoint){ area.low.x, y }, half, room, n_open) - 10;
  sw_sheet_add_tick (draft, (SwPoint){ area.low.x, end }, given, _("may be closed"));
  sw_sheet_add_tick (draft, (SwPoint){ area.low.x, end - 9 }, FALSE, _("may be closed but for:"));
  sw_sheet_add_tick (draft, (SwPoint){ area.low.x, end - 18 }, FALSE, _("stays open"));
  sw_sheet_add_write_lines (draft, (SwPoint){ right, y }, half, 72, lines, G_N_ELEMENTS (lines));
}

static void
draw_room (SwSheetMaker *maker, const SwRoom *room)
{
  const char *notes[] = { _("In this order. What failed is mended and tested again before the next."),
                          _("The program says what is recorded. It gives no permission: those who sign do."), NULL };
  const SwListColumn columns[] = { { _("No."), 11, SW_ALIGN_RIGHT }, { _("Hold point"), 52, SW_ALIGN_LEFT }, { _("What is seen"), 82, SW_ALIGN_LEFT }, { _("Result"), 22, SW_ALIGN_LEFT },
                                   { _("Name"), 40, SW_ALIGN_LEFT }, { _("Date"), 27, SW_ALIGN_LEFT }, { _("Signature, note"), 54, SW_ALIGN_LEFT } };
  SwBox area;
  guint n_open;
  SwSheetDraft *draft = sw_sheet_begin_room (maker, room, 0, &area);
  g_autoptr (GPtrArray) texts = hold_texts (maker, room, &n_open);
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  SwSheetColumn column = { .notes = notes, .here = sw_record_box (&room->record) };
  sw_sheet_add_column (maker, draft, &column);
  double y = sw_sheet_add_list_on (maker, draft, area, _("Hold points"), room->record.tag, &list) - GAP;
  add_permission (maker, draft, area, y, room, n_open);
}

gboolean
sw_sheet_draw_holds (SwSheetMaker *maker, GError **error)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (maker->context), SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    draw_room (maker, g_ptr_array_index (rooms, i));
  if (rooms->len > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no rooms to record hold points for");
  return FALSE;
}
