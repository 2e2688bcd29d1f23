/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans by room: the soffit and its finishes, boards with their pieces, snags with their list. */
#include "base/number.h"
#include "geometry/outline.h"
#include "sheets/cut_parts.h"
#include "sheets/sheet_plan.h"

#define ROOMS SW_LAYER_BIT (SW_LAYER_ROOMS)
#define DECK SW_LAYER_BIT (SW_LAYER_DECK)
#define LIGHTS (SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES))
#define SERVICES (SW_LAYER_BIT (SW_LAYER_PIPES) | SW_LAYER_BIT (SW_LAYER_CONDUITS))
#define LEVEL_RANK 3
#define SNAG_RANK 1

/* The level of a bulkhead's face beside its own label. */
static void
mark_bulkheads (const SwSheetPlan *plan)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (plan->deck), SW_TABLE_BULKHEAD); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwBulkhead *bulkhead = (const SwBulkhead *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (sw_deck_job (plan->deck), bulkhead->room);
      SwPoint at = sw_outline_label_point (bulkhead->outline.items, bulkhead->outline.n);
      if (room == NULL || room->finish != SW_FINISH_CLOSED)
        continue;
      g_autofree char *level = sw_sheet_level_text (plan->maker->context, sw_deck_ceiling_face (plan->deck, room) - bulkhead->drop);
      sw_sheet_plan_add_label (plan, at, level, SW_ROLE_DIMENSION, LEVEL_RANK);
    }
}

/* Soffit levels a little inside each corner of each bay. */
static void
mark_soffit (const SwSheetPlan *plan)
{
  static const SwStroke cross = { .role = SW_ROLE_DIMENSION, .width = 0.35 };
  double arm = 1.2 * plan->scale;
  for (guint i = 0; i < sw_deck_n_bays (plan->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (plan->deck, i);
      const SwList *outline = &bay->bay->outline;
      SwBox box = sw_record_box (&bay->bay->record);
      for (guint k = 0; k < outline->n; k++)
        {
          SwPoint corner = SW_LIST_AT (*outline, SwPoint, k), at = sw_point_lerp (corner, sw_point_lerp (box.low, box.high, 0.5), 0.12);
          g_autofree char *level = sw_sheet_level_text (plan->maker->context, sw_deck_soffit (bay, at));
          sw_display_add_line (plan->display, (SwPoint){ at.x - arm, at.y - arm }, (SwPoint){ at.x + arm, at.y + arm }, &cross);
          sw_display_add_line (plan->display, (SwPoint){ at.x - arm, at.y + arm }, (SwPoint){ at.x + arm, at.y - arm }, &cross);
          sw_sheet_plan_add_label (plan, at, level, SW_ROLE_DIMENSION, LEVEL_RANK);
        }
    }
  mark_bulkheads (plan);
}

static void
add_room_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 20 }, { "name", 36 }, { "use", 22 }, { "finish", 24 }, { "area_m2", 16 }, { "perimeter_m", 20 }, { "soffit_mm", 28 }, { "ceiling_mm", 28 }, { "height_mm", 22 },
    { "board", 28 }, { "board_mm", 20 }, { "edge", 24 },
  };
  static const SwSheetListColumn loads[] = {
    { "bay", 30 }, { "room", 30 }, { "area_m2", 20 }, { "pipes_n", 22 }, { "conduits_n", 24 }, { "ceilings_n", 22 }, { "load_kpa", 24 }, { "allowed_kpa", 22 },
    { "share_percent", 22 }, { "void", 18 }, { "void_kpa", 24 }, { "note", 50 },
  };
  static const SwSheetListColumn bulkheads[] = {
    { "mark", 24 }, { "room", 24 }, { "name", 40 }, { "drop_mm", 24 }, { "ceiling_mm", 28 }, { "height_mm", 28 }, { "area_m2", 20 }, { "frame", 50 },
    { "build_up", 50 }, { "note", 60 },
  };
  sw_sheet_add_schedule_pages (maker, "rooms", columns, G_N_ELEMENTS (columns));
  sw_sheet_add_schedule_pages (maker, "bulkheads", bulkheads, G_N_ELEMENTS (bulkheads));
  sw_sheet_add_schedule_pages (maker, "loads", loads, G_N_ELEMENTS (loads));
}

/* "K3" of the cutting sheets. */
static const char *
origin_of (GHashTable *origins, const SwRoom *room, const SwPiece *piece)
{
  g_autofree char *key = sw_cut_piece_key (room->record.id, piece->piece);
  const char *origin = origins != NULL ? g_hash_table_lookup (origins, key) : NULL;
  return origin != NULL ? origin : "";
}

static void
add_piece (SwSheetMaker *maker, GPtrArray *texts, GHashTable *origins, const SwRoom *room, const SwPiece *piece, const char *where)
{
  SwLengths lengths = sw_job_lengths (sw_sheet_job (maker->context));
  g_ptr_array_add (texts, g_strdup (*room->name != '\0' ? room->name : room->record.tag));
  g_ptr_array_add (texts, g_strdup_printf ("%d%s", piece->piece, where));
  g_ptr_array_add (texts, g_strdup (origin_of (origins, room, piece)));
  g_ptr_array_add (texts, sw_sheet_length (maker->context, sw_length_down (piece->length, lengths), SW_LENGTH_BARE));
  g_ptr_array_add (texts, sw_sheet_length (maker->context, sw_length_down (piece->width, lengths), SW_LENGTH_BARE));
  g_ptr_array_add (texts, g_strdup (piece->cut ? _("yes") : _("no")));
  g_ptr_array_add (texts, g_strdup (""));
}

/* Faces on their pages, then all pieces of all layouts, room by room; those of faces have a stroke. */
static void
add_piece_list (SwSheetMaker *maker)
{
  g_autofree char *length = sw_sheet_length_head (maker->context, _("Length")), *width = sw_sheet_length_head (maker->context, _("Width"));
  const SwListColumn columns[] = {
    { _("Room"), 50, SW_ALIGN_LEFT }, { _("Piece"), 22, SW_ALIGN_RIGHT }, { _("Sheet"), 22, SW_ALIGN_RIGHT }, { length, 34, SW_ALIGN_RIGHT },
    { width, 34, SW_ALIGN_RIGHT }, { _("Cut"), 22, SW_ALIGN_LEFT }, { _("Put up"), 40, SW_ALIGN_LEFT },
  };
  SwJob *job = sw_sheet_job (maker->context);
  sw_sheet_add_face_pages (maker);
  g_autoptr (SwCutJob) cut = sw_cut_job_new (maker->context->deck, maker->context->rules, NULL, NULL);
  g_autoptr (GHashTable) origins = cut != NULL ? sw_cut_origins (cut) : NULL;
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
      for (guint k = 0; room != NULL && k < layout->pieces.n; k++)
        add_piece (maker, texts, origins, room, &SW_LIST_AT (layout->pieces, SwPiece, k), "");
      for (guint k = 0; room != NULL && k < layout->faces.n; k++)
        {
          const SwFacePiece *face = &SW_LIST_AT (layout->faces, SwFacePiece, k);
          add_piece (maker, texts, origins, room, &(SwPiece){ face->piece, face->sheet, face->length, face->width, face->cut, FALSE }, " |");
        }
    }
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  sw_sheet_add_list_pages (maker, _("Pieces"), &list, NULL);
}

static void
mark_snags (const SwSheetPlan *plan)
{
  static const SwColourRole roles[SW_N_SEVERITIES] = { SW_ROLE_STOP, SW_ROLE_FIX, SW_ROLE_NOTE };
  const SwSnags *snags = plan->maker->context->snags;
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      SwPoint at = { snag->place.x, snag->place.y };
      SwFill fill = { .role = roles[snag->severity] };
      SwTextStyle style = { .role = SW_ROLE_INK, .height = 3.0, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .bold = TRUE };
      g_autofree char *text = sw_sheet_snag_number (snags, i);
      SwLabel label = { { text, NULL }, { style }, at, SW_LABEL_ROUND, sw_box_grow ((SwBox){ at, at }, plan->scale), SNAG_RANK + (int) snag->severity, TRUE, SW_LAYER_SNAGS };
      sw_display_begin_group (plan->display, &(SwDisplayGroup){ { SW_PLAN_SNAG_TABLE, 0, i }, "snag", sw_severity_word (snag->severity), text, NULL });
      sw_display_add_circle (plan->display, at, 0.9 * plan->scale, &fill, NULL);
      sw_display_end (plan->display);
      sw_labels_add (plan->labels, &label);
    }
}

static void
add_snag_texts (GPtrArray *texts, const SwSheetContext *context, guint i)
{
  const SwSnags *snags = context->snags;
  const SwSnag *snag = sw_snags_get (snags, i);
  g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, sw_word);
  g_ptr_array_add (texts, sw_sheet_snag_number (snags, i));
  g_ptr_array_add (texts, g_strdup (_(sw_severity_label (snag->severity))));
  g_ptr_array_add (texts, g_strdup (_(sw_trade_label (snag->trade))));
  g_ptr_array_add (texts, g_strdup (text->what));
  g_ptr_array_add (texts, g_strdup (text->where));
  g_ptr_array_add (texts, g_strdup (text->todo));
  g_ptr_array_add (texts, sw_sheet_length (context, snag->missing_mm, SW_LENGTH_BARE));
  g_ptr_array_add (texts, g_strdup (text->rule));
  g_ptr_array_add (texts, g_strdup (""));
}

static void
add_snag_list (SwSheetMaker *maker)
{
  g_autofree char *missing = sw_sheet_length_head (maker->context, _("Short"));
  const SwListColumn columns[] = {
    { _("No."), 13, SW_ALIGN_LEFT },     { _("Kind"), 14, SW_ALIGN_LEFT },      { _("Trade"), 23, SW_ALIGN_LEFT }, { _("What"), 66, SW_ALIGN_LEFT }, { _("Where"), 52, SW_ALIGN_LEFT },
    { _("What to do"), 44, SW_ALIGN_LEFT }, { missing, 15, SW_ALIGN_RIGHT }, { _("Rule"), 43, SW_ALIGN_LEFT }, { _("Done"), 14, SW_ALIGN_LEFT },
  };
  const SwSnags *snags = maker->context->snags;
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    add_snag_texts (texts, maker->context, i);
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  sw_sheet_add_list_pages (maker, _("Snags"), &list, NULL);
}

const SwSheetPlanKind sw_sheet_plan_soffit = {
  .layers = ROOMS | DECK | LIGHTS,
  .working = TRUE,
  .mark = mark_soffit,
  .notes = { N_("Figures with + are levels of the ribs' soffit or of a bulkhead's face. Rooms marked exposed stay open: clean, prime and paint as the room list says.") },
  .add_lists = add_room_list,
};
const SwSheetPlanKind sw_sheet_plan_boards = {
  .layers = ROOMS | LIGHTS | SW_LAYER_BIT (SW_LAYER_BOARDS),
  .working = TRUE,
  .mark = sw_sheet_plan_mark_rows,
  .notes = { N_("Each piece has a number; the list gives its size and the sheet that it is cut from, as on C3; a stroke marks faces."),
             N_("Running dimensions from the ringed wall to the joints between rows."),
             N_("Figures beside end joints: running dimensions within the row, from the wall where its arrow begins.") },
  .add_lists = add_piece_list,
};
const SwSheetPlanKind sw_sheet_plan_snags = {
  .layers = ROOMS | DECK | LIGHTS | SERVICES,
  .working = TRUE,
  .mark = mark_snags,
  .notes = { N_("S stops the work, F has to be mended before the ceiling closes, N is to be known. The list says what and where.") },
  .add_lists = add_snag_list,
};
