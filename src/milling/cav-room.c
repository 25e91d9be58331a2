/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-room.h"

#define BLOCK 32768
#define ALIGNMENT 16

gpointer
cav_room_take (CavRoom *room, gsize size)
{
  char *taken;

  size = (size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
  if (size > room->left)
    {
      room->left = MAX (size, BLOCK);
      room->next = g_malloc (room->left);
      room->blocks = g_slist_prepend (room->blocks, room->next);
    }
  taken = room->next;
  room->next += size;
  room->left -= size;
  return taken;
}

void
cav_room_join (CavRoom *room, CavRoom *other)
{
  room->blocks = g_slist_concat (other->blocks, room->blocks);
  if (other->left > room->left)
    {
      room->next = other->next;
      room->left = other->left;
    }
  *other = (CavRoom){ NULL, NULL, 0 };
}

void
cav_room_clear (CavRoom *room)
{
  g_slist_free_full (room->blocks, g_free);
  *room = (CavRoom){ NULL, NULL, 0 };
}
