/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail-private.h"

#include "milling/cav-root.h"

/* Labels a band whose spans each rest on the one that has the same number below, and on no other.
 * FALSE where it is not like that. */
static gboolean
label_like_below (CavScratch *s, int below, int band, int end)
{
  const CavSpan *p = &s->spans[below], *q = &s->spans[band];
  int n = end - band;
  gint32 left = G_MININT32 / 2; /* farthest right that anything to the left reaches */

  if (band - below != n)
    return FALSE;
  for (int k = 0; k < n; k++)
    {
      if (MIN (p[k].b, q[k].b) - MAX (p[k].a, q[k].a) < CAV_SPAN_LEAST
          || left - MIN (p[k].a, q[k].a) >= CAV_SPAN_LEAST)
        return FALSE;
      left = MAX (p[k].b, q[k].b);
      s->parent[band + k] = s->parent[below + k];
    }
  return TRUE;
}

/* Joins the spans of a band with those below that they touch. Returns how many pieces the band adds
 * to those below. */
static int
join_band (CavScratch *s, int band)
{
  int i = s->first[band - 1], last = s->first[band], end = s->first[band + 1];
  int *parent = s->parent, added = end - last;

  /* Most bands are one span that rests on one span. */
  if (end - last == 1 && last - i == 1
      && MIN (s->spans[i].b, s->spans[last].b) - MAX (s->spans[i].a, s->spans[last].a)
             >= CAV_SPAN_LEAST)
    {
      parent[last] = parent[i];
      return 0;
    }
  if (label_like_below (s, i, last, end))
    return 0;
  for (int j = last; j < end; j++)
    {
      CavSpan span = s->spans[j];
      int root = -1;

      /* The spans below that reach under this one; the last may reach under the next too. */
      while (i < last && s->spans[i].b - span.a < CAV_SPAN_LEAST)
        i++;
      for (int k = i; k < last && span.b - s->spans[k].a >= CAV_SPAN_LEAST; k++)
        {
          int other;

          if (MIN (s->spans[k].b, span.b) - MAX (s->spans[k].a, span.a) < CAV_SPAN_LEAST)
            continue;
          other = parent[k] == parent[parent[k]] ? parent[k] : cav_find_root (parent, k);
          if (root == other)
            continue;
          added--;
          if (root >= 0)
            parent[MAX (root, other)] = MIN (root, other);
          root = root < 0 ? other : MIN (root, other);
        }
      parent[j] = root < 0 ? j : root;
    }
  return added;
}

/* The same with a band below those that are joined already. */
static int
join_below (CavScratch *s, int band)
{
  int k = s->first[band + 1], end = s->first[band + 2], last = k;
  int *parent = s->parent, added = 0;

  for (int j = s->first[band]; j < last; j++)
    {
      CavSpan span = s->spans[j];

      parent[j] = j;
      added++;
      while (k < end && s->spans[k].b - span.a < CAV_SPAN_LEAST)
        k++;
      for (int i = k; i < end && span.b - s->spans[i].a >= CAV_SPAN_LEAST; i++)
        if (MIN (s->spans[i].b, span.b) - MAX (s->spans[i].a, span.a) >= CAV_SPAN_LEAST)
          {
            int root = cav_find_root (parent, j), other = cav_find_root (parent, i);

            added -= root != other;
            parent[MAX (root, other)] = MIN (root, other);
          }
    }
  return added;
}

int
cav_scratch_find_pieces (CavScratch *s, gboolean was_whole)
{
  int from = was_whole ? s->from : 0, to = was_whole ? s->to : s->n_bands;
  int n_pieces = s->first[from + 1] - s->first[from];

  for (int i = s->first[from]; i < s->first[from + 1]; i++)
    s->parent[i] = i;
  for (int band = from + 1; band < s->n_bands && (band <= to || n_pieces != 1); band++)
    n_pieces += join_band (s, band);
  for (int band = from - 1; band >= 0 && n_pieces != 1; band--)
    n_pieces += join_below (s, band);
  if (n_pieces > 1)
    for (int i = 0; i < s->first[s->n_bands]; i++)
      s->parent[i] = cav_find_root (s->parent, i);
  return n_pieces;
}
