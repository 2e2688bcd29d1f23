#include "ceiling/sheet_search.h"
void sw_sheet_search (const SwSheetProblem *problem, SwSheetPlan **plan, GCancellable *cancellable) { }
