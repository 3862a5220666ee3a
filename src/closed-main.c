/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The empty program that is linked with one whole library and only what that library may use.
 * It is never run: that it links is the proof. */

int
main (void)
{
  return 0;
}
