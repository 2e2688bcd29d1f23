/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/checks.h"
#include "checks/lookup.h"

/* What the check functions share; not for other layers. */

/* Numbers of the rule set that pairs ask for again and again: looked up once. */
typedef enum
{
  SW_LIMIT_RIB, SW_LIMIT_WEB, SW_LIMIT_CROWN, SW_LIMIT_CLOSURE, SW_LIMIT_SOLID, SW_LIMIT_OPENING, SW_LIMIT_BEAM,
  SW_LIMIT_PLATE, SW_LIMIT_BATTEN, SW_LIMIT_BOARD, SW_LIMIT_WALL, SW_LIMIT_TUBE, SW_LIMIT_CONDUIT, SW_LIMIT_CONDUIT_PIPE,
  SW_LIMIT_CONDUIT_HOT, SW_LIMIT_GAS, SW_LIMIT_LIGHT_BODY, SW_LIMIT_LIGHT_HEAT, SW_LIMIT_LIGHT_RIB, SW_LIMIT_LIGHT_PLATE,
  SW_LIMIT_LIGHT_WALL, SW_LIMIT_HANGER, SW_LIMIT_ZINC, SW_LIMIT_SADDLE, SW_LIMIT_END_REACH, SW_LIMIT_HATCH_REACH,
  SW_LIMIT_OVER_ELECTRICAL, SW_LIMIT_SADDLE_PLATE, SW_LIMIT_BATTEN_CUT, SW_LIMIT_COMBUSTIBLE, SW_LIMIT_WITHDRAW,
  SW_LIMIT_DRIP_ASIDE, SW_LIMIT_DRIP_BELOW, SW_LIMIT_LIGHT_JOINT, SW_LIMIT_UNMEASURED_RIB, SW_LIMIT_UNMEASURED_LEVEL, SW_LIMIT_UNMEASURED_PLATE,
  SW_N_LIMITS
} SwLimit;

typedef struct _SwCheckRun SwCheckRun;

/* Two bodies that meet, the first being the one that the check is about. */
typedef struct
{
  const SwBody *first, *second;
  double mm;       /* signed clearance */
  SwPoint3 away;   /* moves the first out */
  SwPoint3 place;  /* between the two surfaces */
} SwCheckPair;

#define SW_BODY_BIT(kind) (1u << (kind))
#define SW_TABLE_BIT(table) (1u << (table))
#define SW_BODIES_RUN (SW_BODY_BIT (SW_BODY_TUBE) | SW_BODY_BIT (SW_BODY_SOCKET))
#define SW_BODIES_SERVICE (SW_BODIES_RUN | SW_BODY_BIT (SW_BODY_FITTING))

/* One line of the table of checks: either about pairs of bodies or about records, or both. */
typedef struct
{
  SwCheck check;
  guint32 first, second; /* kinds of bodies */
  /* Clearance to look at, or negative to leave the pair alone. Cheap: asked for every near pair. */
  double (*needed) (const SwCheckRun *run, const SwBody *first, const SwBody *second);
  void (*pair) (SwCheckRun *run, const SwCheckPair *pair);
  guint32 tables;
  void (*record) (SwCheckRun *run, const SwRecord *record);
} SwCheckEntry;

struct _SwCheckRun
{
  SwSpace *space;
  SwDeck *deck;
  SwJob *job;
  SwRules *rules;
  SwCheckOptions options;
  const SwCheckEntry *entry; /* the one that is running */
  guint order;
  SwId subject;       /* the record that is looked at; 0: pairs */
  const SwRoute *route; /* of the subject; NULL when it is no run or could not be worked out */
  double highest_back;  /* of all hidden ceilings, where that was worked out: nothing above it is too low; else infinite */
  struct { double od, inside, thickness; } sweat[16]; /* sleeves that were worked out last; od 0: none */
  guint n_sweat;
  SwRuleValue draw_bends, draw_stop, draw_length;
  double inside_c[SW_N_SERVICES]; /* of pipes that sweat; NAN of others */
  SwRuleValue limits[SW_N_LIMITS];
  GArray *snags;      /* SwSnag */
  GArray *links;      /* int: the snag before with the same key, or −1 */
  GHashTable *keys;   /* key of a pair → last snag + 1 */
  SwCheckLookup *lookup;
  guint32 services;   /* bits of SwService that there are runs of */
  gboolean has_rated; /* a closed ceiling of which fire asks something */
  double rim;         /* how far the widest cut-out stands out over its light's body */
};

extern const SwCheckEntry sw_check_entries[];
extern const guint sw_check_n_entries;

static inline double sw_check_limit (const SwCheckRun *run, SwLimit limit) { return run->limits[limit].value; }
/* As sw_space_route, sooner for the record that is looked at. */
static inline const SwRoute *
sw_check_route (const SwCheckRun *run, SwId id)
{
  return id == run->subject ? run->route : sw_space_route (run->space, id);
}
/* NULL when the body is no run's. */
static inline const SwRun *
sw_check_run_of (const SwBody *body)
{
  return body->kind == SW_BODY_TUBE || body->kind == SW_BODY_SOCKET ? (const SwRun *) body->record : NULL;
}
/* NULL when the body is no fitting's. */
const SwFitting *sw_check_fitting_of (const SwCheckRun *run, SwId owner);

/* Ids (set of SwId) of all records whose snags an edit may alter: what changes, what refers to it, what lies near before or after.
 * NULL when that may be everything. The caller's. `before` and `after` are the spaces of the job before and after the edit. */
GHashTable *sw_check_touched (const SwSpace *before, SwSpace *after, const SwEdit *edit);
/* Snags of those of them that are in the space's job. */
SwSnags *sw_check_touched_snags (SwSpace *space, GHashTable *touched, const SwCheckOptions *options);
/* The farthest, in mm, that any check looks from a record. */
double sw_check_farthest (const SwSpace *space);
/* A new snag with the rule, trade and owner set; the rest is empty. Valid until the next is added; never NULL. */
SwSnag *sw_check_add (SwCheckRun *run, const char *variant, SwSeverity severity, SwId owner, SwPoint3 place);
/* A snag of a pair with the clearance that it lacks and the way out. One place where things meet gives one snag, the worst:
 * NULL when a worse one stands there already. `rule` may be NULL. */
SwSnag *sw_check_add_pair (SwCheckRun *run, const char *variant, SwSeverity severity, const SwCheckPair *pair,
                           double needed, const SwRuleValue *rule);
void sw_check_set_numbers (SwSnag *snag, double needed, double found, SwUnit unit, const SwRuleValue *rule);
/* A length that is missing, and the way to gain it (zero vector: none). */
void sw_check_set_missing (SwSnag *snag, double missing_mm, SwPoint3 direction);
/* The same for what can only be moved in plan: the least way along or across the bay that gives `needed`. */
void sw_check_set_aside (SwCheckRun *run, SwSnag *snag, const SwCheckPair *pair, double needed);
void sw_check_set_other (SwSnag *snag, SwId owner, SwBodyKind kind, int part);
void sw_check_set_param (SwSnag *snag, const char *name, double value, SwUnit unit);
void sw_check_set_extent (SwSnag *snag, SwPoint3 from, SwPoint3 to);

/* Whether two records belong together at this place, so that their bodies may touch: run and its fitting, two runs at one
 * box, tee or drop. */
gboolean sw_check_joined (const SwCheckRun *run, SwId a, SwId b, SwPoint3 place);
/* Closed or hung ceilings hide what is above them; NULL room: FALSE. */
static inline gboolean sw_check_is_hidden (const SwRoom *room) { return room != NULL && room->finish != SW_FINISH_EXPOSED; }
/* Fire boards, or a rating that is asked of the ceiling. */
static inline gboolean
sw_check_is_rated (const SwRoom *room)
{
  return room->finish == SW_FINISH_CLOSED && (room->board_kind == SW_BOARD_FIRE || room->fire_minutes > 0);
}
/* The layout of a room; NULL for none. */
const SwLayout *sw_check_layout_of (const SwCheckRun *run, SwId room);
static inline const SwRoom *sw_check_room_at (const SwCheckRun *run, SwPoint at) { return sw_check_lookup_room (run->lookup, at); }
/* As sw_record_box. */
SwBox sw_check_run_box (const SwRun *run);
/* Records of a table near the line between two places in plan, `around` it. The caller's. */
GPtrArray *sw_check_near_line (const SwCheckRun *run, SwTable table, SwPoint from, SwPoint to, double around);
