#!/usr/bin/env python3
"""Checks a ZIP file as a bag by RFC 8493 (BagIt 1.0), with nothing but Python's own library.

usage: bag.py FILE.zip    prints "valid", or every path that is not as the manifests say; exit code 1 then
"""

import hashlib
import sys
import zipfile


def main(path):
    problems = []
    with zipfile.ZipFile(path) as archive:
        if archive.testzip() is not None:
            return [f"{archive.testzip()}: damaged"]
        names = [name for name in archive.namelist() if not name.endswith("/")]
        # Section 4: an archive has one base directory.
        bases = {name.split("/", 1)[0] for name in names}
        if len(bases) != 1 or any("/" not in name for name in names):
            return ["more than one base directory"]
        base = bases.pop() + "/"
        files = {name[len(base) :]: archive.read(name) for name in names}
    # Section 2.1.1.
    if files.get("bagit.txt") != b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n":
        problems.append("bagit.txt: not the declaration")
    # Sections 2.1.3 and 2.2.1.
    payload = {name for name in files if name.startswith("data/")}
    for manifest, of in (
        ("manifest-sha256.txt", payload),
        ("tagmanifest-sha256.txt", set(files) - payload - {"tagmanifest-sha256.txt"}),
    ):
        listed = {}
        for line in files[manifest].decode("utf-8").splitlines():
            digest, name = line.split(None, 1)
            listed[name.replace("%0A", "\n").replace("%0D", "\r").replace("%25", "%")] = digest
        problems += [f"{name}: not in {manifest}" for name in of - set(listed)]
        problems += [f"{name}: missing" for name in set(listed) - set(files)]
        problems += [
            f"{name}: another digest"
            for name, digest in listed.items()
            if name in files and hashlib.sha256(files[name]).hexdigest() != digest
        ]
    # Section 2.2.2: Payload-Oxum.
    oxum = f"{sum(len(files[name]) for name in payload)}.{len(payload)}"
    if f"Payload-Oxum: {oxum}" not in files["bag-info.txt"].decode("utf-8").splitlines():
        problems.append("bag-info.txt: another Payload-Oxum")
    return problems


if __name__ == "__main__":
    found = main(sys.argv[1])
    print("\n".join(found) if found else "valid")
    sys.exit(1 if found else 0)
