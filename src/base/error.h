/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* One domain for the core: the code says what kind of mishap, the message says what, where and what to do. */
#define SW_ERROR (sw_error_quark ())

typedef enum
{
  SW_ERROR_INVALID,  /* input that cannot be right: the message names the place */
  SW_ERROR_NOT_FOUND,
  SW_ERROR_CONFLICT, /* the job changed, or somebody else holds it */
  SW_ERROR_READ_ONLY,
  SW_ERROR_IO,
  SW_ERROR_TOO_NEW,  /* written by a newer version */
  SW_ERROR_DAMAGED,
  SW_ERROR_LIMIT,    /* too large, too slow or too deep to go on */
  SW_ERROR_CANCELLED,
  SW_ERROR_INTERNAL
} SwErrorCode;

GQuark sw_error_quark (void);
