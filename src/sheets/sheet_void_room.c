/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a void has room for: its section with what hangs there and what is to come, then how far falling pipes run in it. */
#include "base/error.h"
#include "base/number.h"
#include "checks/questions.h"
#include "sheets/pictures.h"
#include "sheets/sheet_parts.h"
#include "space/void_room.h"
#include <string.h>

#define PAD 4.0
#define HEAD_MM 8.0
#define LIST_MM 101.0

/* ---- tubes that are asked for */

gboolean
sw_picture_read_tubes (const SwRules *rules, const char *text, SwPackTube *tubes, double *sizes, guint *n, GError **error)
{
  g_auto (GStrv) items = g_strsplit_set (text, ", ;", -1);
  *n = 0;
  for (char **item = items; *item != NULL; item++)
    {
      const char *times = strchr (*item, 'x');
      g_autofree char *head = times != NULL ? g_strndup (*item, times - *item) : NULL;
      gint64 count = 1;
      double od;
      SwRuleValue socket;
      if (**item == '\0')
        continue;
      if ((head != NULL && !sw_number_read_int (head, &count, error)) || !sw_number_read (times != NULL ? times + 1 : *item, &od, error))
        return FALSE;
      if (od <= 0 || count < 1 || *n + count > SW_PACK_MOST)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("\"%s\": up to %d tubes wider than 0 can be packed"), text, SW_PACK_MOST);
          return FALSE;
        }
      gboolean known = sw_rules_lookup_at (rules, "waste.sockets", od, SW_RULE_EXACT, "socket_mm", &socket, NULL);
      for (gint64 i = 0; i < count; i++, ++*n)
        {
          tubes[*n] = (SwPackTube){ .radius = fmax (od, known ? socket.value : 0) / 2 };
          sizes[*n] = od;
        }
    }
  return TRUE;
}

const char *
sw_picture_packing_word (SwPackResult result)
{
  static const char *const said[] = {
    [SW_PACK_FITS] = N_ ("fits"), [SW_PACK_TOO_WIDE] = N_ ("one is too wide for the void"), [SW_PACK_TOO_MUCH] = N_ ("they are more than the void holds"),
    [SW_PACK_NOT_FOUND] = N_ ("no way was found"),
  };
  return said[result];
}

/* ---- the void */

typedef struct
{
  const SwDeckBay *bay;
  guint index;
  SwPackCase pack;
  GArray *there;          /* SwVoidTube */
  SwPackTube *fixed;
  SwPackTube asked[SW_PACK_MOST];
  double sizes[SW_PACK_MOST]; /* 0: the widest that there is room for */
  guint n;
  SwPackResult result;
} Room;

static gboolean
find_void (const SwSheetMaker *maker, Room *room)
{
  room->bay = sw_deck_bay_of (maker->context->deck, maker->args.record);
  for (room->index = 0; room->bay != NULL && room->index < room->bay->voids->len; room->index++)
    if (g_array_index (room->bay->voids, SwVoid, room->index).number == maker->args.void_number)
      return g_array_index (room->bay->voids, SwVoid, room->index).n_reaches > 0;
  return FALSE;
}

/* Places what is asked for; else the widest tube. */
static gboolean
fill_room (const SwSheetMaker *maker, Room *room, GError **error)
{
  const SwSheetContext *context = maker->context;
  room->pack = sw_void_section (context->space, room->bay, room->index);
  room->there = sw_void_tubes (context->space, room->bay, room->index, 0, room->bay->length);
  room->fixed = g_new0 (SwPackTube, MAX (room->there->len, 1));
  for (guint i = 0; i < room->there->len; i++)
    room->fixed[i] = g_array_index (room->there, SwVoidTube, i).tube;
  room->pack.fixed = room->fixed;
  room->pack.n_fixed = room->there->len;
  if (maker->args.tubes != NULL && !sw_picture_read_tubes (context->rules, maker->args.tubes, room->asked, room->sizes, &room->n, error))
    return FALSE;
  if (room->n > 0)
    {
      room->result = sw_packing_find (&room->pack, room->asked, room->n);
      for (guint i = 0; i < room->n && room->result != SW_PACK_FITS; i++)
        room->asked[i].at = (SwPoint){ NAN, NAN };
      return TRUE;
    }
  room->asked[0].radius = sw_packing_largest_beside (&room->pack, &room->asked[0].at) / 2;
  room->n = room->asked[0].radius > 0;
  return TRUE;
}

static SwPictureTube *
picture_tubes (const Room *room, const SwJob *job)
{
  SwPictureTube *tubes = g_new0 (SwPictureTube, room->there->len + room->n + 1);
  for (guint i = 0; i < room->there->len; i++)
    {
      const SwVoidTube *there = &g_array_index (room->there, SwVoidTube, i);
      const SwRun *run = (const SwRun *) sw_job_get (job, there->run);
      tubes[i] = (SwPictureTube){ there->tube, run->od, run->record.tag, sw_service_line_role (sw_plan_service_line ((SwService) run->service)) };
    }
  for (guint i = 0; i < room->n; i++)
    tubes[room->there->len + i] = (SwPictureTube){ room->asked[i], room->sizes[i], NULL, SW_ROLE_SELECTION };
  return tubes;
}

/* ---- the first page */

static void
put (GPtrArray *texts, double value, int decimals)
{
  char digits[SW_NUMBER_BUF];
  g_ptr_array_add (texts, isfinite (value) ? g_strdup (sw_number_write_fixed (value, decimals, digits)) : g_strdup ("–"));
}

static void
put_length (GPtrArray *texts, SwLengths lengths, double mm, int decimals)
{
  char text[SW_LENGTH_BUF];
  g_ptr_array_add (texts, g_strdup (isfinite (mm) ? sw_length_write (mm, lengths, SW_LENGTH_BARE, decimals, text) : "–"));
}

static void
put_tube (GPtrArray *texts, SwLengths lengths, char *name, double size, const SwPackTube *tube)
{
  g_ptr_array_add (texts, name);
  put_length (texts, lengths, size > 0 ? size : NAN, 1);
  put_length (texts, lengths, 2 * tube->radius, 1);
  put_length (texts, lengths, tube->at.x, 0);
  put_length (texts, lengths, tube->at.y, 0);
}

/* Runs that hang there, at the first of their tubes, then what was asked for. */
static void
add_tube_list (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const Room *room)
{
  const SwJob *job = sw_sheet_job (maker->context);
  g_autofree char *size = sw_sheet_length_head (maker->context, _("Size")), *outside = sw_sheet_length_head (maker->context, _("Outside"));
  g_autofree char *aside = sw_sheet_length_head (maker->context, _("From the middle")), *above = sw_sheet_length_head (maker->context, _("Axis above the soffit"));
  const SwListColumn columns[] = { { _("Tube"), 24, SW_ALIGN_LEFT }, { size, 15, SW_ALIGN_RIGHT }, { outside, 18, SW_ALIGN_RIGHT },
                                   { aside, 20, SW_ALIGN_RIGHT }, { above, 19, SW_ALIGN_RIGHT } };
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  SwId before = 0;
  for (guint i = 0; i < room->there->len; i++)
    {
      const SwVoidTube *there = &g_array_index (room->there, SwVoidTube, i);
      const SwRun *run = (const SwRun *) sw_job_get (job, there->run);
      if (there->run != before)
        put_tube (texts, draft->pen.lengths, g_strdup (run->record.tag), run->od, &there->tube);
      before = there->run;
    }
  for (guint i = 0; i < room->n; i++)
    put_tube (texts, draft->pen.lengths, room->sizes[i] > 0 ? g_strdup_printf ("%u", i + 1) : g_strdup (_("widest")), room->sizes[i], &room->asked[i]);
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  sw_paragraph_add_list (&draft->pen, (SwPoint){ box.low.x, box.high.y }, box.low.y, &list, 0, NULL);
}

static void
add_column (const SwSheetMaker *maker, SwSheetDraft *draft, const Room *room, const SwLegendEntry *legend, guint n, const char *const *notes)
{
  const SwVoid *over = &g_array_index (room->bay->voids, SwVoid, room->index);
  SwPoint middle = sw_deck_from_bay (room->bay, (SwPoint){ room->bay->length / 2, over->v });
  SwSheetColumn column = { .legend = legend, .n_legend = n, .notes = notes, .here = sw_box_grow ((SwBox){ middle, middle }, 400) };
  sw_sheet_add_column (maker, draft, &column);
}

static void
add_packing_column (const SwSheetMaker *maker, SwSheetDraft *draft, const Room *room)
{
  const char *notes[] = { _("Figures in the section are clear distances. Runs that slope or swerve are drawn as wide as they need from end to end."), NULL };
  static const SwStroke steel = { .role = SW_ROLE_STEEL, .width = 0.6 }, asked = { .role = SW_ROLE_SELECTION, .width = 0.5 }, left = { .role = SW_ROLE_GOOD, .width = 0.25, .dash = SW_DASH_HIDDEN };
  static const SwFill concrete = { .role = SW_ROLE_CONCRETE };
  const SwLegendEntry legend[] = { { NULL, &concrete, NULL, _("concrete") }, { &steel, NULL, NULL, _("sheet steel") }, { &asked, NULL, NULL, _("tube to come, with its socket") },
                                   { &left, NULL, NULL, _("void less its clearances") } };
  add_column (maker, draft, room, legend, G_N_ELEMENTS (legend), notes);
}

static void
add_packing_page (SwSheetMaker *maker, const Room *room)
{
  const SwJob *job = sw_sheet_job (maker->context);
  SwSheetDraft *draft = sw_sheet_begin_page (maker, 0);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD), left = area, right = area;
  g_autofree SwPictureTube *tubes = picture_tubes (room, job);
  g_autofree char *widest = room->n > 0 ? sw_sheet_length (maker->context, floor (2 * room->asked[0].radius), SW_LENGTH_UNIT) : NULL;
  g_autofree char *heading = maker->args.tubes != NULL
                               ? g_strdup_printf (_("Tubes %s beside what hangs there: %s"), maker->args.tubes, _(sw_picture_packing_word (room->result)))
                             : room->n > 0 ? g_strdup_printf (_("Widest tube beside what hangs there, from end to end: %s"), widest)
                                           : g_strdup (_("Nothing more fits from end to end"));
  left.high.x = right.low.x = area.high.x - LIST_MM;
  left.high.y = right.high.y = area.high.y - HEAD_MM;
  right.low.x += PAD;
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, area.high.x - area.low.x, heading);
  sw_picture_add_packing (&draft->pen, left, &(SwPicturePacking){ &room->pack, tubes, room->there->len + room->n });
  add_tube_list (maker, draft, right, room);
  add_packing_column (maker, draft, room);
}

/* ---- the second page */

static SwWorking *
ask_falls (const SwSheetMaker *maker, const Room *room, const char *start)
{
  char depth[SW_NUMBER_BUF];
  g_autoptr (GHashTable) given = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  sw_number_write_fixed (room->pack.depth, 1, depth);
  g_hash_table_insert (given, g_strdup ("depth"), g_strdup (depth));
  g_hash_table_insert (given, g_strdup ("start"), g_strdup (start));
  return sw_question_ask (sw_questions_find ("fall-table"), maker->context->rules, given, NULL);
}

/* Both tables have the same rows: sizes and falls. */
static void
add_fall_list (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const SwWorking *socket, const SwWorking *bend)
{
  SwLengths lengths = draft->pen.lengths;
  double sum_mm = lengths == SW_LENGTHS_FT_IN ? SW_MM_PER_FOOT : 1000;
  g_autofree char *pipe = sw_sheet_length_head (maker->context, _("Pipe")), *wide = sw_sheet_length_head (maker->context, _("Socket"));
  g_autofree char *longest = g_strdup_printf ("%s (%s)", _("Longest run"), sw_lengths_sum_symbol (lengths));
  g_autofree char *under = g_strdup_printf ("%s (%s)", _("Under a WC bend"), sw_lengths_sum_symbol (lengths));
  const SwListColumn columns[] = { { pipe, 16, SW_ALIGN_RIGHT }, { wide, 18, SW_ALIGN_RIGHT }, { _("Fall 1:n"), 18, SW_ALIGN_RIGHT },
                                   { longest, 22, SW_ALIGN_RIGHT }, { under, 22, SW_ALIGN_RIGHT } };
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  for (guint row = 0; row < MIN (sw_working_n_rows (socket), sw_working_n_rows (bend)); row++)
    {
      const double *cells = &g_array_index (socket->cells, double, row * socket->n_columns), *others = &g_array_index (bend->cells, double, row * bend->n_columns);
      for (guint c = 0; c < 2; c++)
        put_length (texts, lengths, cells[c], 0);
      put (texts, cells[2], 0);
      put (texts, cells[3] / sum_mm, 1);
      put (texts, others[3] / sum_mm, 1);
    }
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  sw_paragraph_add_list (&draft->pen, (SwPoint){ box.low.x, box.high.y }, box.low.y, &list, 0, NULL);
}

static double
value_of (const SwWorking *working, const char *symbol)
{
  const SwWorkingLine *line = sw_working_find (working, symbol);
  return line != NULL ? line->value : NAN;
}

static void
add_fall_picture (const SwSheetDraft *draft, SwBox box, const char *heading, const SwWorking *working, double end)
{
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ box.low.x, box.high.y }, box.high.x - box.low.x, heading);
  box.high.y -= HEAD_MM;
  sw_picture_add_falls (&draft->pen, box, working, end);
}

static void
add_fall_column (const SwSheetMaker *maker, SwSheetDraft *draft, const Room *room)
{
  static const SwStroke fall = { .role = SW_ROLE_WASTE, .width = 0.5 }, level = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.25, .dash = SW_DASH_HIDDEN },
                        end = { .role = SW_ROLE_CLOSURE, .width = 0.5, .dash = SW_DASH_CENTRE };
  const SwLegendEntry legend[] = { { &fall, NULL, NULL, _("height lost at a fall") }, { &level, NULL, NULL, _("until the socket meets the soffit") },
                                   { &end, NULL, NULL, _("end of the void") } };
  const char *notes[] = { _("Before anyone draws: how far a pipe runs in this void before its socket meets the soffit. What hangs in the void already is not looked at here."), NULL };
  add_column (maker, draft, room, legend, G_N_ELEMENTS (legend), notes);
}

/* Without one where the rule set has no sockets. */
static void
add_fall_page (SwSheetMaker *maker, const Room *room)
{
  g_autoptr (SwWorking) socket = ask_falls (maker, room, "socket"), bend = ask_falls (maker, room, "wc");
  if (socket == NULL || bend == NULL || sw_working_n_rows (socket) == 0)
    return;
  const SwVoid *cut = &g_array_index (room->bay->voids, SwVoid, room->index);
  const SwReach *first = &g_array_index (room->bay->reaches, SwReach, cut->first_reach), *last = first + cut->n_reaches - 1;
  SwSheetDraft *draft = sw_sheet_begin_page (maker, 0);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD), left = area, right = area;
  double half = (area.low.y + area.high.y) / 2, end = last->high - first->low;
  left.high.x = right.low.x = area.high.x - LIST_MM;
  right.low.x += PAD;
  g_autofree char *over = sw_sheet_length (maker->context, value_of (socket, "c"), SW_LENGTH_UNIT), *under = sw_sheet_length (maker->context, value_of (bend, "a"), SW_LENGTH_UNIT);
  g_autofree char *over_socket = g_strdup_printf (_("Longest falling run, %s over the socket at its high end"), over);
  g_autofree char *under_bend = g_strdup_printf (_("The same under the bend of a WC, its axis %s below the crown"), under);
  add_fall_picture (draft, (SwBox){ { left.low.x, half + PAD }, left.high }, over_socket, socket, end);
  add_fall_picture (draft, (SwBox){ left.low, { left.high.x, half - PAD } }, under_bend, bend, end);
  add_fall_list (maker, draft, right, socket, bend);
  add_fall_column (maker, draft, room);
}

gboolean
sw_sheet_draw_void_room (SwSheetMaker *maker, GError **error)
{
  Room room = { NULL };
  gboolean done = FALSE;
  if (maker->context->space == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "no section: the bodies of the job could not be worked out");
  else if (!find_void (maker, &room))
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the sheet needs a void: name a bay and one of its voids");
  else if (fill_room (maker, &room, error))
    {
      g_free (maker->title);
      maker->title = g_strdup_printf (_("Room in %s, void %d"), room.bay->bay->record.tag, maker->args.void_number);
      add_packing_page (maker, &room);
      add_fall_page (maker, &room);
      done = TRUE;
    }
  g_clear_pointer (&room.there, g_array_unref);
  g_free (room.fixed);
  return done;
}
