/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/snag_text.h"
#include "base/number.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "checks/messages.h"
#include "circuits/draws.h"
#include "space/expansion.h"
#include <string.h>

#define MINOR_SHARE    0.25   /* a part of a move smaller than this against the other is left out, and the other made longer */
#define SKEW_SHARE 0.1 /* of an eighth of a turn: 4.5° */
#define METRES_FROM_MM 10000.0 /* longer lengths are read in metres */

static const char *
in_language (SwTranslate translate, const char *english)
{
  return translate != NULL && *english != '\0' ? translate (english) : english;
}

/* ---- templates */

typedef struct
{
  const char *name;
  const char *text;
} Filling;

/* Replaces each {name}; a name that nothing fills stays, so that a test sees it. */
static char *
fill_template (const char *template, const Filling *fillings, gsize n)
{
  GString *out = g_string_new (NULL);
  for (const char *p = template; *p != '\0';)
    {
      const char *end = *p == '{' ? strchr (p, '}') : NULL;
      gsize i = 0;
      while (end != NULL && i < n
             && (strlen (fillings[i].name) != (gsize) (end - p - 1) || strncmp (fillings[i].name, p + 1, end - p - 1) != 0))
        i++;
      if (end != NULL && i < n)
        {
          g_string_append (out, fillings[i].text);
          p = end + 1;
        }
      else
        g_string_append_c (out, *p++);
    }
  return g_string_free (out, FALSE);
}

static char *
fill_one (SwTranslate translate, const char *english, const char *name, const char *text)
{
  Filling filling = { name, text };
  return fill_template (in_language (translate, english), &filling, 1);
}

static char *
fill_two (SwTranslate translate, const char *english, const char *name, const char *text, const char *other, const char *more)
{
  Filling fillings[] = { { name, text }, { other, more } };
  return fill_template (in_language (translate, english), fillings, 2);
}

static char *
capital (char *sentence)
{
  if (*sentence == '\0')
    return sentence;
  gunichar first = g_unichar_toupper (g_utf8_get_char (sentence));
  char letter[7] = { 0 };
  g_unichar_to_utf8 (first, letter);
  char *out = g_strconcat (letter, g_utf8_next_char (sentence), NULL);
  g_free (sentence);
  return out;
}

/* ---- numbers */

static char *
number_text (double value, int decimals, const char *unit)
{
  char figure[SW_NUMBER_BUF];
  return g_strdup_printf ("%s%s%s", sw_number_write_fixed (value, decimals, figure), *unit != '\0' ? " " : "", unit);
}

/* In whole millimetres or sixteenths, but where `fine` says that less counts; small millimetres always. */
static char *
length_text (double mm, gboolean fine, SwLengths lengths)
{
  char text[SW_LENGTH_BUF];
  if (fabs (mm) >= METRES_FROM_MM)
    return g_strdup (sw_length_write_far (mm, lengths, 2, text));
  if (fine || (fabs (mm) < 10 && lengths == SW_LENGTHS_MM))
    return g_strdup (sw_length_write_fine (mm, lengths, text));
  return g_strdup (sw_length_write (mm, lengths, SW_LENGTH_UNIT, 0, text));
}

static char *
value_text (double value, SwUnit unit, gboolean fine, SwLengths lengths)
{
  char figure[SW_NUMBER_BUF], area[SW_LENGTH_BUF];
  if (isnan (value))
    return g_strdup ("–");
  switch (unit)
    {
    case SW_UNIT_MM:
      return length_text (value, fine, lengths);
    case SW_UNIT_FALL:
      return g_strdup_printf ("1:%s", sw_number_write_fixed (value, 0, figure));
    case SW_UNIT_DEGREE:
      return g_strdup_printf ("%s°", sw_number_write_fixed (value, 0, figure));
    case SW_UNIT_M2:
      return g_strdup (sw_area_write (value * 1e6, lengths, 3, area));
    case SW_UNIT_KPA:
      return number_text (value, 2, sw_unit_symbol (unit));
    case SW_UNIT_NONE:
      return number_text (value, value == round (value) ? 0 : 2, "");
    case SW_UNIT_PERCENT:
    case SW_UNIT_AMPERE:
    case SW_UNIT_CELSIUS:
      return number_text (value, 1, sw_unit_symbol (unit));
    default:
      return number_text (value, 0, sw_unit_symbol (unit));
    }
}

/* ---- ways */

static const char *
compass (SwPoint3 way)
{
  static const char *const words[] = { N_ ("east"), N_ ("north-east"), N_ ("north"), N_ ("north-west"),
                                       N_ ("west"), N_ ("south-west"), N_ ("south"), N_ ("south-east") };
  double turn = atan2 (way.y, way.x) / (G_PI / 4);
  return words[((int) lround (turn) + 8) % 8];
}

/* Rounded up: a move that falls short is none. A zero distance gives "0 mm". */
static char *
rounded_up (double mm, SwLengths lengths)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (sw_length_write (sw_length_up (mm, lengths), lengths, SW_LENGTH_UNIT, 0, text));
}

/* "19 mm east and 77 mm north" where neither one of the eight winds nor one of the two parts alone says it. */
static char *
skew_words (SwPoint3 direction, double distance, SwLengths lengths, SwTranslate translate)
{
  SwPoint3 east = { direction.x, 0, 0 }, north = { 0, direction.y, 0 };
  double turn = atan2 (direction.y, direction.x) / (G_PI / 4), x = fabs (direction.x) * distance, y = fabs (direction.y) * distance;
  if (fabs (turn - round (turn)) < SKEW_SHARE || fmin (x, y) < 1)
    return NULL;
  g_autofree char *along_x = rounded_up (x, lengths), *along_y = rounded_up (y, lengths);
  g_autofree char *first = g_strdup_printf ("%s %s", along_x, in_language (translate, compass (east)));
  g_autofree char *second = g_strdup_printf ("%s %s", along_y, in_language (translate, compass (north)));
  return fill_two (translate, N_ ("{first} and {second}"), "first", first, "second", second);
}

char *
sw_snag_move (SwPoint3 direction, double distance, SwLengths lengths, SwTranslate translate)
{
  double flat = hypot (direction.x, direction.y), level = flat * distance, upright = fabs (direction.z) * distance;
  gboolean level_only = upright < MINOR_SHARE * level, upright_only = level < MINOR_SHARE * upright;
  g_autofree char *aside = rounded_up (level_only ? distance / flat : level, lengths);
  g_autofree char *up = rounded_up (upright_only ? distance / fabs (direction.z) : upright, lengths);
  const char *side = in_language (translate, compass (direction));
  const char *way = in_language (translate, direction.z > 0 ? N_ ("up") : N_ ("down"));
  g_autofree char *skew = level_only ? skew_words (direction, distance, lengths, translate) : NULL;
  if (skew != NULL)
    return g_steal_pointer (&skew);
  if (level_only)
    return g_strdup_printf ("%s %s", aside, side);
  if (upright_only)
    return g_strdup_printf ("%s %s", up, way);
  g_autofree char *first = g_strdup_printf ("%s %s", aside, side), *second = g_strdup_printf ("%s %s", up, way);
  return fill_two (translate, N_ ("{first} and {second}"), "first", first, "second", second);
}

/* ---- things */

static const char *
record_name (const SwRecord *record)
{
  static const char *const keys[] = { "name", "fixture" };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      const SwField *field = sw_struct_field (&sw_record_type (record)->body, keys[i]);
      if (field != NULL && field->kind == SW_FIELD_TEXT && *SW_AT (record, field, char *) != '\0')
        return SW_AT (record, field, char *);
    }
  return NULL;
}

/* "Waste 50" from service and size. */
static char *
run_name (const SwRun *run, SwLengths lengths, SwTranslate translate)
{
  const SwField *service = sw_struct_field (&sw_type_get (SW_TABLE_RUN)->body, "service");
  char figure[SW_NUMBER_BUF], feet[SW_LENGTH_BUF];
  const char *size = lengths == SW_LENGTHS_MM ? sw_number_write (run->od, figure) : sw_length_write (run->od, lengths, SW_LENGTH_BARE, 0, feet);
  return g_strdup_printf ("%s %s", in_language (translate, service->words[run->service].label), size);
}

static char *
kind_name (const SwRecord *record, SwTranslate translate)
{
  const char *key = sw_record_table (record) == SW_TABLE_FITTING || sw_record_table (record) == SW_TABLE_HOLD_POINT ? "kind" : NULL;
  const SwField *field = key != NULL ? sw_struct_field (&sw_record_type (record)->body, key) : NULL;
  if (field == NULL)
    return g_strdup (in_language (translate, sw_record_type (record)->label));
  return g_strdup (in_language (translate, field->words[SW_AT (record, field, int)].label));
}

/* "diagonal 1 to 3 (M12)"; NULL for what is no distance of a room. */
static char *
distance_name (const SwMeasure *measure, SwTranslate translate)
{
  g_autofree char *from = g_strdup_printf ("%d", measure->number), *to = g_strdup_printf ("%d", measure->second), *name = NULL;
  if (measure->kind == SW_MEASURE_LENGTH)
    name = fill_one (translate, N_ ("side {side}"), "side", from);
  else if (measure->kind == SW_MEASURE_DIAGONAL)
    name = fill_two (translate, N_ ("diagonal {from} to {to}"), "from", from, "to", to);
  return name != NULL ? g_strdup_printf ("%s (%s)", name, measure->record.tag) : NULL;
}

/* "Waste 50 (R12)", "shower (DI3)"; without a name "downlight L4". */
static char *
record_thing (const SwRecord *record, SwLengths lengths, SwTranslate translate)
{
  const char *name = record_name (record);
  if (name != NULL)
    return g_strdup_printf ("%s (%s)", name, record->tag);
  if (sw_record_table (record) == SW_TABLE_RUN)
    {
      g_autofree char *run = run_name ((const SwRun *) record, lengths, translate);
      return g_strdup_printf ("%s (%s)", run, record->tag);
    }
  char *distance = sw_record_table (record) == SW_TABLE_MEASURE ? distance_name ((const SwMeasure *) record, translate) : NULL;
  if (distance != NULL)
    return distance;
  g_autofree char *kind = kind_name (record, translate);
  return sw_record_call (record, kind);
}

static char *
numbered (SwTranslate translate, const char *english, const char *name, int number)
{
  g_autofree char *figure = g_strdup_printf ("%d", number);
  return fill_one (translate, english, name, figure);
}

/* A part of a bay; NULL when the kind is none. */
static char *
bay_thing (const SwDeckBay *bay, SwBodyKind kind, int part, SwTranslate translate)
{
  gboolean known = part >= 0 && (guint) part < bay->voids->len;
  if (kind == SW_BODY_RIB && part >= 0)
    return numbered (translate, N_ ("rib {rib}"), "rib", sw_deck_rib_number (bay, part));
  if (kind == SW_BODY_CROWN && known)
    return numbered (translate, N_ ("the crown of void {void}"), "void", g_array_index (bay->voids, SwVoid, part).number);
  if (kind == SW_BODY_CLOSURE && known)
    return numbered (translate, N_ ("the closure of void {void}"), "void", g_array_index (bay->voids, SwVoid, part).number);
  if (kind == SW_BODY_PLATE && part >= 0 && (guint) part < bay->plates->len)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, part);
      g_autofree char *number = g_strdup_printf ("%d", plate->number);
      g_autofree char *in = g_strdup_printf ("%d", g_array_index (bay->voids, SwVoid, plate->void_index).number);
      return fill_two (translate, N_ ("plate {plate} of void {void}"), "plate", number, "void", in);
    }
  return NULL;
}

char *
sw_snag_thing (const SwSnags *snags, SwId owner, SwBodyKind kind, int part, SwTranslate translate)
{
  SwDeck *deck = sw_space_deck (sw_snags_space (snags));
  SwLengths lengths = sw_job_lengths (sw_deck_job (deck));
  const SwDeckBay *bay = SW_ID_TABLE (owner) == SW_TABLE_BAY ? sw_deck_bay_of (deck, owner) : NULL;
  char *of_bay = bay != NULL ? bay_thing (bay, kind, part, translate) : NULL;
  const SwRecord *record = owner != 0 ? sw_job_get (sw_deck_job (deck), owner) : NULL;
  if (of_bay != NULL)
    return of_bay;
  if (record == NULL)
    return g_strdup (in_language (translate, N_ ("something unnamed")));
  if (sw_record_table (record) != SW_TABLE_LAYOUT)
    return record_thing (record, lengths, translate);
  const SwRecord *room = sw_job_get (sw_deck_job (deck), ((const SwLayout *) record)->room);
  g_autofree char *in = room != NULL ? record_thing (room, lengths, translate) : g_strdup (record->tag);
  return fill_one (translate, kind == SW_BODY_MEMBER ? N_ ("a batten of {room}") : N_ ("the boards of {room}"), "room", in);
}

/* ---- places */

static void
append_part (GString *text, char *part)
{
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, part);
  g_free (part);
}

char *
sw_snag_where (const SwAddress *address, SwLengths lengths, SwTranslate translate)
{
  GString *text = g_string_new (NULL);
  char figure[SW_LENGTH_BUF];
  if (address->bay != NULL)
    {
      const SwBay *bay = address->bay->bay;
      append_part (text, *bay->name != '\0' ? g_strdup (bay->name) : sw_record_call (&bay->record, in_language (translate, N_ ("bay"))));
    }
  if (address->bay != NULL && address->bay->voids->len > 0)
    {
      append_part (text, numbered (translate, address->over_void ? N_ ("void {void}") : N_ ("rib by void {void}"), "void", address->void_number));
      g_autofree char *past = g_strdup (sw_length_write (address->past_plate, lengths, SW_LENGTH_BARE, 0, figure));
      g_autofree char *plate = g_strdup_printf ("%d", address->plate_number);
      append_part (text, address->has_plate        ? fill_two (translate, N_ ("{past} past plate {plate}"), "past", past, "plate", plate)
                         : address->past_plate < 0 ? g_strdup (in_language (translate, N_ ("before the closure")))
                                                   : fill_one (translate, N_ ("{past} from the closure"), "past", past));
    }
  if (address->grid != NULL)
    append_part (text, fill_two (translate, N_ ("{length} from grid {grid}"), "length",
                                 sw_length_write_far (address->from_grid, lengths, 2, figure), "grid", address->grid->record.tag));
  return g_string_free (text, FALSE);
}

/* ---- couplings */

/* Where the expansion couplings of a run go: "2.13 m from its start (bay B, void 1, 1980 past plate 1)", with semicolons. */
static char *
coupling_places (const SwSnags *snags, const SwSnag *snag, SwTranslate translate)
{
  const SwSpace *space = sw_snags_space (snags);
  const SwRoute *route = sw_space_route ((SwSpace *) space, snag->owners[0]);
  SwDeck *deck = sw_space_deck (space);
  SwLengths lengths = sw_job_lengths (sw_deck_job (deck));
  g_autoptr (GPtrArray) fittings = g_ptr_array_new ();
  GString *text = g_string_new (NULL);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_FITTING); route != NULL && (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwFitting *) record)->run == snag->owners[0])
      g_ptr_array_add (fittings, (gpointer) record);
  g_autoptr (GArray) places = route != NULL ? sw_expansion_places (sw_space_rules (space), route, fittings, 0) : g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < places->len; i++)
    {
      double along = g_array_index (places, double, i);
      SwPoint3 at = sw_circuits_place (route, along);
      SwAddress address = sw_deck_address (deck, (SwPoint){ at.x, at.y });
      char figure[SW_LENGTH_BUF];
      g_autofree char *where = sw_snag_where (&address, lengths, translate);
      g_autofree char *one = fill_two (translate, N_ ("{along} from its start ({where})"), "along", sw_length_write_far (along, lengths, 2, figure), "where", where);
      g_string_append_printf (text, "%s%s", i > 0 ? "; " : "", one);
    }
  return g_string_free (text, FALSE);
}

/* ---- the whole text */

#define MAX_FILLINGS (9 + SW_SNAG_PARAMS_MAX)

/* "{first}" and so on; the texts are the list's to free. */
static gsize
snag_fillings (const SwSnags *snags, const SwSnag *snag, SwTranslate translate, Filling fillings[MAX_FILLINGS], GPtrArray *texts)
{
  SwLengths lengths = sw_job_lengths (sw_space_job (sw_snags_space (snags)));
  gboolean fine = fabs (snag->needed - snag->found) < (lengths == SW_LENGTHS_MM ? 1 : SW_MM_PER_INCH / 8);
  const struct { const char *name; char *text; } all[] = {
    { "first", sw_snag_thing (snags, snag->owners[0], snag->kinds[0], snag->parts[0], translate) },
    { "second", sw_snag_thing (snags, snag->owners[1], snag->kinds[1], snag->parts[1], translate) },
    { "needed", value_text (snag->needed, snag->unit, fine, lengths) },
    { "found", value_text (snag->found, snag->unit, fine, lengths) },
    { "depth", value_text (-snag->found, SW_UNIT_MM, fine, lengths) },
    { "missing", isnan (snag->missing_mm) ? g_strdup ("–") : rounded_up (snag->missing_mm, lengths) },
    { "move", sw_snag_move (snag->direction, snag->distance, lengths, translate) },
    { "detail", g_strdup (snag->detail != NULL ? snag->detail : "") },
    { "places", strcmp (snag->rule, "expansion") == 0 ? coupling_places (snags, snag, translate) : g_strdup ("") },
  };
  gsize n = 0;
  for (; n < G_N_ELEMENTS (all); n++)
    {
      fillings[n] = (Filling){ all[n].name, all[n].text };
      g_ptr_array_add (texts, all[n].text);
    }
  for (guint i = 0; i < snag->n_params; i++, n++)
    {
      char *text = value_text (snag->params[i].value, snag->params[i].unit, FALSE, lengths);
      fillings[n] = (Filling){ snag->params[i].name, text };
      g_ptr_array_add (texts, text);
    }
  return n;
}

const char *
sw_confidence_label (SwConfidence confidence)
{
  static const char *const labels[SW_N_CONFIDENCES] = { N_ ("published"), N_ ("common practice"), N_ ("derived"), N_ ("from memory") };
  return labels[confidence];
}

char *
sw_rule_figure (const SwRuleValue *value, SwLengths lengths)
{
  char figure[SW_NUMBER_BUF], feet[SW_LENGTH_BUF];
  if (value->text != NULL)
    return g_strdup (value->text);
  double mm = strcmp (value->unit, "mm") == 0 ? 1 : strcmp (value->unit, "m") == 0 ? 1000 : 0;
  if (lengths != SW_LENGTHS_MM && mm > 0)
    return g_strdup (sw_length_write (value->value * mm, lengths, SW_LENGTH_UNIT, 0, feet));
  return g_strdup_printf ("%s%s%s", sw_number_write (value->value, figure), *value->unit != '\0' ? " " : "", value->unit);
}

static char *
rule_text (const SwRuleValue *value, SwLengths lengths, SwTranslate translate)
{
  if (value->rule_id == NULL)
    return g_strdup ("");
  g_autofree char *number = sw_rule_figure (value, lengths);
  Filling fillings[] = { { "id", value->rule_id }, { "value", number }, { "source", value->source },
                         { "confidence", in_language (translate, sw_confidence_label (value->confidence)) } };
  const char *template = value->overridden ? N_ ("{id} = {value}, changed in this job ({source}; {confidence})")
                                           : N_ ("{id} = {value} ({source}; {confidence})");
  return fill_template (in_language (translate, template), fillings, G_N_ELEMENTS (fillings));
}

static char *
sentence_of (const SwSnagText *text)
{
  g_autofree char *head = g_strdup (text->what);
  gsize length = strlen (head);
  if (*text->where != '\0' && length > 0 && head[length - 1] == '.')
    head[length - 1] = '\0';
  return g_strdup_printf ("%s%s%s%s%s%s", head, *text->where != '\0' ? ": " : "", text->where, *text->where != '\0' ? "." : "",
                          *text->todo != '\0' ? " " : "", text->todo);
}

SwSnagText *
sw_snag_text (const SwSnags *snags, const SwSnag *snag, SwTranslate translate)
{
  const SwSnagMessage *message = sw_snag_message (snag->rule, snag->variant);
  SwLengths lengths = sw_job_lengths (sw_space_job (sw_snags_space (snags)));
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  Filling fillings[MAX_FILLINGS];
  gsize n = snag_fillings (snags, snag, translate, fillings, texts);
  g_assert (message != NULL);
  SwSnagText *text = g_new0 (SwSnagText, 1);
  text->title = g_strdup (in_language (translate, sw_checks_find (snag->rule)->title));
  text->what = capital (fill_template (in_language (translate, message->what), fillings, n));
  text->todo = capital (fill_template (in_language (translate, message->todo), fillings, n));
  text->where = sw_snag_where (&snag->address, lengths, translate);
  text->rule = rule_text (&snag->value, lengths, translate);
  text->sentence = sentence_of (text);
  return text;
}

void
sw_snag_text_free (SwSnagText *text)
{
  g_free (text->title);
  g_free (text->what);
  g_free (text->where);
  g_free (text->todo);
  g_free (text->rule);
  g_free (text->sentence);
  g_free (text);
}

const char *
sw_severity_label (SwSeverity severity)
{
  static const char *const labels[SW_N_SEVERITIES] = { N_ ("Stop"), N_ ("Fix"), N_ ("Note") };
  g_assert ((int) severity >= 0 && severity < SW_N_SEVERITIES);
  return labels[severity];
}

const char *
sw_trade_label (SwTrade trade)
{
  static const char *const labels[SW_N_TRADES] = { N_ ("Electrician"), N_ ("Plumber"), N_ ("Ceiling"), N_ ("Architect"), N_ ("Engineer") };
  g_assert ((int) trade >= 0 && trade < SW_N_TRADES);
  return labels[trade];
}
