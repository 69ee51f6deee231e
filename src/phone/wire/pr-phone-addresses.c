/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <net/route.h>
#include <stdio.h>
#include <string.h>

void
pr_phone_address_free (PrPhoneAddress *address)
{
  g_free (address->text);
  g_free (address->interface);
  g_free (address);
}

/* --- the way out --- */

/* Interface, metric and flags of LINE, where it leads everywhere. Linux, Documentation/networking: columns of
 * /proc/net/route and ipv6_route, hexadecimal but for the metric of the first. */
static bool
read_route (const char *line, bool six, char name[IF_NAMESIZE], unsigned *metric)
{
  unsigned long to;
  unsigned flags, width;
  char zeros[33];

  if (six)
    return sscanf (line, "%32s %x %*s %*s %*s %x %*s %*s %x %15s", zeros, &width, metric, &flags, name) == 5
           && width == 0 && strspn (zeros, "0") == 32 && (flags & (RTF_UP | RTF_REJECT)) == RTF_UP;
  return sscanf (line, "%15s %lx %*s %x %*s %*s %u %*s", name, &to, &flags, metric) == 4 && to == 0
         && (flags & (RTF_UP | RTF_REJECT)) == RTF_UP;
}

char *
pr_phone_way_out (const char *table, bool six)
{
  g_auto (GStrv) lines = g_strsplit (table, "\n", -1);
  char name[IF_NAMESIZE], best[IF_NAMESIZE] = "";
  unsigned metric, least = 0;

  for (int i = 0; lines[i] != NULL; i++)
    if (read_route (lines[i], six, name, &metric) && (best[0] == '\0' || metric < least)) {
      least = metric;
      g_strlcpy (best, name, sizeof best);
    }
  return best[0] != '\0' ? g_strdup (best) : NULL;
}

static char *
way_out_now (bool six)
{
  g_autofree char *table = NULL;

  return g_file_get_contents (six ? "/proc/net/ipv6_route" : "/proc/net/route", &table, NULL, NULL)
             ? pr_phone_way_out (table, six)
             : NULL;
}

/* --- what there is --- */

/* Bridges, tunnels and the ends of containers have no device behind them. */
static bool
has_hardware (const char *interface)
{
  g_autofree char *device = g_build_filename ("/sys/class/net", interface, "device", NULL);

  return g_file_test (device, G_FILE_TEST_EXISTS);
}

/* IN's address as text, where a browser can be given it; transfer full. */
static char *
address_text (const struct sockaddr *in, bool *six)
{
  char text[INET6_ADDRSTRLEN];
  const struct in_addr *four = &((const struct sockaddr_in *) (const void *) in)->sin_addr;
  const struct in6_addr *long_one = &((const struct sockaddr_in6 *) (const void *) in)->sin6_addr;

  *six = in->sa_family == AF_INET6;
  if (*six && (IN6_IS_ADDR_LINKLOCAL (long_one) || IN6_IS_ADDR_LOOPBACK (long_one)))
    return NULL;
  if (!*six && (in->sa_family != AF_INET || ntohl (four->s_addr) >> 16 == 0xa9fe))
    return NULL;
  return g_strdup (
      inet_ntop (in->sa_family, *six ? (const void *) long_one : (const void *) four, text, sizeof text));
}

static void
add_interface (GPtrArray *all, const struct ifaddrs *one, const char *way_out[2])
{
  bool six, up = (one->ifa_flags & IFF_UP) && (one->ifa_flags & IFF_RUNNING),
            own = one->ifa_flags & IFF_LOOPBACK;
  char *text = one->ifa_addr != NULL && up && !own ? address_text (one->ifa_addr, &six) : NULL;

  if (text == NULL)
    return;
  PrPhoneAddress *address = g_new0 (PrPhoneAddress, 1);
  address->text = text;
  address->interface = g_strdup (one->ifa_name);
  address->six = six;
  address->hardware = has_hardware (one->ifa_name);
  address->way_out = g_strcmp0 (way_out[six], one->ifa_name) == 0;
  g_ptr_array_add (all, address);
}

static void
add_told (GPtrArray *all, const char *told)
{
  g_auto (GStrv) texts = g_strsplit (told, ",", -1);

  for (int i = 0; texts[i] != NULL; i++) {
    PrPhoneAddress *address = g_new0 (PrPhoneAddress, 1);

    address->text = g_strdup (texts[i]);
    address->interface = g_strdup ("");
    address->six = strchr (texts[i], ':') != NULL;
    g_ptr_array_add (all, address);
  }
}

/* --- the order --- */

static int
rank (const PrPhoneAddress *a)
{
  return (a->hardware ? 0 : 4) + (a->way_out ? 0 : 2) + (a->six ? 1 : 0);
}

static int
by_rank (gconstpointer a, gconstpointer b)
{
  return rank (*(PrPhoneAddress *const *) a) - rank (*(PrPhoneAddress *const *) b);
}

void
pr_phone_addresses_sort (GPtrArray *addresses)
{
  g_ptr_array_sort (addresses, by_rank); /* which is stable: what the system tells first stays first */
}

GPtrArray *
pr_phone_addresses (void)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_phone_address_free);
  g_autofree char *four = way_out_now (false), *six = way_out_now (true);
  const char *way_out[2] = { four, six }, *told = g_getenv ("PRITCHEL_PHONE_ADDRESS");
  struct ifaddrs *list;

  if (told != NULL)
    add_told (all, told);
  else if (getifaddrs (&list) == 0) {
    for (const struct ifaddrs *one = list; one != NULL; one = one->ifa_next)
      add_interface (all, one, way_out);
    freeifaddrs (list);
    pr_phone_addresses_sort (all);
  }
  return all;
}
