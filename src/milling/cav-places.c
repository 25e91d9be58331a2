/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-places.h"

#define FIRST_SIZE 256

void
cav_places_clear (CavPlaces *places)
{
  g_free (places->names);
  g_free (places->numbers);
  *places = (CavPlaces){ NULL, NULL, 0, 0 };
}

/* Where a name stands, or the free place for it; half of all are free. */
static guint
find_slot (const CavPlaces *places, guint64 name)
{
  guint slot = (guint)name & (places->size - 1);

  while (places->names[slot] != 0 && places->names[slot] != name)
    slot = (slot + 1) & (places->size - 1);
  return slot;
}

static void
make_room (CavPlaces *places)
{
  CavPlaces old = *places;

  places->size = old.size > 0 ? 2 * old.size : FIRST_SIZE;
  places->names = g_new0 (guint64, places->size);
  places->numbers = g_new (int, places->size);
  for (guint i = 0; i < old.size; i++)
    if (old.names[i] != 0)
      {
        guint slot = find_slot (places, old.names[i]);

        places->names[slot] = old.names[i];
        places->numbers[slot] = old.numbers[i];
      }
  cav_places_clear (&old);
}

gboolean
cav_places_find (const CavPlaces *places, guint64 name, int *out_number)
{
  guint slot = places->size > 0 ? find_slot (places, name) : 0;

  if (places->size == 0 || places->names[slot] == 0)
    return FALSE;
  *out_number = places->numbers[slot];
  return TRUE;
}

gboolean
cav_places_add (CavPlaces *places, guint64 name, int number)
{
  guint slot;

  if (2 * places->n >= places->size)
    make_room (places);
  slot = find_slot (places, name);
  if (places->names[slot] != 0)
    return FALSE;
  places->names[slot] = name;
  places->numbers[slot] = number;
  places->n++;
  return TRUE;
}
