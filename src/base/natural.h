/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The order in which people look for marks: figures in them by value, "R2" before "R10", the rest by bytes. A total order. */
int sw_natural_compare (const char *a, const char *b);
