/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"
#include "ceiling/ceiling.h"
#include "ceiling/linear_cut.h"

/* What a room's ceiling takes, counted from the layout. */

typedef enum
{
  SW_TOTAL_SHEETS,       /* a × b: the sheet */
  SW_TOTAL_SHEET_MASS,   /* of all sheets; a: kg of one */
  SW_TOTAL_BOARD_AREA,   /* of the pieces */
  SW_TOTAL_BOARD_WASTE,  /* of the sheets less the pieces */
  SW_TOTAL_BATTEN, SW_TOTAL_PRIMARY, SW_TOTAL_NOGGIN, SW_TOTAL_TRIMMER, SW_TOTAL_PERIMETER,
  SW_TOTAL_STUD,         /* a × b: the section, as of the five before */
  SW_TOTAL_STOCK,        /* stock lengths to buy; a × b: the section, length: of one */
  SW_TOTAL_STOCK_WASTE,  /* of the stock lengths less the members; a × b: the section */
  SW_TOTAL_SCREWS, SW_TOTAL_SCREW_BOXES,
  SW_TOTAL_JOINT_LONG, SW_TOTAL_JOINT_END, SW_TOTAL_JOINT_MOVEMENT,
  SW_TOTAL_TAPE, SW_TOTAL_TAPE_ROLLS, SW_TOTAL_COMPOUND,
  SW_TOTAL_COVER_STRIP,  /* along joints that are not taped */
  SW_TOTAL_CORNICE, SW_TOTAL_CORNICE_LENGTHS, SW_TOTAL_MITRES, SW_TOTAL_ADHESIVE, /* lengths: length of one */
  SW_TOTAL_BEAD, SW_TOTAL_BEAD_LENGTHS, /* corner beads of bulkheads */
  SW_TOTAL_FIXINGS, SW_TOTAL_LONG_FIXINGS, SW_TOTAL_HANGERS, /* apart from each other */
  SW_TOTAL_PACKERS,      /* crossings with packing of 1 mm or more; length: mm of all together */
  SW_TOTAL_CLIPS,        /* of steel battens, at ribs and primaries */
  SW_TOTAL_INSULATION,   /* length: its thickness */
  SW_TOTAL_HATCHES,
  SW_N_TOTALS
} SwTotalKind;

typedef struct
{
  SwTotalKind kind;
  double a, b, length;   /* mm, as said at the kind; else 0 */
  SwQuantity quantity;   /* in sw_total_unit */
} SwTotal;

/* One section of timber: the lengths wanted and how they come out of stock. */
typedef struct
{
  double width, depth;
  GArray *items;         /* SwLinearItem, mm rounded up, longest first */
  GArray *stock;         /* SwLinearStock, mm */
  SwLinearPlan *plan;
} SwTotalSection;

typedef struct
{
  GArray *totals;        /* SwTotal, by kind, then size; none of quantity 0 */
  GArray *sections;      /* SwTotalSection */
} SwTotals;

/* Members longer than any stock are jointed over the last rib or primary that a stock length reaches. SW_ERROR_NOT_FOUND where
 * the rule set lacks a row, SW_ERROR_CANCELLED. */
SwTotals *sw_totals_new (const SwCeiling *ceiling, GCancellable *cancellable, GError **error);
void sw_totals_free (SwTotals *totals);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTotals, sw_totals_free)

/* How much timber a member takes: its length, and its section as it is bought (a batten on edge is a batten). */
double sw_totals_section (const SwRoom *room, const SwMember *member, double *width, double *depth);
/* Sum over all sizes of a kind. */
SwQuantity sw_totals_sum (const SwTotals *totals, SwTotalKind kind);
/* "sheets", "battens" …: key for price rows and files. Static. */
const char *sw_total_key (SwTotalKind kind);
/* For people, untranslated. Static. */
const char *sw_total_text (SwTotalKind kind);
/* "m", "m²", "kg", "" for pieces. Static. */
const char *sw_total_unit (SwTotalKind kind);

/* Screws of one whole sheet across battens at those centres: both ends at the end spacing, battens between at the field's. */
guint sw_totals_sheet_screws (const SwRules *rules, double length, double width, double centres);
/* Cornice or shadow line of a ceiling in plan: stretches from corner to corner in the order of the parts' sides, and where two are mitred. */
typedef struct { SwPoint from, to; double length; } SwCorniceRun;
typedef struct
{
  GArray *runs;   /* SwCorniceRun, mm */
  GArray *mitres; /* SwPoint */
} SwCornice;
SwCornice *sw_cornice_new (const SwCeiling *ceiling);
void sw_cornice_free (SwCornice *cornice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCornice, sw_cornice_free)
/* Lengths of cornice to buy for so many metres of wall. */
guint sw_totals_cornice_lengths (const SwRules *rules, double metres);
