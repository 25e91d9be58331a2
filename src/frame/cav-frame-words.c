/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-settings.h"

#include <string.h>

static const char *const STARTS[] = { "picture", "glass", "rabbet", "outside" };
static const char *const GLAZINGS[] = { "none", "glass", "acrylic" };
static const char *const BACKINGS[] = { "none", "card", "foam", "hardboard", "plywood" };
static const char *const SAWN[] = { "flat", "quarter" };
static const char *const FINISHES[] = { "bare", "oil", "wax", "varnish", "black", "white", "gilt" };

static const char *
get_word (const char *const *words, guint n_words, int value)
{
  return value >= 0 && value < (int)n_words ? words[value] : NULL;
}

static gboolean
find_word (const char *const *words, guint n_words, const char *string, int *out_value)
{
  for (guint i = 0; string != NULL && i < n_words; i++)
    if (strcmp (words[i], string) == 0)
      {
        *out_value = (int)i;
        return TRUE;
      }
  return FALSE;
}

/* The pair of functions of one enumeration, which counts from 0 without a gap. */
#define DEFINE_WORDS(Type, name, WORDS)                                                            \
  const char *cav_##name##_to_string (Type value)                                                  \
  {                                                                                                \
    return get_word (WORDS, G_N_ELEMENTS (WORDS), (int)value);                                     \
  }                                                                                                \
  gboolean cav_##name##_from_string (const char *string, Type *out_value)                          \
  {                                                                                                \
    int value = 0;                                                                                 \
    g_return_val_if_fail (out_value != NULL, FALSE);                                               \
    if (!find_word (WORDS, G_N_ELEMENTS (WORDS), string, &value))                                  \
      return FALSE;                                                                                \
    *out_value = (Type)value;                                                                      \
    return TRUE;                                                                                   \
  }

DEFINE_WORDS (CavFrameStart, frame_start, STARTS)
DEFINE_WORDS (CavGlazing, glazing, GLAZINGS)
DEFINE_WORDS (CavBacking, backing, BACKINGS)
DEFINE_WORDS (CavSawn, sawn, SAWN)
DEFINE_WORDS (CavFinish, finish, FINISHES)
