# SPDX-License-Identifier: GPL-3.0-or-later
"""A second judge of JSON texts: Python's json module and the guard's limits.

Standard input: documents, each as its length in 8 bytes (little endian) and its bytes.
Standard output: one character a document, 1 accepted, 0 refused.
"""
import json
import math
import struct
import sys

DEEPEST = 64


class Refused(Exception):
    """Against one of the guard's limits."""


def unique(pairs):
    keys = [key for key, _ in pairs]
    if len(set(keys)) != len(keys):
        raise Refused("a key twice")
    for key in keys:
        check_text(key)
    return dict(pairs)


def integer(text):
    # its length first: Python refuses to convert thousands of digits
    if len(text) > 20 or abs(int(text)) > 2 ** 53:
        raise Refused("integer")
    return int(text)


def real(text):
    value = float(text)
    mantissa = text.lower().split("e")[0]
    if math.isinf(value) or (value == 0 and mantissa.strip("-0.") != ""):
        raise Refused("number")
    return value


def constant(text):
    raise Refused(text)


def check_text(text):
    if "\0" in text or any(0xD800 <= ord(c) <= 0xDFFF for c in text):
        raise Refused("character")


def check(value, depth):
    if isinstance(value, str):
        check_text(value)
    if isinstance(value, (dict, list)):
        if depth > DEEPEST:
            raise Refused("depth")
        for part in value.values() if isinstance(value, dict) else value:
            check(part, depth + 1)


def accepts(data):
    if data.startswith(b"\xef\xbb\xbf"):
        data = data[3:]
    try:
        check(json.loads(data.decode("utf-8"), object_pairs_hook=unique, parse_int=integer, parse_float=real,
                         parse_constant=constant), 1)
    except (Refused, ValueError, RecursionError):
        return False
    return True


def main():
    data = sys.stdin.buffer.read()
    verdicts, at = [], 0
    while at < len(data):
        (length,) = struct.unpack_from("<Q", data, at)
        at += 8
        verdicts.append("1" if accepts(data[at:at + length]) else "0")
        at += length
    sys.stdout.write("".join(verdicts))


if __name__ == "__main__":
    main()
