/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where downlights of one kind may be: the strips of a room that nothing bars, or what is said of one place. */
#include "base/error.h"
#include "base/number.h"
#include "checks/places.h"
#include "cli/price_job.h"
#include "cli/verbs.h"
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

typedef struct
{
  SwCliPriceArgs out; /* room, format and to */
  char *like, *at;
  double cut_out, body, recess;
} Wanted;

static void
wanted_clear (Wanted *wanted)
{
  sw_cli_price_args_clear (&wanted->out);
  g_free (wanted->like);
  g_free (wanted->at);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Wanted, wanted_clear)

static const SwCliColumn strip_columns[] = {
  { "room", N_("Room"), FALSE }, { "number", N_("No."), TRUE }, { "bay", N_("Bay"), FALSE }, { "void", N_("Void"), TRUE },
  { "below", N_("Below"), FALSE }, { "from_mm", N_("From"), TRUE }, { "to_mm", N_("To"), TRUE }, { "along_mm", N_("Along the void"), TRUE },
  { "across_mm", N_("Across it"), TRUE }, { "off_centre_mm", N_("Off the void's centre line"), TRUE }, { "area_mm2", NULL, TRUE },
  { "x_mm", N_("Middle x"), TRUE }, { "y_mm", N_("Middle y"), TRUE }, { "battens", N_("Battens"), FALSE },
};

static const SwCliColumn place_columns[] = {
  { "room", N_("Room"), FALSE }, { "x_mm", N_("x"), TRUE }, { "y_mm", N_("y"), TRUE }, { "says", N_("Says"), FALSE }, { "of", N_("Of"), FALSE },
  { "clear_mm", N_("Clear (less than 0: to the nearest place)"), TRUE }, { "move_x_mm", N_("Move right"), TRUE }, { "move_y_mm", N_("Move up the plan"), TRUE },
  { "battens", N_("Battens"), FALSE },
};

static void
put_number (SwCliTable *table, double value)
{
  char figure[SW_NUMBER_BUF];
  sw_cli_table_put (table, isfinite (value) ? sw_number_write_fixed (value, 1, figure) : NULL);
}

/* ---- rows */

static void
put_strip (SwCliTable *table, const SwRoom *room, const SwLightStrip *strip, guint number, const char *battens)
{
  const SwDeckBay *bay = strip->bay;
  const SwVoid *lies_in = bay != NULL && strip->void_index >= 0 ? &g_array_index (bay->voids, SwVoid, strip->void_index) : NULL;
  char figure[SW_NUMBER_BUF];
  sw_cli_table_put (table, room->record.tag);
  sw_cli_table_put (table, sw_number_write (number, figure));
  sw_cli_table_put (table, bay != NULL ? bay->bay->record.tag : NULL);
  sw_cli_table_put (table, lies_in != NULL ? sw_number_write (lies_in->number, figure) : NULL);
  sw_cli_table_put (table, bay == NULL ? NULL : strip->over_rib ? _("rib") : _("void"));
  put_number (table, strip->box.low.x);
  put_number (table, strip->box.high.x);
  put_number (table, strip->box.high.x - strip->box.low.x);
  put_number (table, strip->box.high.y - strip->box.low.y);
  put_number (table, lies_in != NULL ? (strip->box.low.y + strip->box.high.y) / 2 - lies_in->v : NAN);
  put_number (table, strip->area);
  put_number (table, strip->middle.x);
  put_number (table, strip->middle.y);
  sw_cli_table_put (table, _(battens));
}

static void
put_strips (SwCliTable *table, const SwSpace *space, const SwRoom *room, const SwLightPlaces *places)
{
  g_autoptr (GArray) strips = sw_light_places_strips (places);
  for (guint i = 0; i < strips->len; i++)
    put_strip (table, room, &g_array_index (strips, SwLightStrip, i), i + 1, sw_check_light_battens (space, room, places));
}

static void
put_place (SwCliTable *table, const SwSpace *space, const SwRoom *room, const SwLightPlaces *places, SwPoint at)
{
  SwLightPlace place = sw_light_places_ask (places, at);
  const SwRecord *owner = place.owner != 0 ? sw_job_get (sw_space_job (space), place.owner) : NULL;
  gboolean there_is = isfinite (place.mm);
  sw_cli_table_put (table, room->record.tag);
  put_number (table, at.x);
  put_number (table, at.y);
  sw_cli_table_put (table, _(sw_light_bar_text (place.bar)));
  sw_cli_table_put (table, owner != NULL ? owner->tag : NULL);
  put_number (table, place.mm);
  put_number (table, there_is ? place.move.x : NAN);
  put_number (table, there_is ? place.move.y : NAN);
  sw_cli_table_put (table, _(sw_check_light_battens (space, room, places)));
}

/* ---- what is asked */

/* A copy of a light of the job, or a plain one, with what was said of it. */
static SwRecord *
light_wanted (const Wanted *wanted, const SwJob *job, GError **error)
{
  const SwRecord *like = wanted->like != NULL ? sw_job_find (job, wanted->like) : NULL;
  if (wanted->like != NULL && (like == NULL || sw_record_table (like) != SW_TABLE_LIGHT))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("the job has no light \"%s\""), wanted->like);
      return NULL;
    }
  SwLight *light = (SwLight *) (like != NULL ? sw_record_copy (like) : sw_record_new (SW_ID (SW_TABLE_LIGHT, 0), "wanted"));
  if (wanted->cut_out > 0)
    light->cut_out = wanted->cut_out;
  if (wanted->body > 0)
    light->body = wanted->body;
  if (wanted->recess > 0)
    light->recess = wanted->recess;
  if (sw_record_settle (&light->record, error))
    return &light->record;
  sw_record_unref (&light->record);
  return NULL;
}

static gboolean
read_place (const char *text, SwPoint *at, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ",", -1);
  if (g_strv_length (parts) == 2 && sw_number_read (parts[0], &at->x, NULL) && sw_number_read (parts[1], &at->y, NULL))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("\"%s\" is no place: X,Y in mm"), text);
  return FALSE;
}

static gboolean
add_room (SwCliTable *table, SwSpace *space, const SwRoom *room, const SwRecord *light, const SwPoint *at, GError **error)
{
  g_autoptr (SwLightPlaces) places = sw_check_light_places (space, room, (const SwLight *) light, NULL, error);
  if (places == NULL)
    return FALSE;
  if (at != NULL)
    put_place (table, space, room, places, *at);
  else
    put_strips (table, space, room, places);
  return TRUE;
}

/* The room asked for, that of the place, else every closed one. */
static gboolean
fill_table (SwCliTable *table, SwSpace *space, const Wanted *wanted, GError **error)
{
  const SwJob *job = sw_space_job (space);
  SwPoint at;
  g_autoptr (SwRecord) light = light_wanted (wanted, job, error);
  if (light == NULL || (wanted->at != NULL && !read_place (wanted->at, &at, error)))
    return FALSE;
  const SwRoom *only = wanted->out.room != NULL ? sw_cli_find_room (job, wanted->out.room, error) : wanted->at != NULL ? sw_deck_room_at (sw_space_deck (space), at) : NULL;
  if (only == NULL && wanted->out.room != NULL)
    return FALSE;
  if (only == NULL && wanted->at != NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("no room lies at %s"), wanted->at);
      return FALSE;
    }
  if (only != NULL)
    return add_room (table, space, only, light, wanted->at != NULL ? &at : NULL, error);
  const SwRecord *room;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (room = sw_job_iter_next (&i)) != NULL;)
    if (((const SwRoom *) room)->finish == SW_FINISH_CLOSED && !add_room (table, space, (const SwRoom *) room, light, NULL, error))
      return FALSE;
  return TRUE;
}

static int
show_places (const Wanted *wanted, const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwRules) rules = sw_cli_rules_of (job, &error);
  g_autoptr (SwDeck) deck = rules != NULL ? sw_deck_new (job) : NULL;
  g_autoptr (SwSpace) space = deck != NULL ? sw_space_new (deck, rules, &error) : NULL;
  const SwCliColumn *columns = wanted->at != NULL ? place_columns : strip_columns;
  g_auto (SwCliTable) table = sw_cli_table (columns, wanted->at != NULL ? G_N_ELEMENTS (place_columns) : G_N_ELEMENTS (strip_columns));
  if (space == NULL || !fill_table (&table, space, wanted, &error))
    return sw_cli_fail (error);
  g_autofree char *text = sw_cli_table_write (&table, wanted->out.format);
  return sw_cli_put (wanted->out.to, text, -1);
}

int
sw_cli_places (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (Wanted) wanted = { { NULL } };
  const GOptionEntry options[] = {
    { "room", 'r', 0, G_OPTION_ARG_STRING, &wanted.out.room, N_("one room only, by its mark or name"), N_("ROOM") },
    { "light", 'l', 0, G_OPTION_ARG_STRING, &wanted.like, N_("for a light like this one, by its mark; its own place counts as free"), N_("LIGHT") },
    { "cut-out", 0, 0, G_OPTION_ARG_DOUBLE, &wanted.cut_out, N_("its cut-out, mm"), N_("MM") },
    { "body", 0, 0, G_OPTION_ARG_DOUBLE, &wanted.body, N_("its body across, mm"), N_("MM") },
    { "recess", 0, 0, G_OPTION_ARG_DOUBLE, &wanted.recess, N_("its height above the ceiling's face, mm"), N_("MM") },
    { "at", 0, 0, G_OPTION_ARG_STRING, &wanted.at, N_("what bars this one place, and how far to move"), N_("X,Y") },
    SW_CLI_OUTPUT_OPTIONS (wanted.out),
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1) || !sw_cli_format_good (verb, wanted.out.format))
    return SW_CLI_USAGE;
  return show_places (&wanted, argv[1]);
}
