"""Reads a sweep's files with PyArrow and DuckDB and checks them against what was computed.

Usage: read_back.py FOLDER-OF-ROWS FOLDER-OF-MAP EXPECTED.json

EXPECTED.json holds, for every column of the rows, its kind, unit and values; numbers as the
hexadecimal digits of their 64 bits, so that nothing is lost on the way here.
"""

import collections
import glob
import hashlib
import json
import struct
import sys

import duckdb
import pyarrow as pa
import pyarrow.parquet as pq

KINDS = {"whole": pa.int64(), "number": pa.float64(), "flag": pa.bool_(), "word": pa.string()}
DUCK_KINDS = {"whole": "BIGINT", "number": "DOUBLE", "flag": "BOOLEAN", "word": "VARCHAR"}


def check(true, *words):
    if not true:
        sys.exit("read_back: " + " ".join(str(word) for word in words))


def plain(kind, value):
    """A value as it stands in EXPECTED.json."""
    if kind == "number" and value is not None:
        return struct.pack(">d", value).hex()
    return value


def same(reader, name, kind, found, expected):
    check(len(found) == len(expected), reader, name, len(found), "rows, not", len(expected))
    for row, (one, other) in enumerate(zip(found, expected)):
        one = plain(kind, one)
        check(one == other, reader, name, "row", row, "is", one, "and not", other)


def check_rows(folder, expected):
    columns = expected["columns"]
    files = sorted(glob.glob(folder + "/shards/*.parquet"))
    check(len(files) > 1, "files:", files)
    tables = [pq.read_table(file) for file in files]
    for table in tables:
        check(table.schema.equals(tables[0].schema), "shards have different columns")
    table = pa.concat_tables(tables)
    check(pq.read_table(folder + "/shards").num_rows == table.num_rows, "read as one data set")
    check(set(table.column_names) == set(columns), table.column_names, "not", list(columns))
    relation = duckdb.sql(
        f"select * from read_parquet('{folder}/shards/*.parquet')"
        " order by point, list_position($rules, rule)", params={"rules": expected["rules"]}
    )
    duck_kinds = dict(zip(relation.columns, map(str, relation.types)))
    duck = dict(zip(relation.columns, zip(*relation.fetchall())))
    for name, about in columns.items():
        kind, field = about["kind"], table.schema.field(name)
        check(field.type == KINDS[kind], name, "is", field.type)
        check(duck_kinds[name] == DUCK_KINDS[kind], name, "is", duck_kinds[name])
        check(field.nullable == (kind != "whole"), name, "nullable:", field.nullable)
        same("PyArrow", name, kind, table.column(name).to_pylist(), about["values"])
        same("DuckDB", name, kind, duck[name], about["values"])
    check(any(None in about["values"] for about in columns.values()), "nothing is absent anywhere")
    for file in files:
        check_metadata(file, {name: about["unit"] for name, about in columns.items()}, expected)


def check_metadata(file, units, expected):
    notes = pq.read_metadata(file).metadata
    about = json.loads(notes[b"railproof.columns"])
    check({name: note["unit"] for name, note in about.items()} == units, file, about)
    check(all(note["meaning"] for note in about.values()), file, "a column without a meaning")
    check(notes[b"railproof.plan_sha256"].decode() == expected["plan_sha256"], file, "digest")
    # The digest can be taken of the plan in the file.
    plan = notes[b"railproof.plan"]
    check(hashlib.sha256(plan).hexdigest() == expected["plan_sha256"], file, "plan")
    versions = json.loads(notes[b"railproof.versions"])
    check(versions == expected["versions"], file, versions)
    check(json.loads(plan)["engine"] == versions["engine"], file, "engine")


def check_manifest(folder, expected):
    with open(folder + "/manifest.json", encoding="utf-8") as file:
        manifest = json.load(file)
    check(manifest["plan_sha256"] == expected["plan_sha256"], "digest of the manifest")
    counts = duckdb.sql(
        f"select rule, verdict, count(*) from read_parquet('{folder}/shards/*.parquet') group by all"
    ).fetchall()
    counted = collections.defaultdict(dict)
    for rule, verdict, count in counts:
        counted[rule][verdict] = count
    for entry in manifest["rules"]:
        said = {verdict: count for verdict, count in entry["verdicts"].items() if count}
        if entry["failed"]:
            said["failed"] = entry["failed"]
        check(counted[entry["rule"]] == said, entry["rule"], counted[entry["rule"]], "not", said)
        worst = duckdb.sql(
            f"select miss_m from read_parquet('{folder}/shards/*.parquet') where rule = $rule"
            " and miss_m is not null order by abs(miss_m) desc limit 1", params={"rule": entry["rule"]}
        ).fetchall()[0][0]
        check(worst == entry["worst_miss_m"], "worst miss", worst, entry["worst_miss_m"])
    check(sum(map(len, counted.values())) > 4, "too few verdicts to say anything:", counted)
    for entry in manifest["shards"]:
        with open(folder + "/" + entry["file"], "rb") as file:
            content = file.read()
        check(hashlib.sha256(content).hexdigest() == entry["sha256"], entry["file"])
        check(len(content) == entry["bytes"], entry["file"], "bytes")
        check(pq.read_metadata(folder + "/" + entry["file"]).num_rows == entry["rows"], "rows")
    check(len(manifest["shards"]) == len(glob.glob(folder + "/shards/*")), "shards")
    return manifest


def check_map(rows, folder, expected):
    """The map's cells are what grouping the rows by two inputs gives."""
    file = folder + "/map.parquet"
    cells = pq.read_table(file).to_pylist()
    inputs = expected["inputs"]
    pairs = {(cell["x"], cell["y"]) for cell in cells}
    check(len(pairs) == len(inputs) * (len(inputs) - 1) // 2, pairs)
    for x, y in pairs:
        grouped = collections.defaultdict(dict)
        columns = inputs[x], inputs[y]
        for rule, at_x, at_y, verdict, count, miss in duckdb.sql(
            f"select rule, {columns[0]}, {columns[1]}, verdict, count(*), sum(miss_m)"
            f" from read_parquet('{rows}/shards/*.parquet') group by all"
        ).fetchall():
            grouped[rule, at_x, at_y][verdict] = (count, miss or 0.0)
        own = [cell for cell in cells if (cell["x"], cell["y"]) == (x, y)]
        check(len(own) == len(grouped), x, y, len(own), "cells, not", len(grouped))
        for cell in own:
            check(cell["x_from"] == cell["x_to"] and cell["y_from"] == cell["y_to"], "bins", cell)
            verdicts = grouped[cell["rule"], cell["x_from"], cell["y_from"]]
            said = {
                name[len("banks_"):].replace("_", "-"): count
                for name, count in cell.items() if name.startswith("banks_") and count
            }
            if cell["failed"]:
                said["failed"] = cell["failed"]
            check(said == {name: count for name, (count, _) in verdicts.items()}, cell, verdicts)
            # Summed in another order, so only nearly the same: some hundred terms below a metre.
            missed = sum(miss for _, miss in verdicts.values())
            check(abs(missed - cell["sum_miss_m"]) < 1e-11, cell, missed)
    about = json.loads(pq.read_metadata(file).metadata[b"railproof.columns"])
    check(set(about) == set(cells[0]), "columns of the map")
    check(about["sum_squares_m2"]["unit"] == "m²", about["sum_squares_m2"])
    with open(folder + "/manifest.json", encoding="utf-8") as text:
        manifest = json.load(text)
    return manifest["rules"]


def main(rows, folder, expected):
    with open(expected, encoding="utf-8") as file:
        expected = json.load(file)
    check_rows(rows, expected)
    manifest = check_manifest(rows, expected)
    of_map = check_map(rows, folder, expected)
    counts = [(rule["verdicts"], rule["failed"]) for rule in manifest["rules"]]
    check(counts == [(rule["verdicts"], rule["failed"]) for rule in of_map], "manifests differ")
    print("read back with PyArrow", pa.__version__, "and DuckDB", duckdb.__version__)


main(*sys.argv[1:])
